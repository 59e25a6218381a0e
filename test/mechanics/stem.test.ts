import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, interval } from '../../server/base/interval.ts';
import {
  diameterRatio,
  equivalentDiameter,
  liveCrownRatio,
  rootProtectionRadius,
  slenderness,
} from '../../server/mechanics/stem.ts';
import { inside, ranges, share } from './arbitrary.ts';

const all = (...values: readonly number[]) => values.map(exact);

describe('several stems', () => {
  it('count with the root of the sum of squares', () => {
    expect(equivalentDiameter(all(0.3, 0.4))).toEqual(exact(0.5));
    // BS 5837:2012, worked: 180, 160 and 140 mm.
    expect(equivalentDiameter(all(0.18, 0.16, 0.14)).low).toBeCloseTo(0.27857, 5);
  });

  it('of a single stem is its own diameter', () => {
    expect(equivalentDiameter([interval(0.3, 0.4)])).toEqual(interval(0.3, 0.4));
  });

  it('needs a stem, and each of some thickness', () => {
    expect(() => equivalentDiameter([])).toThrow(RangeError);
    expect(() => equivalentDiameter(all(0.3, 0))).toThrow(RangeError);
    expect(() => equivalentDiameter([{ low: Number.NaN, high: 1 }])).toThrow(RangeError);
  });
});

describe('root protection radius', () => {
  it('is twelve diameters, and 15 m from 1.25 m on', () => {
    expect(rootProtectionRadius(all(0.5)).low).toBeCloseTo(6, 12);
    expect(rootProtectionRadius(all(1.25)).low).toBeCloseTo(15, 12);
    expect(rootProtectionRadius(all(2))).toEqual(exact(15));
    expect(rootProtectionRadius([interval(1, 2)])).toEqual(interval(12, 15));
  });

  it('takes the mean diameter beyond five stems', () => {
    const five = all(0.1, 0.1, 0.1, 0.1, 0.2);
    expect(rootProtectionRadius(five).low).toBeCloseTo(12 * Math.sqrt(0.08), 12);
    expect(rootProtectionRadius([...five, exact(0.1)]).low).toBeCloseTo(12 * (0.7 / 6) * Math.sqrt(6), 12);
  });
});

describe('ratios', () => {
  it('stand at their worst and best ends', () => {
    expect(slenderness(exact(30), exact(0.6)).low).toBeCloseTo(50, 12);
    expect(slenderness(interval(20, 30), interval(0.5, 1))).toEqual(interval(20, 60));
    expect(liveCrownRatio(exact(20), exact(8)).low).toBeCloseTo(0.6, 12);
    expect(liveCrownRatio(interval(20, 25), interval(5, 10))).toEqual(interval(0.5, 0.8));
    expect(diameterRatio(interval(0.2, 0.3), exact(0.4)).high).toBeCloseTo(0.75, 12);
  });

  it('leave an end open where a reading does', () => {
    expect(slenderness(interval(20, Infinity), exact(0.5)).high).toBe(Infinity);
    expect(liveCrownRatio(interval(20, Infinity), exact(5))).toEqual(interval(0.75, 1));
  });

  it('refuse what cannot be', () => {
    expect(() => slenderness(exact(20), exact(0))).toThrow(RangeError);
    expect(() => slenderness(exact(0), exact(0.3))).toThrow(RangeError);
    expect(() => liveCrownRatio(exact(10), exact(11))).toThrow(RangeError);
    expect(() => liveCrownRatio(exact(10), exact(-1))).toThrow(RangeError);
    expect(() => diameterRatio(exact(0.1), interval(0, 0.3))).toThrow(RangeError);
  });

  it('hold every pair that the readings allow', () => {
    fc.assert(
      fc.property(ranges(10, 30), ranges(0.2, 1.5), ranges(1, 8), share, share, share, (h, d, b, i, j, k) => {
        const [height, diameter, base] = [inside(h, i), inside(d, j), inside(b, k)];
        expect(contains(slenderness(h, d), height / diameter)).toBe(true);
        expect(contains(liveCrownRatio(h, b), 1 - base / height)).toBe(true);
      }),
    );
  });

  it('do not depend on the unit', () => {
    fc.assert(
      fc.property(ranges(10, 30), ranges(0.2, 1.5), (h, d) => {
        const feet = (a: typeof h) => interval(a.low / 0.3048, a.high / 0.3048);
        expect(slenderness(feet(h), feet(d)).high).toBeCloseTo(slenderness(h, d).high, 9);
        expect(equivalentDiameter([feet(d), feet(h)]).low * 0.3048).toBeCloseTo(
          equivalentDiameter([d, h]).low,
          9,
        );
      }),
    );
  });
});
