/** Nesting seasons at a tree, and nest checks that are valid for a job. */

import { formatMonthDay } from '../base/dates.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import type { PlacedSeason, Settings } from '../facts/settings.ts';
import type { FollowUp, NestCheck, Tree } from '../facts/types.ts';
import { keepsEagleSeason, keepsRaptorSeason } from '../practice/birds.ts';
import { closedDays } from './days.ts';
import { currentJobs, type Job } from './jobs.ts';
import { authority } from './judge.ts';

export interface NestingSeason {
  readonly name: 'nesting season' | 'nesting season of birds of prey' | 'nesting season of eagles';
  readonly season: PlacedSeason;
}

/**
 * The regional nesting season; that of birds of prey, and of eagles where they have one of their own, if a nest of one,
 * or of an unknown bird, was found.
 */
export function nestingSeasons(tree: Tree, settings: Settings): readonly NestingSeason[] {
  const found = tree.nestChecks.flatMap(check => check.found).filter(({ use }) => use !== 'none');
  const isFound = (keeps: (name: string | undefined) => boolean) =>
    found.some(({ species }) => keeps(species?.name));
  const { nesting, raptorNesting, eagleNesting } = settings;
  return [
    ...(nesting ? [{ name: 'nesting season', season: nesting } as const] : []),
    ...(raptorNesting && isFound(keepsRaptorSeason)
      ? [{ name: 'nesting season of birds of prey', season: raptorNesting } as const]
      : []),
    ...(eagleNesting && isFound(keepsEagleSeason)
      ? [{ name: 'nesting season of eagles', season: eagleNesting } as const]
      : []),
  ];
}

/** Parts of a span in any of the seasons, in order. */
export const nestingDays = (days: DaySpan, seasons: readonly NestingSeason[]): readonly DaySpan[] =>
  closedDays(
    days,
    seasons.map(({ season }) => season.window),
  );

/** A job with days in a nesting season. */
export interface NestingJob {
  readonly job: Job & { readonly days: DaySpan };
  /** Its days in season, in order; at least one span. */
  readonly closed: readonly DaySpan[];
  /** The last nest check up to the end of them. */
  readonly latest: NestCheck | undefined;
}

/** Jobs, open or done within a year, with days in season. */
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
 * The last check up to a day, inclusive, with a result; of two on one day the one that found more, then one from the
 * crown rather than from the ground.
 */
export const lastCheckBy = ({ nestChecks }: Tree, day: number): NestCheck | undefined =>
  nestChecks
    .filter(({ date, found }) => date.value <= day && found.length > 0)
    .reduce<NestCheck | undefined>(
      (latest, check) => (latest && counts(latest, check) >= 0 ? latest : check),
      undefined,
    );

/** Positive if the first check takes precedence. */
const counts = (one: NestCheck, other: NestCheck): number =>
  one.date.value - other.date.value ||
  inUse(one) - inUse(other) ||
  Number(one.from.value !== 'ground') - Number(other.from.value !== 'ground');

const inUse = ({ found }: NestCheck): number =>
  Math.max(0, ...found.map(({ use }) => (use === 'active' ? 2 : use === 'unclear' ? 1 : 0)));

/** The open follow-up that plans a nest check in time for the first closed days. @param validity days */
export const nestCheckDue = ({ followUps }: Tree, closed: DaySpan, validity: number): FollowUp | undefined =>
  followUps.find(
    ({ kind, done, due }) =>
      kind.value === 'nest check' &&
      !done &&
      due &&
      due.value <= closed.to &&
      closed.from - due.value <= validity,
  );

/** The season of the first closed days: `the nesting season 02-01..08-31 (source)`. */
export function showSeason(closed: readonly DaySpan[], seasons: readonly NestingSeason[]): string {
  const first = closed[0]!;
  const { name, season } = seasons.find(
    ({ season: { window } }) => overlap(first.from, first.from, window).length > 0,
  )!;
  const { from, to } = season.window;
  return `the ${name} ${formatMonthDay(from)}..${formatMonthDay(to)} (${authority(season)})`;
}

export const NESTING_CAUTION =
  'Nests in use are protected by law in any season and whatever a check finds. Local law and the person on site decide.';
