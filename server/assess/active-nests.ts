/** Active nests on a tree, and the days for which they must be assumed active. */

import type { SpeciesName } from '../../grammar/species.ts';
import type { Span } from '../../grammar/text.ts';
import type { Quantity } from '../base/quantity.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import type { Placed, Tree } from '../facts/types.ts';
import { seasonStanding } from './days.ts';
import type { NestingSeason } from './nesting.ts';

/** A nest that a check found. */
export interface FoundNest extends Span {
  readonly use: 'active' | 'unclear' | 'old';
  readonly species?: SpeciesName;
  readonly height?: Placed<Quantity>;
  /** Day of the check. */
  readonly seen: number;
  /** Day of the next check that found an old nest or none. */
  readonly freed?: number;
}

/** A nest that a check found active or unclear. */
export type Nest = FoundNest & { readonly use: 'active' | 'unclear' };

/** Nests in use or not, without those that a later check did not find any more; the last find of a bird counts. */
export function standingNests({ nestChecks }: Tree): readonly FoundNest[] {
  const gone = Math.max(
    Number.NEGATIVE_INFINITY,
    ...nestChecks
      .filter(({ found }) => found.length > 0 && found.every(({ use }) => use === 'none'))
      .map(({ date }) => date.value),
  );
  const byBird = new Map<string | undefined, FoundNest>();
  for (const { date, found } of nestChecks) {
    for (const { use, species, height, start, end } of found) {
      const before = byBird.get(species?.name);
      if (use === 'none' || date.value < gone || (before && before.seen > date.value)) continue;
      const nest = { use, seen: date.value, start, end };
      byBird.set(species?.name, {
        ...nest,
        ...(species ? { species } : {}),
        ...(height ? { height } : {}),
      });
    }
  }
  return [...byBird.values()];
}

/**
 * Nests found active or unclear, in the order of the text. A later check clears them only if it found no active or
 * unclear nest, since it does not identify the nest.
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

/** Greatest distance from a day to the next occurrence of a yearly window. */
const YEAR_DAYS = 366;

/**
 * The days of a job on which the nest must be assumed active: from the check to the end of its season, or of the next
 * one if it was outside the season, or for a year where no season is on record; at most until the nest was cleared.
 *
 * `exceeds` if these are all days of the job and the nest was certainly active in season; otherwise `may exceed`.
 */
export function nestDays(
  nest: FoundNest,
  job: DaySpan,
  seasons: readonly Pick<NestingSeason, 'season'>[],
): (DaySpan & { readonly grade: 'exceeds' | 'may exceed' }) | undefined {
  const ahead = { from: nest.seen, to: nest.seen + YEAR_DAYS };
  const runs = seasons.flatMap(({ season }) => overlap(ahead.from, ahead.to, season.window).slice(0, 1));
  const current = runs.filter(({ from }) => from === nest.seen);
  const inSeason = current.length > 0;
  const lastDay = runs.length === 0 ? ahead.to : Math.max(...(inSeason ? current : runs).map(({ to }) => to));
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
