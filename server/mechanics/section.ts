/**
 * Strength of one exact stem section with voids, by beam theory (see bending.ts).
 *
 * Disjoint pieces of sound wood are treated as one plane section. Real pieces slip past each other, so the result
 * overestimates the strength of such a stem.
 */

import { moduliByBearing, soundModulus, worstLoss } from './bending.ts';
import { type RayBuffers, type SectionMoments, sectionMoments } from './rays.ts';
import { RADIANS, sectionShape, type WoodEdge } from './section-shape.ts';
import type { CrossSection } from './section-types.ts';

/** One every half degree. */
export const RAYS = 720;

/** Losses closer than this are equal, and the first direction is reported. */
const TIE = 1e-9;

export interface SectionFigures {
  /** 1 − Z / Z0, maximum over directions in steps of 1°: 0 for sound, 1 for no wood. */
  readonly strengthLoss: number;
  /** Bending direction of the maximum, 0..179; the opposite one is equivalent. */
  readonly worstBearing: number;
  /** Loss towards 0°, 1° … 359°. */
  readonly lossByBearing: readonly number[];
  /** Minimum Z over directions, and that of the full section, m³. */
  readonly sectionModulus: number;
  readonly soundSectionModulus: number;
  /** m², and as a share of the full section. */
  readonly soundArea: number;
  readonly soundShare: number;
  /** Share of the circumference without wood at the surface. */
  readonly openShare: number;
  /** Thinnest wood between void and surface; undefined if no void lies behind wood. */
  readonly thinnestWall: { readonly thickness: number; readonly bearing: number } | undefined;
}

/** @throws RangeError for impossible lengths (see sectionShape). */
export function sectionFigures(section: CrossSection): SectionFigures {
  const shape = sectionShape(section);
  return figuresOf(sectionMoments(shape, RAYS), shape.edge);
}

/** Adds the loss over all directions, not only whole degrees: hardly greater. */
export function figuresWithPeakLoss(section: CrossSection): {
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
    thinnestWall:
      wood.thinnest < Infinity ? { thickness: wood.thinnest, bearing: wood.thinnestBearing } : undefined,
  };
}

/** The loss over all directions alone. @param buffers reused by searches that compute thousands of sections */
export function quickLoss(section: CrossSection, rays: number, buffers?: RayBuffers): number {
  const shape = sectionShape(section);
  return worstLoss(sectionMoments(shape, rays, buffers), shape.edge);
}
