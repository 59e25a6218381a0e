/** How much of the living foliage a job takes, and how much the tree has lost in the years before it. */

import { type Quantity, unitOf } from '../../grammar/quantity.ts';
import type { Span } from '../../grammar/text.ts';
import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Prescription, Tree } from '../facts/types.ts';
import { add, clip, exact, type Interval, interval, multiply } from '../mechanics/interval.ts';
import { doseBounds } from '../mechanics/reduction.ts';
import {
  AGE_CLASSES,
  type AgeClass,
  doseLimits,
  type LimitName,
  VIGOR_CLASSES,
  type VigorClass,
} from '../practice/index.ts';
import { crownReduction } from './crowns.ts';
import { type Job, jobs, stagesLeft, stagesOf } from './jobs.ts';

/** The reading of a share, which never leaves 0 to 1. */
function shareReading(quantity: Quantity, settings: Settings): Interval {
  return clip(reading(quantity, settings), interval(0, 1));
}

/** Prescriptions that keep a crown and are measured by a dose; pollards, monoliths and felling are not. */
const DOSED: ReadonlySet<string> = new Set(['reduce', 'thin', 'raise', 'clean', 'restore']);
/** Of these, the ones that always take living wood: no dose stated means unknown, not none. */
const TAKES_FOLIAGE: ReadonlySet<string> = new Set(['reduce', 'thin', 'raise', 'restore']);

export const isDosed = ({ kind }: Prescription): boolean => DOSED.has(kind.value);
export const takesFoliage = ({ kind }: Prescription): boolean => TAKES_FOLIAGE.has(kind.value);

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
  /** Seasons' doses that are added: one for each work before it, and one for each stage still to come. */
  readonly count: number;
  /** What counts, in order of time; the job's own part last. */
  readonly shares: readonly Share[];
  readonly total: Interval;
}

/** A dose that falls into the season of another one. */
export interface SeasonsDose {
  readonly job: Job;
  readonly dose: Dose;
}

/**
 * The doses of other open work that falls into one season with an open job, and that is counted before it: by its
 * first day, and of one day by its name. Twice the same kind is a matter of its own. @param season days
 */
export function alongside(
  tree: Tree,
  all: readonly Job[],
  job: Job,
  season: number,
  settings: Settings,
): readonly SeasonsDose[] {
  if (job.work) return [];
  return all.flatMap((other): readonly SeasonsDose[] => {
    const { prescription } = other;
    const same = prescription.kind.value === job.prescription.kind.value;
    if (other.work || same || !isDosed(prescription) || !comesBefore(other, job)) return [];
    if (isSeasonApart(other, job, season)) return [];
    const dose = doseOf(tree, other, settings);
    return dose ? [{ job: other, dose }] : [];
  });
}

/** A job of unknown days may be done first. */
function comesBefore(a: Job, b: Job): boolean {
  const [from, to] = [a.days?.from ?? 0, b.days?.from ?? 0];
  return from < to || (from === to && a.prescription.id.value < b.prescription.id.value);
}

const isSeasonApart = ({ days: a }: Job, { days: b }: Job, season: number): boolean =>
  a !== undefined && b !== undefined && (a.from - b.to >= season || b.from - a.to >= season);

const lastDay = ({ days }: Job, today: number): number => days?.to ?? today;

/**
 * For each open prescription, its dose, with the stages that follow within as many years, and those of the work in the years before it; where none is open, the
 * last work and those before it. Only sums of two and more.
 *
 * The years are counted back from the first day on which the job may be done: the day that lets most count.
 */
export function cumulations(
  tree: Tree,
  today: number,
  years: number,
  settings: Settings,
): readonly Cumulation[] {
  // As for most trees: nothing was done yet, and nothing comes in stages.
  if (tree.works.length === 0 && tree.prescriptions.every(one => stagesOf(one) === 1)) return [];
  const shares = jobs(tree, today)
    .filter(({ prescription }) => isDosed(prescription))
    .flatMap((job): Share[] => {
      const dose = doseOf(tree, job, settings);
      const place = job.work && !job.work.dose ? job.at : (dose?.at ?? job.at);
      const span = { start: place.start, end: place.end };
      if (dose) return [{ ...span, job, share: dose.share, unknown: false }];
      // What an open prescription leaves out is a matter of its own.
      if (!job.work || !takesFoliage(job.prescription)) return [];
      return [{ ...span, job, share: interval(0, 1), unknown: true }];
    });
  const done = shares
    .filter(({ job }) => job.work)
    .sort((a, b) => lastDay(a.job, today) - lastDay(b.job, today));
  const open = shares.filter(({ job }) => !job.work);
  // Stages follow each other a year apart.
  const seasons = Math.ceil(years / unitOf('years')!.factor);
  const ends = open.length > 0 ? open : done.slice(-1);
  return ends.flatMap((end): Cumulation[] => {
    const day = end.job.days?.from ?? today;
    const before = done.filter(
      ({ job }) => job !== end.job && job.days!.from <= day && day - job.days!.from < years,
    );
    const toCome = end.job.work ? 1 : Math.min(stagesLeft(tree, end.job.prescription), seasons);
    const count = before.length + toCome;
    if (count < 2) return [];
    const parts = [...before, { ...end, share: multiply(end.share, exact(toCome)) }];
    const total = parts.reduce((sum, { share }) => add(sum, share), exact(0));
    return [{ job: end.job, count, shares: parts, total }];
  });
}
