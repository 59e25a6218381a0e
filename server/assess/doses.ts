/** How much of the living foliage a job takes, and how much the tree has lost in the years before it. */

import type { Span } from '../../grammar/text.ts';
import { add, clip, exact, type Interval, interval, multiply } from '../base/interval.ts';
import { type Quantity, unitOf } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Prescription, Tree } from '../facts/types.ts';
import { doseBounds } from '../mechanics/reduction.ts';
import {
  AGE_CLASSES,
  type AgeClass,
  doseLimits,
  type LimitName,
  VIGOR_CLASSES,
  type VigorClass,
} from '../practice/limits.ts';
import { crownReduction } from './crowns.ts';
import { areAlternatives, areApart, areTheSame, type Job, jobs, stagesLeft, stagesOf } from './jobs.ts';

/** The reading of a share, which never leaves 0 to 1. */
function shareReading(quantity: Quantity, settings: Settings): Interval {
  return clip(valuesOf(quantity, settings), interval(0, 1));
}

/** Prescriptions that keep a crown and are measured by a dose; pollards, monoliths and felling are not. */
const DOSED: ReadonlySet<string> = new Set(['reduce', 'thin', 'raise', 'clean', 'restore']);
/** Of these, the ones that always take living wood: no dose stated means unknown, not none. */
const TAKES_FOLIAGE: ReadonlySet<string> = new Set(['reduce', 'thin', 'raise', 'restore']);

export const isDosed = ({ kind }: Prescription): boolean => DOSED.has(kind.value);
export const takesFoliage = ({ kind }: Prescription): boolean => TAKES_FOLIAGE.has(kind.value);

/** How the dimensions of a reduction tell its dose, for the pages of the rules. */
export const DOSE_BY_DIMENSIONS =
  'a lower top or a higher base removes a share between the loss of crown silhouette and the loss of crown volume, since foliage is concentrated toward the outside to an unknown degree; a smaller spread, kw times the old one, removes between 1 − kw and 1 − kw²';

export interface Dose {
  /** Share of the living foliage in one season. */
  readonly share: Interval;
  /** The same over all stages. */
  readonly total: Interval;
  /** Seasons over which it is spread. */
  readonly stages: number;
  /** The dose as written; absent where the change of the crown has to tell it. */
  readonly written?: Placed<Quantity>;
  /** Where it is written, or the change that tells it. */
  readonly at: Span;
}

/**
 * The dose of one season under a job: as recorded with the work, else as prescribed, else as the change of the
 * crown gives it (between its silhouette and its volume); an equal part for each stage. Undefined where none of
 * them says anything.
 */
export function doseOf(tree: Tree, { prescription, work }: Job, settings: Settings): Dose | undefined {
  if (work?.dose) {
    const share = shareReading(work.dose.value, settings);
    return { share, total: share, stages: 1, written: work.dose, at: work.dose };
  }
  const stages = stagesOf(prescription);
  const each = ({ low, high }: Interval) => interval(low / stages, high / stages);
  if (prescription.dose) {
    const total = shareReading(prescription.dose.value, settings);
    return { share: each(total), total, stages, written: prescription.dose, at: prescription.dose };
  }
  const reduction = crownReduction(tree, prescription, settings);
  if (!reduction) return undefined;
  const total = doseBounds(reduction.crown, reduction.change);
  const at = prescription.height ?? prescription.spread ?? prescription.base!;
  return { share: each(total), total, stages, at };
}

const oneOf = <T extends string>(words: readonly T[], word: string | undefined): T | undefined =>
  words.find(candidate => candidate === word);

/** What thins or shortens the whole crown. */
const THINS_OR_REDUCES: ReadonlySet<string> = new Set(['thin', 'reduce']);

/** The limits on one season's dose that hold for this work on this tree; a stressed tree is one of poor vigour. */
export function doseLimitsOf({ age, vigor, stressed }: Tree, kind: string): readonly LimitName[] {
  const ageClass: AgeClass | undefined = oneOf(AGE_CLASSES, age?.value);
  const vigorClass: VigorClass | undefined = stressed ? 'poor' : oneOf(VIGOR_CLASSES, vigor?.value);
  const byTree = doseLimits(ageClass, vigorClass);
  return THINS_OR_REDUCES.has(kind) ? [...byTree, 'thinning-share'] : byTree;
}

/** A dead tree has no foliage to dose. */
export const isDead = ({ vigor }: Tree): boolean => vigor?.value === 'dead';

/** One job's part in a sum of doses. */
export interface Share extends Span {
  readonly job: Job;
  readonly share: Interval;
  /** Nobody wrote down how much: anything from nothing to all of it. */
  readonly unknown: boolean;
}

export interface Cumulation {
  readonly job: Job;
  /** Doses that are added: one for each work before it, and one for each stage still to come. */
  readonly count: number;
  /** What counts, in order of time; the job's own part last. */
  readonly shares: readonly Share[];
  readonly total: Interval;
}

const lastDay = ({ days }: Job, today: number): number => days?.to ?? today;
const firstDay = ({ days }: Job, today: number): number => days?.from ?? today;

/** In the order in which they may begin, whatever the order in which they were written. */
const inOrder = (shares: readonly Share[], today: number): readonly Share[] =>
  [...shares].sort(
    ({ job: a }, { job: b }) =>
      firstDay(a, today) - firstDay(b, today) || (a.subject < b.subject ? -1 : a.subject > b.subject ? 1 : 0),
  );

/** Open doses of one tree; what an open prescription leaves out is a matter of its own. */
const openShares = (tree: Tree, today: number, settings: Settings): readonly Share[] =>
  inOrder(
    jobs(tree, today).flatMap((job): Share[] => {
      if (job.work || !isDosed(job.prescription)) return [];
      const dose = doseOf(tree, job, settings);
      return dose ? [{ start: dose.at.start, end: dose.at.end, job, share: dose.share, unknown: false }] : [];
    }),
    today,
  );

const sumOf = (shares: readonly Share[]): Interval =>
  shares.reduce((sum, { share }) => add(sum, share), exact(0));

export interface SeasonSum {
  readonly own: Share;
  /** What is open in the same season and comes before it. */
  readonly others: readonly Share[];
  readonly before: Interval;
  readonly total: Interval;
}

/** What may be done as well as a prescription: neither the same nor an alternative, and of alternatives the most. */
function besides(tree: Tree, { job }: Share, shares: readonly Share[]): readonly Share[] {
  const others = shares.filter(
    one =>
      !areTheSame(one.job.prescription, job.prescription) &&
      !areAlternatives(tree, one.job.prescription, job.prescription),
  );
  return others.filter(
    (one, i) =>
      !others.some(
        (other, k) =>
          areAlternatives(tree, one.job.prescription, other.job.prescription) &&
          (other.share.high > one.share.high || (other.share.high === one.share.high && k > i)),
      ),
  );
}

/** For each open prescription what it comes to with the others that are open in its season; only sums. */
export function seasonSums(tree: Tree, today: number, settings: Settings): readonly SeasonSum[] {
  if (tree.prescriptions.length < 2) return [];
  const season = settings.limit('stage-interval').value;
  const open = openShares(tree, today, settings);
  return open.flatMap((own, i): SeasonSum[] => {
    const others = besides(
      tree,
      own,
      open.slice(0, i).filter(({ job }) => !areApart(job.prescription, own.job.prescription, season)),
    );
    if (others.length === 0) return [];
    const before = sumOf(others);
    return [{ own, others, before, total: add(before, own.share) }];
  });
}

/**
 * For each open prescription, its dose, with the stages that follow within as many years, those of other open
 * prescriptions that come before it, and those of the work in the years before it; where none is open, the last work
 * and those before it. Only sums over more than one season.
 *
 * The years are counted back from the first day on which the job may be done: the day that lets most count.
 */
export function cumulations(
  tree: Tree,
  today: number,
  years: number,
  settings: Settings,
): readonly Cumulation[] {
  // As for most trees: nothing was done yet, and nothing comes in stages or twice.
  if (
    tree.works.length === 0 &&
    tree.prescriptions.length < 2 &&
    tree.prescriptions.every(one => stagesOf(one) === 1)
  )
    return [];
  const done = jobs(tree, today)
    .filter(({ prescription, work }) => work && isDosed(prescription))
    .flatMap((job): Share[] => {
      const dose = doseOf(tree, job, settings);
      const place = job.work?.dose ? (dose?.at ?? job.at) : job.at;
      const span = { start: place.start, end: place.end };
      if (dose) return [{ ...span, job, share: dose.share, unknown: false }];
      return takesFoliage(job.prescription) ? [{ ...span, job, share: interval(0, 1), unknown: true }] : [];
    })
    .sort((a, b) => lastDay(a.job, today) - lastDay(b.job, today));
  // Stages follow each other a year apart.
  const seasons = Math.ceil(years / unitOf('years')!.factor);
  const season = settings.limit('stage-interval').value;
  const toCome = ({ job }: Share): number =>
    job.work ? 1 : Math.min(stagesLeft(tree, job.prescription), seasons);
  const whole = (one: Share): Share => ({ ...one, share: multiply(one.share, exact(toCome(one))) });
  const open = openShares(tree, today, settings);
  const ends = open.length > 0 ? open : done.slice(-1);
  return ends.flatMap((end, i): Cumulation[] => {
    const day = firstDay(end.job, today);
    const within = ({ job }: Share) => firstDay(job, today) <= day && day - firstDay(job, today) < years;
    const worked = done.filter(one => one.job !== end.job && within(one));
    const planned = besides(tree, end, open.slice(0, i).filter(within));
    const isOneSeason =
      toCome(end) === 1 &&
      worked.length === 0 &&
      planned.every(
        one => toCome(one) === 1 && !areApart(one.job.prescription, end.job.prescription, season),
      );
    if (isOneSeason) return [];
    const shares = [...worked, ...planned, end].map(whole);
    const count = [...worked, ...planned, end].reduce((sum, one) => sum + toCome(one), 0);
    return [{ job: end.job, count, shares, total: sumOf(shares) }];
  });
}
