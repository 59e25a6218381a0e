/**
 * Uncertain quantities: closed intervals and the range of a function over them.
 *
 * An interval holds every value that the readings allow. `high` may be Infinity ("more than 11 in");
 * whoever uses it clips it to what is physically possible first. Units are the caller's.
 */

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** @throws RangeError when an end is not a number or the ends are the wrong way round. */
export function interval(low: number, high: number): Interval {
  if (!(low <= high)) throw new RangeError(`not an interval: ${low} to ${high}`);
  return { low, high };
}

/** A value known exactly. */
export const exact = (value: number): Interval => interval(value, value);

export const isExact = (a: Interval): boolean => a.low === a.high;
/** Both ends, or the one value that is known exactly. */
export const endsOf = (a: Interval): readonly number[] => (isExact(a) ? [a.low] : [a.low, a.high]);
export const width = (a: Interval): number => (isExact(a) ? 0 : a.high - a.low);
export const middle = (a: Interval): number => (isExact(a) ? a.low : (a.low + a.high) / 2);
export const contains = (a: Interval, value: number): boolean => a.low <= value && value <= a.high;

export const add = (a: Interval, b: Interval): Interval => interval(a.low + b.low, a.high + b.high);
export const subtract = (a: Interval, b: Interval): Interval => interval(a.low - b.high, a.high - b.low);

/** @throws RangeError when zero meets Infinity: neither end has a value then. */
export function multiply(a: Interval, b: Interval): Interval {
  const ends = [a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high];
  return interval(Math.min(...ends), Math.max(...ends));
}

/** @throws RangeError when the divisor reaches zero. */
export function divide(a: Interval, b: Interval): Interval {
  if (b.low <= 0 && b.high >= 0) throw new RangeError('division by an interval that reaches zero');
  return multiply(a, interval(1 / b.high, 1 / b.low));
}

/** The smallest interval that holds all of the given ones. @throws RangeError when none is given. */
export const hull = (...all: readonly Interval[]): Interval =>
  interval(Math.min(...all.map(a => a.low)), Math.max(...all.map(a => a.high)));

/** The part of `a` within `limits`; where the two do not meet, the end of `limits` nearest to `a`. */
export function clip(a: Interval, limits: Interval): Interval {
  const into = (value: number) => Math.min(Math.max(value, limits.low), limits.high);
  return interval(into(a.low), into(a.high));
}

/** Share by which a number read from decimals may differ from the same number computed: far below any reading. */
export const REPRESENTATION = 1e-9;

/**
 * Whether a value is less than another by more than how their numbers came about: what is as much in feet is as much in
 * centimetres.
 */
export function isLess(a: number, b: number): boolean {
  const slack = Math.max(Math.abs(a), Math.abs(b)) * REPRESENTATION;
  return Number.isFinite(slack) ? b - a > slack : a < b;
}

/** How an interval stands to a limit: beyond it, across it, or within it. The limit itself is within. */
export type Standing = 'exceeds' | 'may exceed' | 'within';

/** A value equal to the limit is within it. */
export const against = (a: Interval, limit: number): Standing =>
  isLess(limit, a.low) ? 'exceeds' : isLess(limit, a.high) ? 'may exceed' : 'within';
