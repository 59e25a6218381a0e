import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionFigures } from '../../server/mechanics/section.ts';
import { sectionOf } from './arbitrary-section.ts';
import { polygonProperties, polygonSection } from './polygon-section.ts';

describe('polygons by Green’s theorem', () => {
  it('rectangle of 3 by 2', () => {
    const { area, ix, iy, ixy } = polygonProperties([
      [
        [0, 0],
        [3, 0],
        [3, 2],
        [0, 2],
      ],
    ]);
    expect([area, ix, iy]).toEqual([6, 2, 4.5]);
    expect(ixy).toBeCloseTo(0, 12);
  });

  it('triangle', () => {
    const { area, centroid, ix, iy, ixy } = polygonProperties([
      [
        [0, 0],
        [6, 0],
        [0, 3],
      ],
    ]);
    expect([area, ...centroid, ix, iy, ixy]).toEqual([9, 2, 1, 4.5, 18, -4.5]);
  });
});

it('any section agrees with its polygon to 0.003, almost always to 0.001', () => {
  let compared = 0;
  let close = 0;
  fc.assert(
    fc.property(sectionOf(3), candidate => {
      const polygon = polygonSection(candidate);
      if (!polygon) return;
      const figures = sectionFigures(candidate);
      const worst = Math.max(
        ...polygon.losses.map((loss, i) => Math.abs(loss - figures.lossByBearing[10 * i]!)),
      );
      expect(worst).toBeLessThan(0.003);
      expect(Math.abs(figures.soundArea - polygon.area)).toBeLessThan(0.001);
      compared++;
      if (worst < 0.001) close++;
    }),
    { numRuns: 80, seed: 20260314 },
  );
  expect(compared).toBeGreaterThan(50);
  expect(close / compared).toBeGreaterThan(0.9);
});
