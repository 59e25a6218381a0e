import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval, interval } from '../../server/mechanics/interval.ts';
import { decisionOf, type Readings, settling } from '../../server/mechanics/settle.ts';
import { between } from './arbitrary.ts';

/** Loss of a concentric hollow, (1 − 2t/D)⁴: falls with the wall, rises with the diameter. */
const loss = ({ wall, diameter }: Readings): Interval => {
  const at = (t: number, d: number) => (1 - (2 * t) / d) ** 4;
  return interval(at(wall!.high, diameter!.low), at(wall!.low, diameter!.high));
};
const ATMOST = (value: number) => ({ value, direction: 'at most' as const });

describe('a figure against its limit', () => {
  it('is decided only where the whole interval lies on one side; the limit itself keeps to it', () => {
    expect(decisionOf(interval(0.1, 0.3), ATMOST(0.3))).toBe('within');
    expect(decisionOf(interval(0.31, 0.4), ATMOST(0.3))).toBe('exceeds');
    expect(decisionOf(interval(0.3, 0.4), ATMOST(0.3))).toBeUndefined();
    const atLeast = { value: 3, direction: 'at least' as const };
    expect(decisionOf(interval(3, 5), atLeast)).toBe('within');
    expect(decisionOf(interval(1, 2.9), atLeast)).toBe('exceeds');
    expect(decisionOf(interval(1, 3), atLeast)).toBeUndefined();
  });
});

describe('the reading that settles it', () => {
  const readings = { wall: interval(0.03, 0.12), diameter: interval(0.58, 0.62) };

  it('is the one that decides alone, with the value from which on it does', () => {
    const found = settling(loss, readings, ATMOST(0.33))!;
    expect(found).toMatchObject({ reading: 'wall', decides: true, decision: 'within', towards: 'high' });
    // Worst diameter 0.62 m: t = D/2 · (1 − 0.33^¼).
    const threshold = 0.31 * (1 - 0.33 ** 0.25);
    expect(found.threshold!).toBeGreaterThanOrEqual(threshold);
    expect(found.threshold!).toBeLessThan(threshold + 0.001 * 0.09);
    expect(found.atHigh.high).toBeCloseTo((1 - 0.24 / 0.62) ** 4, 12);
  });

  it('may condemn as well', () => {
    const found = settling(loss, { ...readings, wall: interval(0.03, 0.0745) }, ATMOST(0.33))!;
    expect(found).toMatchObject({ reading: 'wall', decision: 'exceeds', towards: 'low' });
    expect(loss({ ...readings, wall: exact(found.threshold!) }).low).toBeGreaterThan(0.33);
  });

  it('decides at more ends than others, or else narrows the figure most', () => {
    const sum = ({ a, b }: Readings) => interval(a!.low + b!.low, a!.high + b!.high);
    expect(settling(sum, { a: interval(0, 5), b: interval(0, 6) }, ATMOST(5.5))).toEqual({
      reading: 'b',
      atLow: interval(0, 5),
      atHigh: interval(6, 11),
      decides: true,
      decision: 'within',
      towards: 'low',
      threshold: expect.closeTo(0.5, 2),
    });
    const both = settling(sum, { a: interval(-9, 9), b: interval(-8, 8) }, ATMOST(0));
    expect(both).toEqual({
      reading: 'a',
      atLow: interval(-17, -1),
      atHigh: interval(1, 17),
      decides: true,
      decision: 'within',
      towards: 'low',
      threshold: expect.closeTo(-8, 1),
    });
    const none = settling(
      ({ a, b, c }) => interval(a!.low + b!.low + c!.low, a!.high + b!.high + c!.high),
      { a: interval(-4, 4), b: interval(-3, 3), c: interval(-3, 3) },
      ATMOST(0),
    );
    expect(none).toEqual({ reading: 'a', atLow: interval(-10, 2), atHigh: interval(-2, 10), decides: false });
  });

  it('is not asked for where all is decided or exact', () => {
    expect(settling(loss, readings, ATMOST(0.9))).toBeUndefined();
    expect(settling(loss, readings, ATMOST(0.01))).toBeUndefined();
    const contradictory = () => interval(0, 1);
    expect(settling(contradictory, { wall: exact(0.05) }, ATMOST(0.5))).toBeUndefined();
  });

  it('must have ends', () => {
    expect(() => settling(loss, { ...readings, wall: interval(0.03, Infinity) }, ATMOST(0.33))).toThrow(
      RangeError,
    );
  });

  it('holds beyond the threshold where the figure turns on the way', () => {
    // Within below 0.3 and above 0.7, not between: from 0.7 on it decides, not from 0.2.
    const turning = ({ x }: Readings): Interval => {
      const at = (v: number) => (v > 0.3 && v < 0.7 ? 1 : 0);
      return x!.low === x!.high ? exact(at(x!.low)) : interval(0, 1);
    };
    const found = settling(turning, { x: interval(0, 1) }, ATMOST(0.5))!;
    expect(found.decision).toBe('within');
    const end = found.towards === 'high' ? 1 : 0;
    for (const step of [0, 0.2, 0.4, 0.6, 0.8, 1]) {
      const value = found.threshold! + step * (end - found.threshold!);
      expect(turning({ x: exact(value) }).high).toBe(0);
    }
  });

  it('decides at every value beyond the threshold', () => {
    fc.assert(
      fc.property(
        between(0.01, 0.1),
        between(0.01, 0.15),
        between(0.05, 0.9),
        between(0, 1),
        (low, more, limit, at) => {
          const all = { ...readings, wall: interval(low, low + more) };
          const found = settling(loss, all, ATMOST(limit));
          if (found?.reading !== 'wall' || !found.decides) return;
          const end = found.towards === 'high' ? all.wall.high : all.wall.low;
          const wall = exact(found.threshold! + at * (end - found.threshold!));
          expect(decisionOf(loss({ ...all, wall }), ATMOST(limit))).toBe(found.decision);
        },
      ),
    );
  });
});
