/**
 * Peak bending stress of sound wood, and the strength loss relative to the full section.
 *
 * Unsymmetrical bending: with the wood's second moments J about its centroid c and a unit moment that bends towards the
 * unit vector n, the stress at p is n · J⁻¹(p − c). A linear stress peaks on the convex hull of the wood.
 */

import type { SectionMoments } from './rays.ts';
import { RADIANS, type WoodEdge } from './section-shape.ts';

/** Sound wood of less than this share of the full section carries nothing. */
const NO_WOOD = 1e-9;

/** Centroid and second moments of the wood about it. */
interface CentroidalMoments {
  readonly east: number;
  readonly north: number;
  readonly ee: number;
  readonly nn: number;
  readonly en: number;
  readonly determinant: number;
}

/** Undefined if no wood is left to carry a moment. */
function centroidalMoments(wood: SectionMoments, edge: WoodEdge): CentroidalMoments | undefined {
  const full = Math.PI * edge.along * edge.across;
  if (!(wood.area > NO_WOOD * full)) return undefined;
  const east = wood.momentEast / wood.area;
  const north = wood.momentNorth / wood.area;
  const ee = wood.eastEast - wood.area * east * east;
  const nn = wood.northNorth - wood.area * north * north;
  const en = wood.eastNorth - wood.area * east * north;
  const determinant = ee * nn - en * en;
  return determinant > (NO_WOOD * full * full) ** 2 ? { east, north, ee, nn, en, determinant } : undefined;
}

/** Stress per unit moment at a point: its component along n is the stress for bending towards n. */
const stressEast = ({ east, north, nn, en, determinant }: CentroidalMoments, x: number, y: number): number =>
  (nn * (x - east) - en * (y - north)) / determinant;
const stressNorth = ({ east, north, ee, en, determinant }: CentroidalMoments, x: number, y: number): number =>
  (ee * (y - north) - en * (x - east)) / determinant;

/** Z of the full ellipse for bending along its `turn` and across it, m³. */
const soundModuli = ({ along, across }: WoodEdge) => ({
  along: (Math.PI * along * along * across) / 4,
  across: (Math.PI * along * across * across) / 4,
});

/** Z0 for bending towards a bearing in radians, m³. */
export function soundModulus(edge: WoodEdge, bearing: number): number {
  const moduli = soundModuli(edge);
  if (edge.along === edge.across) return moduli.along;
  const off = bearing - edge.turn;
  return 1 / Math.hypot(Math.cos(off) / moduli.along, Math.sin(off) / moduli.across);
}

/** Rounding tolerance for a point on the surface, as a share of the ellipse. */
const ON_SURFACE = 1e-9;
/** Steps of parabolic interpolation: more change nothing before the ninth digit. */
const INTERPOLATIONS = 5;

/**
 * The greatest stress over all points and directions relative to the sound section, whose Z depends on the direction:
 * the maximum over n of n·q / |S n| is |S⁻¹ q|. On an arc of the surface it is also searched between the rays.
 */
function peak(wood: SectionMoments, edge: WoodEdge): number | undefined {
  const moments = centroidalMoments(wood, edge);
  if (!moments) return undefined;
  const { along, across } = soundModuli(edge);
  const { points, pointCount: count } = wood;
  const sin = Math.sin(edge.turn);
  const cos = Math.cos(edge.turn);
  /** Square of the stress at a point relative to the sound section. */
  const relativeStress = (x: number, y: number): number => {
    const east = stressEast(moments, x, y);
    const north = stressNorth(moments, x, y);
    const lengthwise = (east * sin + north * cos) * along;
    const crosswise = (east * cos - north * sin) * across;
    return lengthwise * lengthwise + crosswise * crosswise;
  };
  let worst = 0;
  let at = 0;
  for (let i = 0; i < count; i++) {
    const here = relativeStress(points[2 * i]!, points[2 * i + 1]!);
    if (here > worst) {
      worst = here;
      at = i;
    }
  }
  /** Parameter of the ellipse at a point, if the point is on the surface. */
  const turnOf = (i: number): number | undefined => {
    const x = points[2 * i]!;
    const y = points[2 * i + 1]!;
    const lengthwise = (x * sin + y * cos) / edge.along;
    const crosswise = (x * cos - y * sin) / edge.across;
    const off = Math.abs(lengthwise * lengthwise + crosswise * crosswise - 1);
    return off < ON_SURFACE ? Math.atan2(crosswise, lengthwise) : undefined;
  };
  const follows = (i: number, j: number) =>
    (wood.pointRays[i]! + 1) % wood.rayCount === wood.pointRays[j]! ? turnOf(i === at ? j : i) : undefined;
  const middle = wood.isStarShaped ? turnOf(at) : undefined;
  const before = follows((at + count - 1) % count, at);
  const after = follows(at, (at + 1) % count);
  if (middle === undefined || before === undefined || after === undefined) return Math.sqrt(worst);
  const onSurface = (turn: number): number => {
    const lengthwise = edge.along * Math.cos(turn);
    const crosswise = edge.across * Math.sin(turn);
    return relativeStress(lengthwise * sin + crosswise * cos, lengthwise * cos - crosswise * sin);
  };
  const unwound = (turn: number) => turn + 2 * Math.PI * Math.round((middle - turn) / (2 * Math.PI));
  return Math.sqrt(Math.max(worst, bracketedMaximum(onSurface, unwound(before), middle, unwound(after))));
}

/** Maximum of a smooth function between `low` and `high`, bracketed by a greater value at `best`. */
function bracketedMaximum(f: (at: number) => number, low: number, best: number, high: number): number {
  let [left, right, top] = [f(low), f(high), f(best)];
  for (let i = 0; i < INTERPOLATIONS; i++) {
    const rise = (best - low) * (top - right);
    const fall = (high - best) * (top - left);
    if (!(rise + fall > 0)) break;
    const at = best - ((best - low) * rise - (high - best) * fall) / (2 * (rise + fall));
    if (!(at > low && at < high) || at === best) break;
    const here = f(at);
    if (here >= top) {
      if (at < best) [high, right] = [best, top];
      else [low, left] = [best, top];
      [best, top] = [at, here];
    } else if (at < best) [low, left] = [at, here];
    else [high, right] = [at, here];
  }
  return top;
}

/**
 * The worst loss over all directions, not only whole degrees. Differs from the worst whole degree by less than 0.00004
 * and costs a tenth.
 */
export function worstLoss(wood: SectionMoments, edge: WoodEdge): number {
  const greatest = peak(wood, edge);
  return greatest === undefined ? 1 : 1 - 1 / greatest;
}

/** Reduces a clockwise star-shaped ring to its convex hull, in place. Returns the number of vertices. */
function keepHull(ring: Float64Array, count: number): number {
  let first = 0;
  for (let i = 1; i < count; i++) if (ring[2 * i]! > ring[2 * first]!) first = i;
  const turned = new Float64Array(2 * count);
  turned.set(ring.subarray(2 * first, 2 * count));
  turned.set(ring.subarray(0, 2 * first), 2 * (count - first));
  let kept = 0;
  for (let i = 0; i <= count; i++) {
    const at = i === count ? 0 : i;
    const x = turned[2 * at]!;
    const y = turned[2 * at + 1]!;
    while (kept > 1) {
      const bx = ring[2 * kept - 2]! - ring[2 * kept - 4]!;
      const by = ring[2 * kept - 1]! - ring[2 * kept - 3]!;
      if (bx * (y - ring[2 * kept - 3]!) - by * (x - ring[2 * kept - 4]!) < 0) break;
      kept--;
    }
    if (i === count) break;
    ring[2 * kept] = x;
    ring[2 * kept + 1] = y;
    kept++;
  }
  return kept;
}

const DIRECTIONS = 360;
const HALF = DIRECTIONS / 2;
const SINES = Float64Array.from({ length: HALF }, (_, degree) => Math.sin(degree * RADIANS));
const COSINES = Float64Array.from({ length: HALF }, (_, degree) => Math.cos(degree * RADIANS));

/** Z towards 0°, 1° … 359°, m³. Opposite directions stress the same fibres, so half a turn is computed. */
export function moduliByBearing(wood: SectionMoments, edge: WoodEdge): readonly number[] {
  const moments = centroidalMoments(wood, edge);
  const moduli = new Array<number>(DIRECTIONS).fill(0);
  if (!moments) return moduli;
  const values = new Float64Array(2 * wood.pointCount);
  for (let i = 0; i < wood.pointCount; i++) {
    const [x, y] = [wood.points[2 * i]!, wood.points[2 * i + 1]!];
    values[2 * i] = stressEast(moments, x, y);
    values[2 * i + 1] = stressNorth(moments, x, y);
  }
  const count = wood.isStarShaped ? keepHull(values, wood.pointCount) : wood.pointCount;
  const at = (i: number, degree: number) =>
    values[2 * i]! * SINES[degree]! + values[2 * i + 1]! * COSINES[degree]!;
  const next = (i: number) => (i + 1 === count ? 0 : i + 1);
  let ahead = 0;
  let behind = 0;
  for (let degree = 0; degree < HALF; degree++) {
    let highest = at(ahead, degree);
    let lowest = at(behind, degree);
    if (degree === 0 || !wood.isStarShaped) {
      for (let i = 0; i < count; i++) {
        const here = at(i, degree);
        if (here > highest) [ahead, highest] = [i, here];
        if (here < lowest) [behind, lowest] = [i, here];
      }
    } else {
      // Rotating calipers: on the hull the extremes move clockwise with the direction.
      for (let step = 0; step < count; step++) {
        const here = at(next(ahead), degree);
        if (here < highest) break;
        [ahead, highest] = [next(ahead), here];
      }
      for (let step = 0; step < count; step++) {
        const here = at(next(behind), degree);
        if (here > lowest) break;
        [behind, lowest] = [next(behind), here];
      }
    }
    moduli[degree] = moduli[degree + HALF] = 1 / Math.max(highest, -lowest);
  }
  return moduli;
}
