/**
 * Bounds of the strength loss of every section between two: the wood that exists for certain and the most that may
 * exist.
 *
 * A proof, no search. For any wood W with W₀ ⊆ W ⊆ W₁, with areas A₀ ≤ A ≤ A₁, centroids c and second moments J about
 * them, the peak stress at p for a unit moment in its worst direction is |J⁻¹(p − c)|. By the Cauchy–Schwarz inequality
 * it lies between √(f/λ) for the least and the greatest principal moment λ of J, where f = (p − c)ᵀJ⁻¹(p − c); and J
 * grows with W. Wood of area a with its centroid at m (from c₀) adds at least A₀α·mmᵀ to J₀ and moves the centroid by
 * αm, α = a/(A₀ + a); the m that raises f most raises it by α/A₀, which is 1/A₀ − 1/A₁ if all possible wood exists.
 * Removing wood from W₁ lowers f by no more than the same. So
 *
 *     f₁ − g ≤ f ≤ f₀ + g,   g = 1/A₀ − 1/A₁,
 *
 * with f₀ over the outermost points of W₁ and f₁ over those of W₀. As the two sections converge so do the ends, except
 * for the slack of the inequality where the principal moments differ. Computed in the frame in which the full section
 * is a circle of radius 1, where losses are the same.
 */

import { clip, type Interval, interval } from '../base/interval.ts';
import { type SectionMoments, sectionMoments } from './rays.ts';
import { sectionShape, type WoodEdge } from './section-shape.ts';
import type { CrossSection } from './section-types.ts';

/** One per degree. */
const ENVELOPE_RAYS = 360;
/** Error of the rays on an arc between them, in radii. */
const RAY_ERROR = 1e-4;
/** Less than this share of the circle carries nothing. */
const NO_WOOD = 1e-6;

/** Sound wood in the frame of the unit circle. */
interface UnitCircleWood {
  readonly area: number;
  readonly centroid: readonly [number, number];
  /** Second moments about the centroid: xx, yy, xy. */
  readonly moments: readonly [number, number, number];
  /** x, y alternately. */
  readonly points: Float64Array;
}

/** Undefined if no significant wood is left. */
function woodOf(section: CrossSection): UnitCircleWood | undefined {
  const shape = sectionShape(section);
  return inUnitCircle(sectionMoments(shape, ENVELOPE_RAYS), shape.edge);
}

function inUnitCircle(wood: SectionMoments, { along, across, turn }: WoodEdge): UnitCircleWood | undefined {
  const size = along * across;
  const area = wood.area / size;
  if (!(area > NO_WOOD)) return undefined;
  const sin = Math.sin(turn);
  const cos = Math.cos(turn);
  // Along and across the ellipse, each divided by its semi-axis.
  const to = (east: number, north: number): readonly [number, number] => [
    (east * sin + north * cos) / along,
    (east * cos - north * sin) / across,
  ];
  const centroid = to(wood.momentEast / wood.area, wood.momentNorth / wood.area);
  const { eastEast: ee, northNorth: nn, eastNorth: en } = wood;
  const lengthwise = (ee * sin * sin + nn * cos * cos + 2 * en * sin * cos) / (size * along * along);
  const crosswise = (ee * cos * cos + nn * sin * sin - 2 * en * sin * cos) / (size * across * across);
  const both = ((ee - nn) * sin * cos + en * (cos * cos - sin * sin)) / (size * size);
  const points = new Float64Array(2 * wood.pointCount);
  for (let i = 0; i < wood.pointCount; i++)
    points.set(to(wood.points[2 * i]!, wood.points[2 * i + 1]!), 2 * i);
  return {
    area,
    centroid,
    moments: [
      lengthwise - area * centroid[0] * centroid[0],
      crosswise - area * centroid[1] * centroid[1],
      both - area * centroid[0] * centroid[1],
    ],
    points,
  };
}

/** Maximum of (p − c)ᵀJ⁻¹(p − c) over the points. */
function greatest(points: Float64Array, { centroid, moments: [xx, yy, xy] }: UnitCircleWood): number {
  const determinant = xx * yy - xy * xy;
  let most = 0;
  for (let i = 0; i < points.length; i += 2) {
    const x = points[i]! - centroid[0];
    const y = points[i + 1]! - centroid[1];
    most = Math.max(most, yy * x * x - 2 * xy * x * y + xx * y * y);
  }
  return most / determinant;
}

function principal({ moments: [xx, yy, xy] }: UnitCircleWood): {
  readonly least: number;
  readonly most: number;
} {
  const middle = (xx + yy) / 2;
  const off = Math.hypot((xx - yy) / 2, xy);
  return { least: middle - off, most: middle + off };
}

/** Z of the unit circle. */
const FULL = Math.PI / 4;

/**
 * Strength loss of every section whose wood contains that of `least` and is contained in that of `most`, each relative
 * to the size of its own stem.
 *
 * @throws RangeError for impossible lengths (see sectionShape).
 */
export function lossBetween(least: CrossSection, most: CrossSection): Interval {
  const outer = woodOf(most);
  if (!outer) return interval(1, 1);
  const inner = woodOf(least);
  const whole = interval(0, 1);
  if (!inner || principal(inner).least < NO_WOOD) return whole;
  const between = Math.max(0, 1 / inner.area - 1 / outer.area);
  const highest = Math.sqrt((greatest(outer.points, inner) + between) / principal(inner).least);
  const lowest = Math.sqrt(Math.max(0, greatest(inner.points, outer) - between) / principal(outer).most);
  const loss = (stress: number) => (stress > 0 ? 1 - 1 / (FULL * stress) : 0);
  const high = loss(highest) + RAY_ERROR;
  return clip(interval(Math.min(high, loss(lowest) - RAY_ERROR), high), whole);
}
