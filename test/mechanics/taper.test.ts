import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, interval } from '../../server/base/interval.ts';
import {
  BREAST_HEIGHT,
  diameterAt,
  exponentOfForm,
  exponentOfTaper,
  formOf,
} from '../../server/mechanics/taper.ts';
import { between, inside, ranges, share } from './arbitrary.ts';

const RUNS = Number(process.env.PROPERTY_RUNS ?? 300);

describe('the taper of a stem', () => {
  it('has the volume of its form factor', () => {
    fc.assert(
      fc.property(between(15, 40), between(0.34, 0.5), (height, form) => {
        const exponent = exponentOfForm(exact(form), exact(height));
        const stem = { diameter: exact(0.5), height: exact(height), exponent };
        const slices = 4000;
        let volume = 0;
        for (let i = 0; i < slices; i++)
          volume += diameterAt(stem, ((i + 0.5) * height) / slices).low ** 2 * (height / slices);
        expect(volume / (0.25 * height)).toBeCloseTo(form, 3);
        expect(formOf(exponent.low, height)).toBeCloseTo(form, 9);
      }),
      { numRuns: 40 },
    );
  });

  it('goes through both diameters', () => {
    const exponent = exponentOfTaper(exact(0.8), exact(25), exact(0.6), exact(8))!;
    const stem = { diameter: exact(0.8), height: exact(25), exponent };
    expect(diameterAt(stem, BREAST_HEIGHT).low).toBeCloseTo(0.8, 12);
    expect(diameterAt(stem, 8).high).toBeCloseTo(0.6, 12);
    expect(exponentOfTaper(exact(0.8), exact(25), exact(0.9), exact(8))).toBeUndefined();
    expect(exponentOfTaper(exact(0.8), exact(25), exact(0.6), exact(1))).toBeUndefined();
    expect(() => diameterAt(stem, 25)).toThrow(RangeError);
  });

  it('holds every stem that the readings allow', () => {
    fc.assert(
      fc.property(
        ranges(0.3, 1),
        ranges(12, 40),
        ranges(0.2, 0.9),
        between(3, 9),
        between(0.2, 11),
        fc.tuple(share, share, share),
        (diameter, height, upper, at, z, [i, j, k]) => {
          const exponent = exponentOfTaper(diameter, height, upper, exact(at));
          const [d, tall, u] = [inside(diameter, i), inside(height, j), inside(upper, k)];
          if (!exponent || u > d) return;
          const p = Math.log(u / d) / Math.log((tall - at) / (tall - BREAST_HEIGHT));
          const there = d * ((tall - z) / (tall - BREAST_HEIGHT)) ** p;
          const bounds = diameterAt({ diameter, height, exponent }, z);
          expect(contains(interval(bounds.low - 1e-9, bounds.high + 1e-9), there)).toBe(true);
        },
      ),
      { numRuns: RUNS },
    );
  });
});
