import { describe, expect, it } from 'vitest';
import {
  add,
  clip,
  contains,
  divide,
  exact,
  hull,
  interval,
  limitVerdict,
  middle,
  multiply,
  width,
} from '../../server/base/interval.ts';

describe('an interval', () => {
  it('has its ends the right way round and never NaN', () => {
    expect(() => interval(2, 1)).toThrow(RangeError);
    expect(() => interval(Number.NaN, 1)).toThrow(RangeError);
    expect(interval(1, Infinity)).toEqual({ low: 1, high: Infinity });
  });

  it('holds its ends', () => {
    expect(contains(interval(1, 2), 1)).toBe(true);
    expect(contains(interval(1, 2), 2)).toBe(true);
    expect(contains(interval(1, 2), 2.01)).toBe(false);
  });

  it('adds, multiplies and divides to every value that is possible', () => {
    const a = interval(-1, 2);
    const b = interval(4, 5);
    expect(add(a, b)).toEqual({ low: 3, high: 7 });
    expect(multiply(a, b)).toEqual({ low: -5, high: 10 });
    expect(divide(a, b)).toEqual({ low: -0.25, high: 0.5 });
  });

  it('is not divided by one that reaches zero', () => {
    expect(() => divide(exact(1), interval(0, 1))).toThrow(RangeError);
    expect(() => divide(exact(1), interval(-1, 1))).toThrow(RangeError);
  });

  it('is clipped to what is possible, to the nearest end when it lies outside', () => {
    expect(clip(interval(1, Infinity), interval(0, 3))).toEqual({ low: 1, high: 3 });
    expect(clip(interval(5, 6), interval(0, 3))).toEqual({ low: 3, high: 3 });
  });

  it('has a width and a middle, also without an upper end', () => {
    expect(width(interval(1, 3))).toBe(2);
    expect(middle(interval(1, 3))).toBe(2);
    expect(width(exact(Infinity))).toBe(0);
    expect(middle(exact(Infinity))).toBe(Infinity);
  });

  it('has a hull with others', () => {
    expect(hull(interval(1, 2), exact(5), interval(0, 1))).toEqual({ low: 0, high: 5 });
    expect(() => hull()).toThrow(RangeError);
  });

  it.each([
    [interval(0.31, 0.4), 'exceeds'],
    [interval(0.3, 0.4), 'may exceed'],
    [interval(0.2, 0.3), 'within'],
    [exact(0.3), 'within'],
  ] as const)('%j against a limit of 0.3: %s', (value, verdict) => {
    expect(limitVerdict(value, 0.3)).toBe(verdict);
  });
});
