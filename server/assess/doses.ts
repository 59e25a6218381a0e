/** DoseShare of the live foliage that jobs remove, and its sums over seasons and years. */

import type { Span } from '../../grammar/text.ts';
import { add, clip, exact, type Interval, interval, multiply } from '../base/interval.ts';
import { type Quantity, unitOf } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import { stagesLeft, stagesOf } from '../facts/stages.ts';
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
import { areAlternatives, areApart, areTheSame, type Job, jobs } from './jobs.ts';
import { strictest } from './judge.ts';

/** Clipped to 0 to 1. */
function shareReading(quantity: Quantity, settings: Settings): Interval {
  return clip(valuesOf(quantity, settings), interval(0, 1));
}

/** Kinds that retain a crown and have a dose; not pollards, monoliths and felling. */
const DOSED: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
]);
/** Kinds that always remove living wood: without a stated dose it is unknown, not zero. */
const TAKES_FOLIAGE: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'restore',
]);

export const isDosed = ({ kind }: Prescription): boolean => DOSED.has(kind.value);
export const takesFoliage = ({ kind }: Prescription): boolean => TAKES_FOLIAGE.has(kind.value);

/** Explains on rule pages how dimensions determine a dose. */
export const DOSE_BY_DIMENSIONS =
  'A lower top or a higher base removes a share between the loss of crown silhouette and the loss of crown volume. How much the foliage is concentrated toward the outside is not known. A smaller spread, kw times the old one, removes between 1 − kw and 1 − kw².';

export interface Dose {
  /** DoseShare of the live foliage in one season. */
  readonly share: Interval;
  /** Over all stages. */
  readonly total: Interval;
  /** Number of seasons. */
  readonly stages: number;
  /** The dose as written; undefined if derived from the change of the crown. */
  readonly written?: Placed<Quantity>;
  /** Whether it is what work on record has left of a prescription. */
  readonly isRest?: true;
  /** Position of the dose or of the change. */
  readonly at: Span;
}

/**
 * The dose of one season under a job: as recorded with the work, else as prescribed, else derived from the change of
 * the crown (between silhouette and volume), in equal parts per stage; of open work in what earlier work has left of it.
 * Undefined without any of these.
 */
export function doseOf(tree: Tree, { prescription, work }: Job, settings: Settings): Dose | undefined {
  if (work?.dose) {
    const share = shareReading(work.dose.value, settings);
    return { share, total: share, stages: 1, written: work.dose, at: work.dose };
  }
  const dose = prescribedDose(tree, prescription, settings);
  return dose && !work ? restOf(dose, tree, prescription, settings) : dose;
}

function prescribedDose(tree: Tree, prescription: Prescription, settings: Settings): Dose | undefined {
  const stages = stagesOf(prescription);
  if (prescription.dose) {
    const total = shareReading(prescription.dose.value, settings);
    const at = prescription.dose;
    return { share: divided(total, stages), total, stages, written: at, at };
  }
  const reduction = crownReduction(tree, prescription, settings);
  if (!reduction) return undefined;
  const total = doseBounds(reduction.crown, reduction.change);
  const at = prescription.height ?? prescription.spread ?? prescription.base!;
  return { share: divided(total, stages), total, stages, at };
}

const divided = ({ low, high }: Interval, by: number): Interval => interval(low / by, high / by);

/** What is left of a dose after the work on record, in equal parts for the stages that are left. */
function restOf(dose: Dose, { works }: Tree, prescription: Prescription, settings: Settings): Dose {
  const done = works.filter(work => work.prescription.value === prescription.id.value);
  // Stages as prescribed leave the others as prescribed.
  if (!done.some(work => work.dose || work.unfinished)) return dose;
  const total = done.reduce((rest, work) => {
    const taken = work.dose
      ? shareReading(work.dose.value, settings)
      : work.unfinished
        ? interval(0, dose.share.high)
        : dose.share;
    return interval(Math.max(0, rest.low - taken.high), Math.max(0, rest.high - taken.low));
  }, dose.total);
  const stages = Math.max(1, stagesLeft({ works }, prescription));
  return { ...dose, share: divided(total, stages), total, stages, isRest: true };
}

const oneOf = <T extends string>(words: readonly T[], word: string | undefined): T | undefined =>
  words.find(candidate => candidate === word);

const THINS_OR_REDUCES: ReadonlySet<Prescription['kind']['value']> = new Set(['thin', 'reduce']);

/** The limits on one season's dose of this work; a stressed tree counts as one of poor vigor. */
export function doseLimitsOf(
  { age, vigor, stressed }: Tree,
  kind: Prescription['kind']['value'],
): readonly LimitName[] {
  const ageClass: AgeClass | undefined = oneOf(AGE_CLASSES, age?.value);
  const vigorClass: VigorClass | undefined = stressed ? 'poor' : oneOf(VIGOR_CLASSES, vigor?.value);
  const byTree = doseLimits(ageClass, vigorClass);
  return THINS_OR_REDUCES.has(kind) ? [...byTree, 'thinning-share'] : byTree;
}

export const isDead = ({ vigor }: Tree): boolean => vigor?.value === 'dead';

/** A job's contribution to a sum of doses. */
export interface DoseShare extends Span {
  readonly job: Job;
  readonly share: Interval;
  /** The dose is not stated: anything from 0 to 1. */
  readonly unknown: boolean;
}

export interface Cumulation {
  readonly job: Job;
  /** Number of doses added: one per previous work and per stage still to come. */
  readonly count: number;
  /** In chronological order; the job's own share is last. */
  readonly shares: readonly DoseShare[];
  readonly total: Interval;
}

const lastDay = ({ days }: Job, today: number): number => days?.to ?? today;
const firstDay = ({ days }: Job, today: number): number => days?.from ?? today;

/** Ordered by first possible day. */
const inOrder = (shares: readonly DoseShare[], today: number): readonly DoseShare[] =>
  [...shares].sort(
    ({ job: a }, { job: b }) =>
      firstDay(a, today) - firstDay(b, today) || (a.subject < b.subject ? -1 : a.subject > b.subject ? 1 : 0),
  );

/** Doses of open prescriptions; those without a dose are omitted. */
const openShares = (tree: Tree, today: number, settings: Settings): readonly DoseShare[] =>
  inOrder(
    jobs(tree, today).flatMap((job): DoseShare[] => {
      if (job.work || !isDosed(job.prescription)) return [];
      const dose = doseOf(tree, job, settings);
      return dose ? [{ start: dose.at.start, end: dose.at.end, job, share: dose.share, unknown: false }] : [];
    }),
    today,
  );

const sumOf = (shares: readonly DoseShare[]): Interval =>
  shares.reduce((sum, { share }) => add(sum, share), exact(0));

export interface SeasonSum {
  readonly own: DoseShare;
  /** Open earlier in the same season. */
  readonly others: readonly DoseShare[];
  readonly before: Interval;
  readonly total: Interval;
}

/** Shares that may be done in addition: not duplicates or alternatives, and only the largest of alternatives. */
function besides(tree: Tree, { job }: DoseShare, shares: readonly DoseShare[]): readonly DoseShare[] {
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

/** Sums of each open prescription with earlier ones of its season; single doses are omitted. */
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
 * Sums over several years: for each open prescription its dose with following stages, earlier open prescriptions and
 * previous work; without open ones, the last work with previous work. Sums within one season are omitted.
 *
 * The years are counted back from the first day of the job, which includes most previous work.
 */
export function cumulations(
  tree: Tree,
  today: number,
  years: number,
  settings: Settings,
): readonly Cumulation[] {
  // Fast path for most trees: nothing done yet, nothing in stages or repeated.
  if (
    tree.works.length === 0 &&
    tree.prescriptions.length < 2 &&
    tree.prescriptions.every(one => stagesOf(one) === 1)
  )
    return [];
  const done = jobs(tree, today)
    .filter(({ prescription, work }) => work && isDosed(prescription))
    .flatMap((job): DoseShare[] => {
      const dose = doseOf(tree, job, settings);
      const place = job.work?.dose ? (dose?.at ?? job.at) : job.at;
      const span = { start: place.start, end: place.end };
      if (dose) return [{ ...span, job, share: dose.share, unknown: false }];
      return takesFoliage(job.prescription) ? [{ ...span, job, share: interval(0, 1), unknown: true }] : [];
    })
    .sort((a, b) => lastDay(a.job, today) - lastDay(b.job, today));
  // Stages are a year apart.
  const seasons = Math.ceil(years / unitOf('years')!.factor);
  const season = settings.limit('stage-interval').value;
  const toCome = ({ job }: DoseShare): number =>
    job.work ? 1 : Math.min(stagesLeft(tree, job.prescription), seasons);
  const whole = (one: DoseShare): DoseShare => ({ ...one, share: multiply(one.share, exact(toCome(one))) });
  const open = openShares(tree, today, settings);
  const ends = open.length > 0 ? open : done.slice(-1);
  return ends.flatMap((end, i): Cumulation[] => {
    const day = firstDay(end.job, today);
    const within = ({ job }: DoseShare) => firstDay(job, today) <= day && day - firstDay(job, today) < years;
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

/** Doses that count today, of open work and of work of the last years, against the limit of a season. */
export function countedDoses(
  tree: Tree,
  settings: Settings,
  today: number,
): readonly { readonly job: Job; readonly dose: Dose; readonly limit: LimitName }[] {
  if (isDead(tree)) return [];
  const years = settings.limit('cumulative-years').value;
  return jobs(tree, today).flatMap(job => {
    const { prescription, work } = job;
    if (!isDosed(prescription) || (work && today - work.date.value >= years)) return [];
    const dose = doseOf(tree, job, settings);
    const limit = strictest(doseLimitsOf(tree, prescription.kind.value), settings);
    return dose ? [{ job, dose, limit }] : [];
  });
}
