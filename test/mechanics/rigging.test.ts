import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, interval } from '../../server/base/interval.ts';
import {
  arrestForce,
  blockForce,
  caughtForce,
  frustumVolume,
  ropeStiffness,
  runningForce,
  sparArm,
} from '../../server/mechanics/rigging.ts';
import { between, inside, ranges, share } from './arbitrary.ts';

const RUNS = Number(process.env.PROPERTY_RUNS ?? 300);
const widened = ({ low, high }: { low: number; high: number }) =>
  interval(low * (1 - 1e-9) - 1e-9, high * (1 + 1e-9) + 1e-9);

describe('a piece on a rope', () => {
  it('pulls within the bounds, whatever the readings allow', () => {
    fc.assert(
      fc.property(
        ranges(50, 5000),
        ranges(0, 5),
        ranges(1e5, 3e6),
        ranges(3, 60),
        fc.tuple(share, share, share, share),
        (weight, drop, stiffness, length, [i, j, k, l]) => {
          const bounds = widened(caughtForce(weight, drop, { stiffness, length }));
          const [w, h] = [inside(weight, i), inside(drop, j)];
          const rate = inside(stiffness, k) / inside(length, l);
          const force = arrestForce(w, h, rate);
          expect(contains(bounds, force)).toBe(true);
          expect(contains(bounds, Math.max(2 * w, force / 3))).toBe(true);
          // All the energy is in the rope: W (h + x) = ½ k x².
          const stretch = force / rate;
          expect(w * (h + stretch)).toBeCloseTo((rate * stretch ** 2) / 2, 3);
          expect(runningForce(weight)).toEqual({ low: weight.low, high: 2 * weight.high });
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('pulls more with weight, drop and stiffness, and less with a longer rope', () => {
    fc.assert(
      fc.property(between(50, 5000), between(0, 4), between(1e3, 1e5), between(0.01, 1), (w, h, k, more) => {
        const force = arrestForce(w, h, k);
        expect(arrestForce(w * (1 + more), h, k)).toBeGreaterThan(force);
        expect(arrestForce(w, h + more, k)).toBeGreaterThan(force);
        expect(arrestForce(w, h, k * (1 + more))).toBeGreaterThanOrEqual(force);
      }),
      { numRuns: RUNS },
    );
  });

  it('has no upper end where drop or rope are not known', () => {
    expect(caughtForce(exact(2000), undefined, undefined)).toEqual({ low: 4000, high: Infinity });
    expect(() => ropeStiffness(exact(1), exact(0))).toThrow(RangeError);
    expect(() => arrestForce(0, 1, 1)).toThrow(RangeError);
    expect(() => frustumVolume(exact(-1), exact(1), exact(1))).toThrow(RangeError);
    expect(frustumVolume(interval(0, Infinity), exact(0), interval(0, Infinity)).low).toBe(0);
  });

  it('bends a spar within the bounds of the arm, and pulls on the block within those of the angle', () => {
    fc.assert(
      fc.property(
        ranges(0, 180),
        ranges(0, 20),
        ranges(0.05, 0.5),
        fc.tuple(share, share, share),
        (angle, below, aside, [i, j, k]) => {
          const [a, z, r] = [(inside(angle, i) * Math.PI) / 180, inside(below, j), inside(aside, k)];
          // As vectors: one leg straight down, the other at the angle.
          const [x, y] = [Math.sin(a), 1 + Math.cos(a)];
          expect(contains(widened(sparArm(angle, below, aside)), x * z + y * r)).toBe(true);
          expect(contains(widened(blockForce(exact(1), angle)), Math.hypot(x, y))).toBe(true);
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('weighs as a frustum, between the cylinders of both ends', () => {
    fc.assert(
      fc.property(
        ranges(0.1, 5),
        ranges(0.1, 1),
        ranges(0.1, 1),
        fc.tuple(share, share, share),
        (l, a, b, [i, j, k]) => {
          const bounds = widened(frustumVolume(l, a, b));
          const [long, wide, thin] = [inside(l, i), inside(a, j), inside(b, k)];
          const slices = 2000;
          let volume = 0;
          for (let n = 0; n < slices; n++)
            volume += (Math.PI / 4) * (wide + ((thin - wide) * (n + 0.5)) / slices) ** 2 * (long / slices);
          expect(volume).toBeGreaterThanOrEqual(bounds.low * (1 - 1e-6));
          expect(volume).toBeLessThanOrEqual(bounds.high * (1 + 1e-6));
        },
      ),
      { numRuns: 50 },
    );
  });
});
