/** Which nests on a tree are in use, and for how long that has to be taken for granted. */

import type { SpeciesName } from '../../grammar/species.ts';
import type { Span } from '../../grammar/text.ts';
import type { Quantity } from '../base/quantity.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import type { Placed, Tree } from '../facts/types.ts';
import { seasonStanding } from './days.ts';
import type { NestingSeason } from './nesting.ts';

/** A nest that a check found in use, or perhaps in use. */
export interface Nest extends Span {
  readonly use: 'active' | 'unclear';
  readonly species?: SpeciesName;
  readonly height?: Placed<Quantity>;
  /** Day of the check. */
  readonly seen: number;
  /** Day of the next check that found it old, or found none; the nest is free from then on. */
  readonly freed?: number;
}

/**
 * Nests found active or unclear, in the order of the text. A later check frees them where it found no nest in
 * use and none unclear: which of several nests it speaks of is not written down.
 */
export function activeNests({ nestChecks }: Tree): readonly Nest[] {
  const free = nestChecks
    .filter(({ found }) => found.length > 0 && found.every(({ use }) => use === 'none' || use === 'old'))
    .map(({ date }) => date.value)
    .sort((a, b) => a - b);
  return nestChecks.flatMap(({ date, found }) =>
    found.flatMap(({ use, species, height, start, end }): Nest[] => {
      if (use !== 'active' && use !== 'unclear') return [];
      const freed = free.find(day => day > date.value);
      return [
        {
          use,
          seen: date.value,
          start,
          end,
          ...(species ? { species } : {}),
          ...(height ? { height } : {}),
          ...(freed === undefined ? {} : { freed }),
        },
      ];
    }),
  );
}

/** Longest that any yearly window lies away from a day of the year. */
const YEAR_DAYS = 366;

/**
 * The days of a job on which the nest is in use as far as anyone knows: from the check to the end of the season
 * that the check fell in, or, out of season, to the end of the next one; never after it was freed.
 *
 * `exceeds` where that is the whole of the job, the nest was surely in use and its season ran; else `may exceed`.
 */
export function nestDays(
  nest: Nest,
  job: DaySpan,
  seasons: readonly NestingSeason[],
): (DaySpan & { readonly grade: 'exceeds' | 'may exceed' }) | undefined {
  const ahead = { from: nest.seen, to: nest.seen + YEAR_DAYS };
  const runs = seasons.flatMap(({ season }) => overlap(ahead.from, ahead.to, season.window).slice(0, 1));
  const current = runs.filter(({ from }) => from === nest.seen);
  const inSeason = current.length > 0;
  const lastDay = Math.max(...(inSeason ? current : runs).map(({ to }) => to));
  const last = Math.min(
    lastDay,
    nest.freed === undefined ? Number.POSITIVE_INFINITY : nest.freed - 1,
    job.to,
  );
  const first = Math.max(job.from, nest.seen);
  if (first > last) return undefined;
  const days = { from: first, to: last };
  const whole = seasonStanding(job, [days]) === 'exceeds';
  return { ...days, grade: whole && inSeason && nest.use === 'active' ? 'exceeds' : 'may exceed' };
}
