/** What was read again and again, by day: the lean, the dieback and shares; and whether it certainly increased. */

import { bearingsApart } from '../base/bearings.ts';
import { formatDate } from '../base/dates.ts';
import type { Interval } from '../base/interval.ts';
import { DAYS_PER_YEAR, type Quantity, showQuantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import { asWritten } from '../facts/state.ts';
import type { Defect, Placed, Tree } from '../facts/types.ts';
import { measuredChange } from '../mechanics/decay.ts';
import type { LimitName } from '../practice/limits.ts';

export interface DatedReading {
  /** -Infinity without a day, which counts as the oldest. */
  readonly day: number;
  readonly quantity: Placed<Quantity>;
  readonly value: Interval;
}

const UNDATED = Number.NEGATIVE_INFINITY;

const reading = (
  quantity: Placed<Quantity> | undefined,
  day: number,
  settings: Settings,
): readonly DatedReading[] =>
  quantity === undefined || quantity.value.form === 'unseen' || !Number.isFinite(quantity.value.high)
    ? []
    : [{ day, quantity, value: valuesOf(quantity.value, settings) }];

/** Of one day the graver counts as the later one: the place in the text says nothing. */
const byDay = (readings: readonly DatedReading[]): readonly DatedReading[] =>
  [...readings].sort((a, b) =>
    a.day === b.day ? a.value.high - b.value.high || a.value.low - b.value.low : a.day - b.day,
  );

/** Degrees between two bearings from which they are not the same direction. */
const ASIDE = 90;

/** The oldest first. Of leans in another direction than the newest nothing can be compared. */
export function leanReadings(tree: Tree, settings: Settings): readonly DatedReading[] {
  const toward = tree.lean?.toward;
  const isAlong = (one: Tree['lean']): boolean => {
    if (toward === undefined || one?.toward === undefined) return true;
    return bearingsApart(toward, one.toward) < ASIDE;
  };
  const own = asWritten(tree).lean;
  return byDay([
    ...(isAlong(own) ? reading(own?.angle, UNDATED, settings) : []),
    ...tree.inspections.flatMap(({ lean, date }) =>
      isAlong(lean) ? reading(lean?.angle, date.value, settings) : [],
    ),
  ]);
}

/** The oldest first. */
export const diebackReadings = (tree: Tree, settings: Settings): readonly DatedReading[] =>
  byDay([
    ...reading(asWritten(tree).dieback, UNDATED, settings),
    ...tree.inspections.flatMap(({ dieback, date }) => reading(dieback, date.value, settings)),
  ]);

/** Of each reading of a defect what it states itself, the oldest first. */
export const readingsOf = (
  defect: Defect,
  member: string,
  quantityOf: (reading: Defect) => Placed<Quantity> | undefined,
  settings: Settings,
): readonly DatedReading[] =>
  byDay(
    [defect, ...defect.earlier].flatMap((one, i) =>
      i === 0 && defect.older?.has(member) ? [] : reading(quantityOf(one), one.seen ?? UNDATED, settings),
    ),
  );

export interface Increase {
  readonly earlier: DatedReading;
  readonly later: DatedReading;
}

/** `5 deg on 2022-05-04, 12 deg on 2026-05-06`. */
export const increaseWords = ({ earlier, later }: Increase): string =>
  `${readingWords(earlier)}, ${readingWords(later)}`;

export const readingWords = ({ quantity, day }: DatedReading): string =>
  `${showQuantity(quantity.value)} ${Number.isFinite(day) ? `on ${formatDate(day)}` : 'before, without a day'}`;

/** The newest against the least before it, where the whole of it is above by more than both readings may be off. */
export function increaseIn(
  readings: readonly DatedReading[],
  error: LimitName,
  settings: Settings,
): Increase | undefined {
  const later = readings.at(-1);
  const before = later ? readings.filter(({ day }) => day < later.day) : [];
  if (!later || before.length === 0) return undefined;
  const earlier = before.reduce((least, one) => (one.value.high < least.value.high ? one : least));
  return later.value.low - earlier.value.high > settings.limit(error).value ? { earlier, later } : undefined;
}

/** Change a year from the first to the last with a day, with what reading twice may be off; undefined if they are too close. */
export function yearlyChange(
  readings: readonly DatedReading[],
  error: number,
  leastYears: number,
): Interval | undefined {
  const [from, to] = [readings.find(({ day }) => Number.isFinite(day)), readings.at(-1)];
  if (!from || !to) return undefined;
  const years = (to.day - from.day) / DAYS_PER_YEAR;
  return years >= leastYears ? measuredChange(from.value, to.value, years, error) : undefined;
}
