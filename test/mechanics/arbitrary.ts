/** Random intervals and values inside them, for property tests. */

import fc from 'fast-check';
import { type Interval, interval } from '../../server/base/interval.ts';

export const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Any interval whose ends lie from `min` to `max`. */
export const ranges = (min: number, max: number) =>
  fc.tuple(between(min, max), between(min, max)).map(([a, b]) => interval(Math.min(a, b), Math.max(a, b)));

export const share = between(0, 1);

/** The value at a share of the way through an interval. */
export const inside = ({ low, high }: Interval, at: number): number =>
  Math.min(high, low + at * (high - low));
