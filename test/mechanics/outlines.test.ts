import { describe, expect, it } from 'vitest';
import { type Ring, sectionOutlines } from '../../server/mechanics/outlines.ts';
import { sectionFigures } from '../../server/mechanics/section.ts';
import type { CrossSection } from '../../server/mechanics/section-types.ts';

const area = (ring: Ring): number =>
  Math.abs(
    ring.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = ring[(i + 1) % ring.length]!;
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );
const soundArea = (section: CrossSection): number =>
  sectionOutlines(section).sound.reduce(
    (sum, { outline, holes }) => sum + area(outline) - holes.reduce((gone, hole) => gone + area(hole), 0),
    0,
  );

const outer = { diameter: 0.66, bark: 0.01 };
const walls = [
  { bearing: 225, wall: 0.07 },
  { bearing: 45, wall: 0.13 },
];

describe('outlines of a section', () => {
  it.each<[string, CrossSection, number, number[]]>([
    ['sound', { outer, cavities: [] }, 1, [0]],
    ['a closed hollow', { outer, cavities: [{ walls }] }, 1, [1]],
    ['an opened hollow', { outer, cavities: [{ walls, bearing: 225, opening: 0.2 }] }, 1, [0]],
    [
      'a hollow opened to two sides',
      {
        outer,
        cavities: [
          { walls, bearing: 225, opening: 0.2 },
          { walls, bearing: 45, opening: 0.1 },
        ],
      },
      2,
      [0, 0],
    ],
    [
      'an opening wider than its shallow void',
      { outer, cavities: [{ bearing: 90, depth: 0.05, opening: 0.3 }] },
      1,
      [0],
    ],
    [
      'an ellipse',
      { outer: { diameter: 1, crossDiameter: 0.7, bearing: 30 }, cavities: [{ bearing: 80, depth: 0.4 }] },
      1,
      [0],
    ],
  ])('%s: as much wood as the figures say, in the right pieces', (_, section, pieces, holes) => {
    const { sound } = sectionOutlines(section);
    expect(sound.map(shape => shape.holes.length)).toEqual(holes);
    expect(sound).toHaveLength(pieces);
    expect(soundArea(section) / sectionFigures(section).soundArea).toBeCloseTo(1, 3);
  });

  it('of a stem without wood left hold none', () => {
    const { sound, voids } = sectionOutlines({ outer, cavities: [{ walls: [{ bearing: 0, wall: 0 }] }] });
    expect(sound).toEqual([]);
    expect(voids).toHaveLength(1);
  });

  it('join voids that meet', () => {
    const two = { outer, cavities: [{ walls }, { bearing: 90, depth: 0.2, opening: 0.05 }] };
    expect(sectionOutlines(two).voids).toHaveLength(1);
  });

  it('draw the bark where there is any, and put north up', () => {
    const { bark, outer: wood } = sectionOutlines({ outer, cavities: [] });
    expect(wood[0]).toEqual([0, 0.32]);
    expect(bark![0]).toEqual([0, 0.33]);
    expect(sectionOutlines({ outer: { diameter: 1 }, cavities: [] }).bark).toBeUndefined();
  });
});
