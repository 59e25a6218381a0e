/** Sections as fast-check draws them: in whole millimetres, for a void smaller than that is rounding. */

import fc from 'fast-check';
import type { Cavity, CrossSection } from '../../server/mechanics/section-types.ts';

export const lengthRange = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: min * 1000, max: max * 1000 }).map(millimetres => millimetres / 1000);
const bearing = fc.integer({ min: 0, max: 359 });

const opening = fc.oneof(fc.constant(0), lengthRange(0.02, 0.4));

const probed: fc.Arbitrary<Cavity> = fc.record({
  bearing,
  depth: lengthRange(0.02, 0.55),
  smallest: fc.boolean(),
  opening,
});

const walled: fc.Arbitrary<Cavity> = fc.record({
  bearing,
  walls: fc.uniqueArray(fc.record({ bearing, wall: lengthRange(0.02, 0.35) }), {
    minLength: 1,
    maxLength: 4,
    selector: reading => reading.bearing,
  }),
  opening,
});

/** A wall told of all round. */
const ringed: fc.Arbitrary<Cavity> = fc.record({ bearing, allRound: lengthRange(0.02, 0.35), opening });

/** A stem of 0.55 to 0.80 m, round or not, with one to `most` cavities. */
export const sectionOf = (most: number, cavity = fc.oneof(probed, walled)): fc.Arbitrary<CrossSection> =>
  fc.record({
    outer: fc.record({
      diameter: lengthRange(0.55, 0.8),
      crossDiameter: lengthRange(0.55, 0.8),
      bearing,
      bark: lengthRange(0, 0.02),
    }),
    cavities: fc.array(cavity, { minLength: 1, maxLength: most }),
  });

/** The same without walls at single bearings: every section that its readings allow can be drawn from them. */
export const toldSectionOf = (most: number): fc.Arbitrary<CrossSection> =>
  sectionOf(most, fc.oneof(probed, ringed));

/** A section whose readings are each put through `read`, in one order. */
export const mapped = <A, B>(
  { outer, cavities }: CrossSection<A>,
  read: (value: A) => B,
): CrossSection<B> => ({
  outer: {
    diameter: read(outer.diameter),
    ...(outer.crossDiameter !== undefined && { crossDiameter: read(outer.crossDiameter) }),
    ...(outer.bearing !== undefined && { bearing: outer.bearing }),
    ...(outer.bark !== undefined && { bark: read(outer.bark) }),
  },
  cavities: cavities.map(({ bearing, walls, allRound, depth, smallest, opening }) => ({
    ...(bearing !== undefined && { bearing }),
    ...(walls && { walls: walls.map(w => ({ bearing: w.bearing, wall: read(w.wall) })) }),
    ...(allRound !== undefined && { allRound: read(allRound) }),
    ...(depth !== undefined && { depth: read(depth) }),
    ...(smallest !== undefined && { smallest }),
    ...(opening !== undefined && { opening: read(opening) }),
  })),
});
