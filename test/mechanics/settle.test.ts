import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, exact, type Interval, interval } from '../../server/base/interval.ts';
import { decisionOf, decisiveReading, type Readings } from '../../server/mechanics/settle.ts';
import { between } from './arbitrary.ts';

/** Loss of a concentric hollow, (1 − 2t/D)⁴: falls with the wall, rises with the diameter. */
const loss = (inputs: Readings): Interval => {
  const { wall, diameter } = Object.fromEntries(inputs);
  const at = (t: number, d: number) => (1 - (2 * t) / d) ** 4;
  return interval(at(wall!.high, diameter!.low), at(wall!.low, diameter!.high));
};
const of = (readings: Readonly<Record<string, Interval>>): Readings => new Map(Object.entries(readings));
/** Sum of all readings. */
const sum = (inputs: Readings): Interval => [...inputs.values()].reduce(add);

describe('a figure against its limit', () => {
  it('is decided only where the whole interval lies on one side; the limit itself keeps to it', () => {
    expect(decisionOf(interval(0.1, 0.3), 0.3)).toBe('within');
    expect(decisionOf(interval(0.31, 0.4), 0.3)).toBe('exceeds');
    expect(decisionOf(interval(0.3, 0.4), 0.3)).toBeUndefined();
    expect(decisionOf(interval(3, 5), 3, 'at least')).toBe('within');
    expect(decisionOf(interval(1, 2.9), 3, 'at least')).toBe('exceeds');
    expect(decisionOf(interval(1, 3), 3, 'at least')).toBeUndefined();
  });
});

describe('the reading that settles it', () => {
  const readings = of({ wall: interval(0.03, 0.12), diameter: interval(0.58, 0.62) });
  const withWall = (wall: Interval): Readings => new Map(readings).set('wall', wall);

  it('is the one that decides alone, with the value from which on it does', () => {
    const found = decisiveReading(loss, readings, 0.33)!;
    expect(found).toMatchObject({ input: 'wall', decides: true, decision: 'within', decidedAt: 'high' });
    // Worst diameter 0.62 m: t = D/2 · (1 − 0.33^¼).
    const threshold = 0.31 * (1 - 0.33 ** 0.25);
    expect(found.threshold!).toBeGreaterThanOrEqual(threshold);
    expect(found.threshold!).toBeLessThan(threshold + 0.001 * 0.09);
    expect(found.atHigh.high).toBeCloseTo((1 - 0.24 / 0.62) ** 4, 12);
  });

  it('may condemn as well', () => {
    const found = decisiveReading(loss, withWall(interval(0.03, 0.0745)), 0.33)!;
    expect(found).toMatchObject({ input: 'wall', decision: 'exceeds', decidedAt: 'low' });
    expect(loss(withWall(exact(found.threshold!))).low).toBeGreaterThan(0.33);
  });

  it('decides at more ends than others, or else narrows the figure most', () => {
    expect(decisiveReading(sum, of({ a: interval(0, 5), b: interval(0, 6) }), 5.5)).toEqual({
      input: 'b',
      atLow: interval(0, 5),
      atHigh: interval(6, 11),
      decides: true,
      decision: 'within',
      decidedAt: 'low',
      threshold: expect.closeTo(0.5, 2),
    });
    const both = decisiveReading(sum, of({ a: interval(-9, 9), b: interval(-8, 8) }), 0);
    expect(both).toEqual({
      input: 'a',
      atLow: interval(-17, -1),
      atHigh: interval(1, 17),
      decides: true,
      decision: 'within',
      decidedAt: 'low',
      threshold: expect.closeTo(-8, 1),
    });
    const three = of({ a: interval(-4, 4), b: interval(-3, 3), c: interval(-3, 3) });
    const none = decisiveReading(sum, three, 0);
    expect(none).toEqual({ input: 'a', atLow: interval(-10, 2), atHigh: interval(-2, 10), decides: false });
  });

  it('is not asked for where all is decided or exact', () => {
    expect(decisiveReading(loss, readings, 0.9)).toBeUndefined();
    expect(decisiveReading(loss, readings, 0.01)).toBeUndefined();
    const contradictory = () => interval(0, 1);
    expect(decisiveReading(contradictory, of({ wall: exact(0.05) }), 0.5)).toBeUndefined();
  });

  it('must have ends', () => {
    expect(() => decisiveReading(loss, withWall(interval(0.03, Infinity)), 0.33)).toThrow(RangeError);
  });

  it('holds beyond the threshold where the figure turns on the way', () => {
    // Within below 0.3 and above 0.7, not between: from 0.7 on it decides, not from 0.2.
    const turning = (inputs: Readings): Interval => {
      const { x } = Object.fromEntries(inputs);
      const at = (v: number) => (v > 0.3 && v < 0.7 ? 1 : 0);
      return x!.low === x!.high ? exact(at(x!.low)) : interval(0, 1);
    };
    const found = decisiveReading(turning, of({ x: interval(0, 1) }), 0.5)!;
    expect(found.decision).toBe('within');
    const end = found.decidedAt === 'high' ? 1 : 0;
    for (const step of [0, 0.2, 0.4, 0.6, 0.8, 1]) {
      const value = found.threshold! + step * (end - found.threshold!);
      expect(turning(of({ x: exact(value) })).high).toBe(0);
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
          const reading = interval(low, low + more);
          const found = decisiveReading(loss, withWall(reading), limit);
          fc.pre(found?.input === 'wall' && found.decides);
          const end = found!.decidedAt === 'high' ? reading.high : reading.low;
          const wall = exact(found!.threshold! + at * (end - found!.threshold!));
          expect(decisionOf(loss(withWall(wall)), limit)).toBe(found!.decision);
        },
      ),
    );
  });
});
