import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionFigures } from '../../server/mechanics/section.ts';
import type { Cavity, CrossSection } from '../../server/mechanics/section-types.ts';
import { lengthRange as length, sectionOf } from './arbitrary-section.ts';

const RUNS = { numRuns: 150 };
const turnedBy = ({ outer, cavities }: CrossSection, turn: number): CrossSection => ({
  outer: { ...outer, bearing: (outer.bearing ?? 0) + turn },
  cavities: cavities.map(({ bearing, walls, ...rest }) => ({
    ...rest,
    ...(bearing !== undefined && { bearing: bearing + turn }),
    ...(walls && { walls: walls.map(w => ({ ...w, bearing: w.bearing + turn })) }),
  })),
});
const scaledBy = ({ outer, cavities }: CrossSection, scale: number): CrossSection => ({
  outer: {
    ...outer,
    diameter: outer.diameter * scale,
    ...(outer.crossDiameter && { crossDiameter: outer.crossDiameter * scale }),
    ...(outer.bark && { bark: outer.bark * scale }),
  },
  cavities: cavities.map(({ depth, opening, walls, ...rest }) => ({
    ...rest,
    ...(depth && { depth: depth * scale }),
    ...(opening && { opening: opening * scale }),
    ...(walls && { walls: walls.map(w => ({ ...w, wall: w.wall * scale })) }),
  })),
});
const mirrored = ({ outer, cavities }: CrossSection): CrossSection => ({
  outer: { ...outer, bearing: -(outer.bearing ?? 0) },
  cavities: cavities.map(({ bearing, walls, ...rest }) => ({
    ...rest,
    ...(bearing !== undefined && { bearing: -bearing }),
    ...(walls && { walls: walls.map(w => ({ ...w, bearing: -w.bearing })) }),
  })),
});

describe('any section', () => {
  it('has finite figures between nothing and all', () => {
    fc.assert(
      fc.property(sectionOf(3), section => {
        const figures = sectionFigures(section);
        expect(Math.max(...figures.lossByBearing)).toBeLessThanOrEqual(1);
        // A void may make a stem stronger one way: wood gone from an extreme fibre. Never by much.
        expect(Math.min(...figures.lossByBearing)).toBeGreaterThan(-0.1);
        expect(figures.lossByBearing).toHaveLength(360);
        expect(figures.strengthLoss).toBeCloseTo(Math.max(...figures.lossByBearing), 8);
        expect(figures.soundShare).toBeGreaterThanOrEqual(0);
        expect(figures.soundShare).toBeLessThanOrEqual(1 + 1e-9);
        expect(figures.openShare).toBeGreaterThanOrEqual(0);
        expect(figures.openShare).toBeLessThanOrEqual(1 + 1e-9);
        expect(figures.sectionModulus).toBeGreaterThanOrEqual(0);
      }),
      RUNS,
    );
  });

  it('turns with its bearings', () => {
    fc.assert(
      fc.property(sectionOf(3), fc.integer({ min: -400, max: 400 }), (section, turn) => {
        const [as, then] = [sectionFigures(section), sectionFigures(turnedBy(section, turn))];
        expect(Math.abs(then.strengthLoss - as.strengthLoss)).toBeLessThan(1e-7);
        expect(then.soundArea).toBeCloseTo(as.soundArea, 8);
        for (const bearing of [0, 45, 130, 300]) {
          const moved = (((bearing + turn) % 360) + 360) % 360;
          expect(Math.abs(then.lossByBearing[moved]! - as.lossByBearing[bearing]!)).toBeLessThan(1e-7);
        }
      }),
      {
        ...RUNS,
        // Edges of openings on whole degrees, where they fall on the edge between two steps.
        examples: [
          [
            {
              outer: { diameter: 0.55 },
              cavities: [
                { bearing: 212, depth: 0.02, opening: 0.02 },
                { bearing: 0, walls: [{ bearing: 0, wall: 0.021 }], opening: 0.02 },
              ],
            },
            149,
          ],
        ],
      },
    );
  });

  it('turns by parts of a degree within 0.001', () => {
    fc.assert(
      fc.property(sectionOf(3), length(0, 1), (section, turn) => {
        const [as, then] = [sectionFigures(section), sectionFigures(turnedBy(section, turn))];
        expect(Math.abs(then.strengthLoss - as.strengthLoss)).toBeLessThan(0.001);
      }),
      RUNS,
    );
  });

  it('loses as much in the mirror', () => {
    fc.assert(
      fc.property(sectionOf(3), section => {
        const [as, then] = [sectionFigures(section), sectionFigures(mirrored(section))];
        expect(Math.abs(then.strengthLoss - as.strengthLoss)).toBeLessThan(1e-7);
      }),
      RUNS,
    );
  });

  it('loses as much at any size; Z grows with the cube, area with the square', () => {
    fc.assert(
      fc.property(sectionOf(3), length(0.1, 5), (section, scale) => {
        const [as, then] = [sectionFigures(section), sectionFigures(scaledBy(section, scale))];
        expect(Math.abs(then.strengthLoss - as.strengthLoss)).toBeLessThan(1e-7);
        expect(then.soundArea / scale ** 2).toBeCloseTo(as.soundArea, 8);
        expect(then.sectionModulus / scale ** 3).toBeCloseTo(as.sectionModulus, 8);
      }),
      RUNS,
    );
  });

  it('does not depend on the order in which cavities or walls are listed', () => {
    fc.assert(
      fc.property(sectionOf(3), section => {
        const reversed: CrossSection = {
          outer: section.outer,
          cavities: [...section.cavities]
            .reverse()
            .map(cavity => ({ ...cavity, ...(cavity.walls && { walls: [...cavity.walls].reverse() }) })),
        };
        expect(sectionFigures(reversed).strengthLoss).toBeCloseTo(sectionFigures(section).strengthLoss, 9);
      }),
      RUNS,
    );
  });

  it('has no more wood for one cavity more, and the same for one listed twice', () => {
    fc.assert(
      fc.property(sectionOf(3), ({ outer, cavities }) => {
        const [all, fewer] = [
          sectionFigures({ outer, cavities }),
          sectionFigures({ outer, cavities: cavities.slice(1) }),
        ];
        expect(all.soundArea).toBeLessThanOrEqual(fewer.soundArea + 1e-6);
        const twice = sectionFigures({ outer, cavities: [...cavities, cavities[0]!] });
        expect(twice.strengthLoss).toBeCloseTo(all.strengthLoss, 9);
      }),
      RUNS,
    );
  });
});

describe('how loss follows a reading', () => {
  const loss = (cavity: Cavity) =>
    sectionFigures({ outer: { diameter: 1 }, cavities: [cavity] }).strengthLoss;

  it('falls with a wall that is the same all round and closed', () => {
    fc.assert(
      fc.property(length(0, 0.5), length(0, 0.5), (a, b) => {
        const at = (wall: number) => loss({ walls: [{ bearing: 0, wall }] });
        expect(at(Math.min(a, b))).toBeGreaterThanOrEqual(at(Math.max(a, b)) - 2e-5);
      }),
      RUNS,
    );
  });

  it('rises with the depth of a probe in a round stem, opening or none, to the far bark', () => {
    const depths = Array.from({ length: 50 }, (_, i) => (i + 1) / 50);
    const losses = depths.map(depth => loss({ bearing: 40, depth }));
    losses.slice(1).forEach((value, i) => {
      expect(value).toBeGreaterThan(losses[i]!);
    });
    expect(losses.at(-1)).toBe(1);
  });

  it('does not always rise with an opening: the horns beside a narrow one are extreme fibres', () => {
    const losses = Array.from({ length: 99 }, (_, i) =>
      loss({ bearing: 0, depth: 0.7, opening: (i + 1) / 100 }),
    );
    expect(losses.some((value, i) => i > 0 && value < losses[i - 1]!)).toBe(true);
  });
});

describe('extremes of a reading', () => {
  const outer = { diameter: 0.6 };

  it('nothing missing: no loss', () => {
    expect(sectionFigures({ outer, cavities: [] }).strengthLoss).toBe(0);
    expect(sectionFigures({ outer, cavities: [{ bearing: 0, depth: 0 }] }).strengthLoss).toBe(0);
    expect(sectionFigures({ outer, cavities: [{ walls: [{ bearing: 0, wall: 0.3 }] }] }).strengthLoss).toBe(
      0,
    );
  });

  it('everything missing: all lost', () => {
    for (const cavity of [
      { bearing: 0, depth: 0.6 },
      { bearing: 0, depth: 5 },
      { walls: [{ bearing: 0, wall: 0 }] },
      { bearing: 0, walls: [{ bearing: 0, wall: 0 }], opening: 0.6 },
    ]) {
      const figures = sectionFigures({ outer, cavities: [cavity] });
      expect(figures.strengthLoss).toBe(1);
      expect(figures.sectionModulus).toBe(0);
    }
  });

  it.each([
    ['no diameter', { outer: { diameter: 0 }, cavities: [] }],
    ['a diameter below nothing', { outer: { diameter: -1 }, cavities: [] }],
    ['a diameter that is no number', { outer: { diameter: Number.NaN }, cavities: [] }],
    ['all of it bark', { outer: { diameter: 0.6, bark: 0.3 }, cavities: [] }],
    ['a wall below nothing', { outer, cavities: [{ walls: [{ bearing: 0, wall: -0.1 }] }] }],
    ['a depth without an end', { outer, cavities: [{ bearing: 0, depth: Number.POSITIVE_INFINITY }] }],
    ['a cavity without a reading', { outer, cavities: [{ bearing: 0 }] }],
    ['a depth without a bearing', { outer, cavities: [{ depth: 0.1 }] }],
  ])('refuses %s', (_, section) => {
    expect(() => sectionFigures(section)).toThrow(RangeError);
  });
});
