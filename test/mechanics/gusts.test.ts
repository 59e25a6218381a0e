import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval } from '../../server/base/interval.ts';
import {
  gustOverMean,
  type Hill,
  peakPressure,
  speedUps,
  turbulenceIntensity,
} from '../../server/mechanics/gusts.ts';
import { topographicFactor } from '../../server/mechanics/wind.ts';
import { hillConstants } from '../../server/practice/hills.ts';
import { inside, ranges, share } from './arbitrary.ts';

const SAMPLES = Number(process.env.SAMPLES ?? 300);

describe('a mean wind', () => {
  it('has the stronger gusts the rougher the ground and the lower', () => {
    expect(turbulenceIntensity(10, 0.3)).toBeGreaterThan(turbulenceIntensity(10, 0.05));
    expect(peakPressure(5, 0.05)).toBeGreaterThan(peakPressure(10, 0.05));
    expect(gustOverMean()).toBeCloseTo(1.524, 3);
    expect(() => turbulenceIntensity(0.05, 0.05)).toThrow(RangeError);
  });
});

const constants = fc
  .record({
    shape: fc.constantFrom('ridge' as const, 'escarpment' as const, 'round hill' as const),
    side: fc.constantFrom('upwind' as const, 'downwind' as const),
    exposure: fc.constantFrom('B' as const, 'C' as const, 'D' as const),
  })
  .map(({ shape, side, exposure }) => hillConstants(shape, side, exposure));

const hills: fc.Arbitrary<Hill> = fc.record({
  height: ranges(2, 60),
  halfLength: ranges(5, 300),
  distance: ranges(0, 200),
});

/** Kzt over what the readings of a hill allow. */
function factors(hill: Hill, of: ReturnType<typeof hillConstants>, z: number): Interval {
  const ups = speedUps(hill, of);
  const found = ups.length === 0 ? [1] : ups.map(up => topographicFactor(z, up));
  return { low: Math.min(...found), high: Math.max(...found) };
}

describe('the speed-up over a hill', () => {
  it('lies within its bounds for whatever the readings allow', () => {
    fc.assert(
      fc.property(
        hills,
        constants,
        share,
        share,
        share,
        fc.double({ min: 0, max: 40, noNaN: true }),
        (hill, of, a, b, c, z) => {
          const { low, high } = factors(hill, of, z);
          const one = {
            height: exact(inside(hill.height, a)),
            halfLength: exact(inside(hill.halfLength, b)),
            distance: exact(inside(hill.distance, c)),
          };
          const at = factors(one, of, z);
          expect(at.low).toBeGreaterThanOrEqual(low - 1e-9);
          expect(at.high).toBeLessThanOrEqual(high + 1e-9);
        },
      ),
      { numRuns: SAMPLES },
    );
  });

  it('fades with height and distance, and is one for exact readings', () => {
    fc.assert(
      fc.property(hills, constants, share, (hill, of, a) => {
        const exactly = {
          height: exact(hill.height.low),
          halfLength: exact(hill.halfLength.low),
          distance: exact(hill.distance.low),
        };
        expect(speedUps(exactly, of).length).toBeLessThanOrEqual(1);
        const [low, high] = [factors(exactly, of, 10 * a), factors(exactly, of, 10 * a + 5)];
        expect(high.high).toBeLessThanOrEqual(low.high + 1e-12);
        const farther = { ...exactly, distance: exact(hill.distance.low + 10) };
        expect(factors(farther, of, 5).high).toBeLessThanOrEqual(factors(exactly, of, 5).high + 1e-12);
      }),
      { numRuns: SAMPLES },
    );
  });

  it('is none over a low or gentle hill', () => {
    const at = (height: number, halfLength: number, exposure: 'B' | 'C') =>
      speedUps(
        { height: exact(height), halfLength: exact(halfLength), distance: exact(0) },
        hillConstants('ridge', 'upwind', exposure),
      );
    expect(at(10, 30, 'C')).toHaveLength(1);
    expect(at(10, 30, 'B')).toHaveLength(0);
    expect(at(10, 51, 'C')).toHaveLength(0);
    expect(at(4, 10, 'C')).toHaveLength(0);
    // Steeper than a half is as a half, over a longer hill.
    expect(at(20, 10, 'C')).toEqual(at(20, 40, 'C'));
    expect(() => at(0, 10, 'C')).toThrow(RangeError);
  });
});
