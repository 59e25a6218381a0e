/**
 * Uncertain quantities as closed intervals. An interval contains every value that the readings allow. `high` may be
 * Infinity ("more than 11 in"); callers clip it to what is physically possible. Units are the caller's.
 */

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** @throws RangeError if an end is NaN or low > high. */
export function interval(low: number, high: number): Interval {
  if (!(low <= high)) throw new RangeError(`not an interval: ${low} to ${high}`);
  return { low, high };
}

export const exact = (value: number): Interval => interval(value, value);

export const isExact = (a: Interval): boolean => a.low === a.high;
/** Both ends, or the single value of an exact interval. */
export const endsOf = (a: Interval): readonly number[] => (isExact(a) ? [a.low] : [a.low, a.high]);
export const width = (a: Interval): number => (isExact(a) ? 0 : a.high - a.low);
export const middle = (a: Interval): number => (isExact(a) ? a.low : (a.low + a.high) / 2);
export const contains = (a: Interval, value: number): boolean => a.low <= value && value <= a.high;

export const add = (a: Interval, b: Interval): Interval => interval(a.low + b.low, a.high + b.high);

/** @throws RangeError for zero times Infinity. */
export function multiply(a: Interval, b: Interval): Interval {
  const ends = [a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high];
  return interval(Math.min(...ends), Math.max(...ends));
}

/** @throws RangeError if the divisor contains zero. */
export function divide(a: Interval, b: Interval): Interval {
  if (b.low <= 0 && b.high >= 0) throw new RangeError('division by an interval that reaches zero');
  return multiply(a, interval(1 / b.high, 1 / b.low));
}

/** The smallest interval that contains all of them. @throws RangeError if there are none. */
export const hull = (...all: readonly Interval[]): Interval =>
  interval(Math.min(...all.map(a => a.low)), Math.max(...all.map(a => a.high)));

/** The part of `a` within `limits`; if they are disjoint, the end of `limits` nearest to `a`. */
export function clip(a: Interval, limits: Interval): Interval {
  const clamped = (value: number) => Math.min(Math.max(value, limits.low), limits.high);
  return interval(clamped(a.low), clamped(a.high));
}

/** Relative rounding error of a length converted between units; far below the resolution of any reading. */
export const REPRESENTATION = 1e-9;

/** Whether `a` is below `b` by more than the rounding of unit conversion. */
export function isLess(a: number, b: number): boolean {
  const slack = Math.max(Math.abs(a), Math.abs(b)) * REPRESENTATION;
  return Number.isFinite(slack) ? b - a > slack : a < b;
}

/**
 * Whether an interval violates a limit over its whole range, over part of it, or nowhere. `exceeds` also covers values
 * below an `at least` limit.
 */
export type LimitVerdict = 'exceeds' | 'may exceed' | 'within';

/** A value equal to the limit is within it. */
export function limitVerdict(
  { low, high }: Interval,
  limit: number,
  direction: 'at most' | 'at least' = 'at most',
): LimitVerdict {
  const isViolatedBy = (value: number) =>
    direction === 'at most' ? isLess(limit, value) : isLess(value, limit);
  if (isViolatedBy(low) && isViolatedBy(high)) return 'exceeds';
  return isViolatedBy(low) || isViolatedBy(high) ? 'may exceed' : 'within';
}
