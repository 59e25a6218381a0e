/** Which days are closed by nesting at a tree, which nest check holds for a job, and when the work may be done. */

import { formatDate, formatMonthDay } from '../../grammar/dates.ts';
import type { Settings } from '../facts/settings.ts';
import type { FollowUp, NestCheck, Tree } from '../facts/types.ts';
import {
  type DaySpan,
  keepsRaptorSeason,
  nextLawfulWindow,
  overlap,
  type Season,
} from '../practice/index.ts';
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
export function nestingDays(days: DaySpan, seasons: readonly NestingSeason[]): readonly DaySpan[] {
  const stretches = seasons
    .flatMap(({ season }) => overlap(days.from, days.to, season.window))
    .sort((a, b) => a.from - b.from);
  return stretches.reduce<DaySpan[]>((merged, next) => {
    const last = merged.at(-1);
    if (last && next.from <= last.to + 1)
      merged[merged.length - 1] = { from: last.from, to: Math.max(last.to, next.to) };
    else merged.push(next);
    return merged;
  }, []);
}

/** Whether the whole of a job lies in the season, or only some of the days it may be done on. */
export const seasonStanding = (
  days: DaySpan,
  closed: readonly DaySpan[],
): 'exceeds' | 'may exceed' | 'within' =>
  closed.length === 0
    ? 'within'
    : closed.length === 1 && closed[0]!.from === days.from && closed[0]!.to === days.to
      ? 'exceeds'
      : 'may exceed';

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

/** The last check made by a day, that day included; of two on one day the later in the text. */
export const lastCheckBy = ({ nestChecks }: Tree, day: number): NestCheck | undefined =>
  nestChecks
    .filter(({ date }) => date.value <= day)
    .reduce<NestCheck | undefined>(
      (latest, check) => (latest && latest.date.value > check.date.value ? latest : check),
      undefined,
    );

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

/** `2026-06-08`, or `2026-06-08..2026-07-03`. */
export const showDays = ({ from, to }: DaySpan): string =>
  from === to ? formatDate(from) : `${formatDate(from)}..${formatDate(to)}`;

export const showCount = (days: number): string => (days === 1 ? '1 day' : `${days} days`);

const windowsOf = (seasons: readonly NestingSeason[]): readonly Season['window'][] =>
  seasons.map(({ season }) => season.window);

/**
 * Where the work goes to keep clear of the seasons, as the rest of `Move the work to`: the first window of its
 * length; where none is as long, the first clear day.
 */
export function clearWindow(days: DaySpan, seasons: readonly NestingSeason[]): string {
  const windows = windowsOf(seasons);
  const whole = nextLawfulWindow(days.from, days.to, windows);
  if (whole) return showDays(whole);
  const day = nextLawfulWindow(days.from, days.from, windows);
  return day ? `a shorter window from ${formatDate(day.from)} on` : 'a day that a local permit allows';
}

/** The days of a span that lie in none of the stretches, which are in order and within it. */
const daysBetween = (days: DaySpan, closed: readonly DaySpan[]): readonly DaySpan[] =>
  [...closed, { from: days.to + 1, to: days.to + 1 }]
    .map(({ from }, i) => ({ from: i === 0 ? days.from : closed[i - 1]!.to + 1, to: from - 1 }))
    .filter(({ from, to }) => from <= to);

/**
 * How the work keeps clear, as the beginning of a remedy: `Keep the work to 2026-09-01..2026-10-10` where its
 * window has clear days, else `Move the work to` the next ones.
 */
export function keepClear(
  days: DaySpan,
  closed: readonly DaySpan[],
  seasons: readonly NestingSeason[],
): string {
  const clear = daysBetween(days, closed);
  return clear.length > 0
    ? `Keep the work to ${clear.map(showDays).join(' or ')}`
    : `Move the work to ${clearWindow(days, seasons)}`;
}

/** What a nest check can't change. */
export const NESTING_CAUTION =
  'Nests in use are protected by law at any season and whatever a check says: the law of the place and the person on site decide.';
