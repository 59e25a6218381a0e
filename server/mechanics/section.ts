/**
 * Strength of one exact stem section with voids (mechanical theory of beams; see bending.ts).
 *
 * Disjoint pieces of sound wood are taken together, as one section that bends as a plane: the formula knows
 * nothing of their slipping past each other. Real pieces do, so the figure flatters such a stem.
 */

import { moduliByBearing, soundModulus, worstLoss } from './bending.ts';
import { type RayBuffers, type SectionMoments, sectionMoments } from './rays.ts';
import { RADIANS, sectionShape, type WoodEdge } from './section-shape.ts';
import type { CrossSection } from './section-types.ts';

/** Half a degree a ray. */
export const RAYS = 720;

/** Losses this close are rounding: the first direction is named. */
const TIE = 1e-9;

export interface ThinnestWall {
  /** m. */
  readonly thickness: number;
  readonly bearing: number;
}

export interface SectionFigures {
  /** 1 − Z / Z0, greatest over directions in steps of 1°: 0 sound, 1 nothing left. */
  readonly strengthLoss: number;
  /** Direction of bending at which it is greatest, 0..179: bending back is the same. */
  readonly worstBearing: number;
  /** Loss towards 0°, 1° … 359°. */
  readonly lossByBearing: readonly number[];
  /** Least Z over directions, m³, and that of the full section. */
  readonly sectionModulus: number;
  readonly soundSectionModulus: number;
  /** Sound wood, m², and its share of the full section. */
  readonly soundArea: number;
  readonly soundShare: number;
  /** Share of the circumference without wood at the surface. */
  readonly openShare: number;
  /** Thinnest wood between void and surface; absent when no void lies behind any wood. */
  readonly thinnestWall?: ThinnestWall;
}

/** @throws RangeError for lengths that cannot be (see sectionShape). */
export function sectionFigures(section: CrossSection): SectionFigures {
  const shape = sectionShape(section);
  return figuresOf(sectionMoments(shape, RAYS), shape.edge);
}

/** The same with the loss over every direction, not only whole degrees: hardly greater. */
export function steepestFigures(section: CrossSection): {
  readonly figures: SectionFigures;
  readonly loss: number;
} {
  const shape = sectionShape(section);
  const wood = sectionMoments(shape, RAYS);
  return { figures: figuresOf(wood, shape.edge), loss: worstLoss(wood, shape.edge) };
}

function figuresOf(wood: SectionMoments, edge: WoodEdge): SectionFigures {
  const full = Math.PI * edge.along * edge.across;
  const soundSectionModulus = (full * Math.min(edge.along, edge.across)) / 4;
  const whole = wood.thinnest === Infinity && wood.openShare === 0;
  const moduli = moduliByBearing(wood, edge);
  let worstBearing = 0;
  const lossByBearing = moduli.map((modulus, degree) =>
    whole ? 0 : 1 - modulus / soundModulus(edge, degree * RADIANS),
  );
  for (let degree = 1; degree < 180; degree++)
    if (lossByBearing[degree]! > lossByBearing[worstBearing]! + TIE) worstBearing = degree;
  return {
    strengthLoss: lossByBearing[worstBearing]!,
    worstBearing,
    lossByBearing,
    sectionModulus: whole ? soundSectionModulus : Math.min(...moduli),
    soundSectionModulus,
    soundArea: wood.area,
    soundShare: wood.area / full,
    openShare: wood.openShare,
    ...(wood.thinnest < Infinity && {
      thinnestWall: { thickness: wood.thinnest, bearing: wood.thinnestBearing },
    }),
  };
}

/** The loss over every direction alone. @param buffers reused by searches that compute thousands of sections */
export function quickLoss(section: CrossSection, rays: number, buffers?: RayBuffers): number {
  const shape = sectionShape(section);
  return worstLoss(sectionMoments(shape, rays, buffers), shape.edge);
}
