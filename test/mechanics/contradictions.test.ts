import { describe, expect, it } from 'vitest';
import { exact } from '../../server/base/interval.ts';
import { contradictionsOf } from '../../server/mechanics/contradictions.ts';
import { uncertainFigures } from '../../server/mechanics/uncertain-section.ts';

const UNITS = { in: 0.0254, cm: 0.01, mm: 0.001, ft: 0.3048, m: 1 } as const;

describe('readings that fit as they were written', () => {
  // Depth and the wall behind it make the diameter up, exactly: 18 + 8 = 26.
  it.each(Object.entries(UNITS))('do not contradict in %s', (_, unit) => {
    for (const [diameter, depth, wall] of [
      [26, 18, 8],
      [76, 50, 26],
      [29.9, 19.7, 10.2],
      [0.7, 0.4, 0.3],
      [66.04, 45.72, 20.32],
    ] as const) {
      const size = (value: number) => exact(value * unit);
      const cavity = { bearing: 180, depth: size(depth), allRound: size(wall) };
      expect(contradictionsOf({ diameter: size(diameter) }, cavity)).toEqual([]);
      const figures = uncertainFigures({ outer: { diameter: size(diameter) }, cavities: [cavity] });
      expect(figures.strengthLoss.low).toBeCloseTo((1 - (2 * wall) / diameter) ** 4, 9);
    }
  });

  it('do not contradict within half an inch each, in which stems are measured, and do beyond', () => {
    const inch = UNITS.in;
    const of = (depth: number) =>
      contradictionsOf(
        { diameter: exact(26 * inch) },
        { bearing: 180, depth: exact(depth * inch), allRound: exact(8 * inch) },
      ).map(({ kind }) => kind);
    expect(of(19.5)).toEqual([]);
    expect(of(19.6)).toEqual(['depth beyond the void of the walls']);
    expect(of(29)).toEqual(['depth beyond the far bark', 'depth beyond the void of the walls']);
  });
});

describe('a wall that nobody read', () => {
  const outer = { diameter: exact(0.65) };
  const probe = { bearing: 90, depth: exact(0.6) };

  it('across from the mouth contradicts no depth; one that was read there does', () => {
    const here = { bearing: 90, wall: exact(0.2) };
    const across = { bearing: 270, wall: exact(0.2) };
    expect(contradictionsOf(outer, { ...probe, walls: [here] })).toEqual([]);
    expect(contradictionsOf(outer, { ...probe, walls: [here, across] })).toMatchObject([
      { kind: 'depth beyond the void of the walls', possible: { low: 0, high: expect.closeTo(0.45, 9) } },
    ]);
  });

  it('is no thicker across from a probe that found its end than the stem there leaves', () => {
    const walls = [{ bearing: 90, wall: exact(0.05) }];
    const ended = uncertainFigures({ outer, cavities: [{ ...probe, walls }] });
    const unseen = uncertainFigures({ outer, cavities: [{ bearing: 90, walls }] });
    expect(ended.strengthLoss.low).toBeGreaterThan(unseen.strengthLoss.low + 0.05);
  });
});
