import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, interval } from '../../server/base/interval.ts';
import { SPLIT, sectorLoss, sectorLossBounds } from '../../server/mechanics/lost-sector.ts';
import { between } from './arbitrary.ts';

const share = between(0, 1);
/** Taking off a projecting edge raises the modulus by this at the most. */
const EDGE = 0.0035;
const RUNS = Number(process.env.PROPERTY_RUNS ?? 300);

describe('a missing sector', () => {
  it('costs nothing where there is none, and all where nothing is left', () => {
    expect(sectorLoss(0, 0.5)).toBe(0);
    expect(sectorLoss(0.5, 0)).toBe(0);
    expect(sectorLoss(1, 1)).toBe(1);
    // A ring with half the radius gone from outside is a circle of half the size.
    expect(sectorLoss(1, 0.5)).toBeCloseTo(1 - 0.5 ** 3 * 0.5, 12);
  });

  it('costs more, the wider and deeper it is', () => {
    fc.assert(
      fc.property(share, share, share, share, (a, b, c, d) => {
        const [narrow, wide] = [Math.min(a, b), Math.max(a, b)];
        const [flat, deep] = [Math.min(c, d), Math.max(c, d)];
        expect(sectorLoss(wide, deep)).toBeGreaterThanOrEqual(sectorLoss(narrow, flat) - EDGE);
      }),
      { numRuns: RUNS },
    );
  });

  it('has bounds that hold every sector the readings allow', () => {
    fc.assert(
      fc.property(share, share, share, share, share, share, (a, b, c, d, i, j) => {
        const width = interval(Math.min(a, b), Math.max(a, b));
        const depth = interval(Math.min(c, d), Math.max(c, d));
        const bounds = sectorLossBounds(width, depth);
        const inside = sectorLoss(
          width.low + i * (width.high - width.low),
          depth.low + j * (depth.high - depth.low),
        );
        expect(inside).toBeGreaterThanOrEqual(bounds.low - EDGE);
        expect(inside).toBeLessThanOrEqual(bounds.high + EDGE);
      }),
      { numRuns: RUNS },
    );
  });

  it('is exact for exact readings', () => {
    expect(sectorLossBounds(exact(0.3), exact(0.2))).toEqual(exact(sectorLoss(0.3, 0.2)));
  });
});

it('two halves are worth less than the whole', () => {
  expect(SPLIT.low).toBeCloseTo((2 * 0.1098) / 0.5756 / (Math.PI / 4), 3);
});
