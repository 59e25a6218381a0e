/** Which days are closed by nesting at a tree, and which nest check holds for a job. */

import { formatMonthDay } from '../base/dates.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import type { Settings } from '../facts/settings.ts';
import type { FollowUp, NestCheck, Tree } from '../facts/types.ts';
import { keepsRaptorSeason } from '../practice/birds.ts';
import { closedDays } from './days.ts';
import { currentJobs, type Job } from './jobs.ts';
import { authority } from './judge.ts';

/** A nesting season that holds at a tree. */
export interface NestingSeason {
  readonly name: 'nesting season' | 'nesting season of birds of prey';
  readonly season: Settings['nesting'];
}

/**
 * The nesting season of the place; that of birds of prey beside it where a nest of one was found, or of a bird
 * that nobody named.
 */
export function nestingSeasons(tree: Tree, settings: Settings): readonly NestingSeason[] {
  const raptor = tree.nestChecks
    .flatMap(({ found }) => found)
    .some(({ use, species }) => use !== 'none' && keepsRaptorSeason(species?.name));
  const general: NestingSeason = { name: 'nesting season', season: settings.nesting };
  return raptor
    ? [general, { name: 'nesting season of birds of prey', season: settings.raptorNesting }]
    : [general];
}

/** Days of a span on which any of the seasons runs, as stretches in order. */
export const nestingDays = (days: DaySpan, seasons: readonly NestingSeason[]): readonly DaySpan[] =>
  closedDays(
    days,
    seasons.map(({ season }) => season.window),
  );

/** A job with days in a nesting season. */
export interface NestingJob {
  readonly job: Job & { readonly days: DaySpan };
  /** Its days in a season, as stretches in order; at least one. */
  readonly closed: readonly DaySpan[];
  /** The last nest check made by the end of them. */
  readonly latest: NestCheck | undefined;
}

/** The jobs, open or done within a year, that the seasons of a tree meet. */
export function nestingJobs(
  tree: Tree,
  seasons: readonly NestingSeason[],
  today: number,
): readonly NestingJob[] {
  return currentJobs(tree, today).flatMap((job): readonly NestingJob[] => {
    const { days } = job;
    const closed = days ? nestingDays(days, seasons) : [];
    const last = closed.at(-1);
    return days && last ? [{ job: { ...job, days }, closed, latest: lastCheckBy(tree, last.to) }] : [];
  });
}

/**
 * The last check made by a day, that day included, that says what it found; of two on one day the one that found more,
 * and of those one from the crown before one from the ground.
 */
export const lastCheckBy = ({ nestChecks }: Tree, day: number): NestCheck | undefined =>
  nestChecks
    .filter(({ date, found }) => date.value <= day && found.length > 0)
    .reduce<NestCheck | undefined>(
      (latest, check) => (latest && counts(latest, check) >= 0 ? latest : check),
      undefined,
    );

/** Above nothing where the first of two checks counts before the second. */
const counts = (one: NestCheck, other: NestCheck): number =>
  one.date.value - other.date.value ||
  inUse(one) - inUse(other) ||
  Number(one.from.value !== 'ground') - Number(other.from.value !== 'ground');

const inUse = ({ found }: NestCheck): number =>
  Math.max(0, ...found.map(({ use }) => (use === 'active' ? 2 : use === 'unclear' ? 1 : 0)));

/** The open follow-up that plans a nest check in time for the first stretch of closed days. @param validity days */
export const nestCheckDue = ({ followUps }: Tree, closed: DaySpan, validity: number): FollowUp | undefined =>
  followUps.find(
    ({ kind, done, due }) =>
      kind.value === 'nest check' &&
      !done &&
      due &&
      due.value <= closed.to &&
      closed.from - due.value <= validity,
  );

/** The season that closes the first of these stretches, for people: `the nesting season 02-01..08-31 (source)`. */
export function showSeason(closed: readonly DaySpan[], seasons: readonly NestingSeason[]): string {
  const first = closed[0]!;
  const { name, season } = seasons.find(
    ({ season: { window } }) => overlap(first.from, first.from, window).length > 0,
  )!;
  const { from, to } = season.window;
  return `the ${name} ${formatMonthDay(from)}..${formatMonthDay(to)} (${authority(season)})`;
}

/** What a nest check can't change. */
export const NESTING_CAUTION =
  'Nests in use are protected by law at any season and whatever a check says: the law of the place and the person on site decide.';
