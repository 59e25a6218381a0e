/**
 * A sound wall over the years: w(y) = w0 + (g − a) y, with g the width of the rings that the stem adds and a the
 * advance of the decay outward. Lengths in m, times in years.
 */

import { add, exact, type Interval, interval, multiply } from '../base/interval.ts';

/** Change of the wall a year. */
export const wallChange = (growth: Interval, advance: Interval): Interval =>
  interval(growth.low - advance.high, growth.high - advance.low);

/**
 * Change a year of anything from two readings.
 * @param error what reading twice may be off, in the unit of the readings
 * @throws RangeError unless the later one is later
 */
export function measuredChange(earlier: Interval, later: Interval, years: number, error = 0): Interval {
  if (!(years > 0)) throw new RangeError(`readings ${years} years apart`);
  return interval((later.low - earlier.high - error) / years, (later.high - earlier.low + error) / years);
}

/** The wall after a time; none is thinner than nothing. */
export function wallAfter(wall: Interval, change: Interval, years: number): Interval {
  const { low, high } = add(wall, multiply(change, exact(years)));
  return interval(Math.max(0, low), Math.max(0, high));
}

/** Years until the wall is down to a limit: from when it may be to when it certainly is; Infinity for never. */
export function yearsTo(limit: Interval, wall: Interval, change: Interval): Interval {
  const until = (left: number, rate: number): number =>
    left <= 0 ? 0 : rate < 0 ? left / -rate : Number.POSITIVE_INFINITY;
  return interval(until(wall.low - limit.high, change.low), until(wall.high - limit.low, change.high));
}

/**
 * Years until the wall is to be read again: half the time in which it may come to its limit, at most what practice
 * allows and not sooner than a year, unless the limit may be met before.
 */
export function nextLook(toLimit: Interval, most: number): number {
  const soonest = Math.min(1, toLimit.low);
  return Math.min(most, Math.max(soonest, toLimit.low / 2));
}
