/**
 * Area properties of the sound wood of a section, integrated over rays from the pith.
 *
 * Every void is an interval of radii on each ray, so their union is a merge of a few intervals: no polygon can fail to
 * close, and a section costs microseconds. Radii are constant over the step of a ray while the integrals over the angle
 * are exact, so concentric rings and sectors are exact and the error of the rest falls with the square of the step.
 * Where the wood is discontinuous (edges of openings, tangents to a void) there is a ray on each side.
 */

import { intersectRay, RayIntervals } from './intersect-ray.ts';
import { edgeRadius, RADIANS, type SectionShape, type VoidShape, wrapped } from './section-shape.ts';

/** Moments about the pith: x east, y north. m², m³ and m⁴. */
export interface SectionMoments {
  readonly area: number;
  readonly momentEast: number;
  readonly momentNorth: number;
  readonly eastEast: number;
  readonly northNorth: number;
  readonly eastNorth: number;
  /** x, y of points that include every extreme of the sound wood, in order of bearing if `isStarShaped`. */
  readonly points: Float64Array;
  readonly pointCount: number;
  /** The ray of each outermost point, of `rayCount`: consecutive rays have wood between them. */
  readonly pointRays: Int32Array;
  readonly rayCount: number;
  /** The hull of the wood contains the pith: then `points` has only the outermost point of each ray. */
  readonly isStarShaped: boolean;
  /** Share of the circumference without wood at the surface. */
  readonly openShare: number;
  /** Thinnest wood between a void and the surface, m, and its bearing, degrees; Infinity if there is none. */
  readonly thinnest: number;
  readonly thinnestBearing: number;
}

const TURN = 2 * Math.PI;
/** Angle between a discontinuity and the rays beside it, far below the accuracy of any reading. */
const ASIDE = 1e-9;
/** Breakpoints closer than this are merged, and shorter steps dropped: so rays stay in order of bearing. */
const CLOSE = 2 * ASIDE;
/** Wood thinner than this share of the radius is rounding error. */
const NO_WOOD = 1e-11;

interface Grid {
  readonly sin: Float64Array;
  readonly cos: Float64Array;
}
const grids = new Map<number, Grid>();

/** Sine and cosine of the middle of each of `rays` equal steps. */
function gridOf(rays: number): Grid {
  let grid = grids.get(rays);
  if (!grid) {
    const at = (f: (angle: number) => number) =>
      Float64Array.from({ length: rays }, (_, i) => f(((i + 0.5) * TURN) / rays));
    grid = { sin: at(Math.sin), cos: at(Math.cos) };
    grids.set(rays, grid);
  }
  return grid;
}

/** Steps across half of a void that does not contain the pith; closer towards its tangents. */
const VOID_STEPS = 4;
/** Sines of equal steps from −90° to 90°. */
const CHORDS = Float64Array.from({ length: 2 * VOID_STEPS + 1 }, (_, i) =>
  Math.sin(((i - VOID_STEPS) * Math.PI) / (2 * VOID_STEPS)),
);
/**
 * Breakpoints of a void at most, besides one for each reading of its wall: edges of its opening, its middle, its steps,
 * corners at its floor.
 */
const BREAKPOINTS = 5 + 2 * VOID_STEPS;

/** Sine of half a step at most: accurate to the last digits there and much cheaper than Math.sin. */
function smallSine(angle: number): number {
  const square = angle * angle;
  return angle * (1 - (square / 6) * (1 - (square / 20) * (1 - square / 42)));
}

/** Bearings in order at which a step ends, besides the equal steps. */
class Breakpoints {
  bearings = new Float64Array(64);
  /** 1 where the wood may differ on both sides. */
  jumps = new Uint8Array(64);
  count = 0;

  reset(most: number): void {
    this.count = 0;
    if (this.bearings.length >= most) return;
    this.bearings = new Float64Array(most);
    this.jumps = new Uint8Array(most);
  }

  insert(at: number, jump: 0 | 1): void {
    const { bearings, jumps } = this;
    const around = wrapped(at);
    const bearing = TURN - around < CLOSE ? 0 : around;
    let place = this.count++;
    for (; place > 0 && bearings[place - 1]! > bearing; place--) {
      bearings[place] = bearings[place - 1]!;
      jumps[place] = jumps[place - 1]!;
    }
    bearings[place] = bearing;
    jumps[place] = jump;
  }
}

function collectBreakpoints(voids: readonly VoidShape[], breakpoints: Breakpoints): void {
  let most = 0;
  for (const { walled } of voids) most += BREAKPOINTS + (walled ? walled.bearings.length : 0);
  breakpoints.reset(most);
  for (let v = 0; v < voids.length; v++) {
    const { walled, probed, sector } = voids[v]!;
    if (sector) {
      breakpoints.insert(sector.bearing - sector.half, 1);
      breakpoints.insert(sector.bearing + sector.half, 1);
    }
    if (walled && walled.bearings.length > 1)
      for (let w = 0; w < walled.bearings.length; w++) breakpoints.insert(walled.bearings[w]!, 1);
    if (probed?.smallest && probed.right) breakpoints.insert(probed.bearing, 1);
    if (!probed || probed.smallest || !(probed.radius > 0)) continue;
    breakpoints.insert(probed.bearing, 1);
    if (probed.right) {
      breakpoints.insert(probed.bearing + Math.atan2(probed.right.across, probed.floor), 0);
      breakpoints.insert(probed.bearing - Math.atan2(probed.left!.across, probed.floor), 0);
    }
    if (probed.offset <= probed.radius) continue;
    const half = Math.asin(probed.radius / probed.offset);
    for (let i = -VOID_STEPS; i <= VOID_STEPS; i++)
      if (i !== 0)
        breakpoints.insert(
          probed.bearing + half * CHORDS[i + VOID_STEPS]!,
          Math.abs(i) === VOID_STEPS ? 1 : 0,
        );
  }
}

/** Bearing, sine, cosine and step of each ray, one after the other. */
class Rays {
  values = new Float64Array(0);
  count = 0;

  reset(most: number): void {
    this.count = 0;
    if (this.values.length < 4 * most) this.values = new Float64Array(4 * most);
  }

  push(bearing: number, sin: number, cos: number, step: number): void {
    const { values } = this;
    const at = 4 * this.count++;
    values[at] = bearing;
    values[at + 1] = sin;
    values[at + 2] = cos;
    values[at + 3] = step;
  }

  /** A ray `off` radians, half a step at most, from a bearing whose sine and cosine are known. */
  pushBeside(bearing: number, off: number, sin: number, cos: number, step: number): void {
    const square = off * off;
    const sinOff = smallSine(off);
    const cosOff = 1 - (square / 2) * (1 - (square / 12) * (1 - (square / 30) * (1 - square / 56)));
    this.push(bearing, sin * cosOff + cos * sinOff, cos * cosOff - sin * sinOff, step);
  }
}

/** The middles of `steps` equal steps, split at the breakpoints, and two rays of no step beside each jump. */
function buildRays(steps: number, { bearings, jumps, count }: Breakpoints, rays: Rays): void {
  rays.reset(steps + 3 * count + 1);
  const { sin, cos } = gridOf(steps);
  const size = TURN / steps;
  let next = 0;
  let lastJump = -TURN;
  let jumpAtNorth = false;
  for (let i = 0; i < steps; i++) {
    const end = (i + 1) * size;
    const middle = (i + 0.5) * size;
    if (next >= count || bearings[next]! > end) {
      rays.push(middle, sin[i]!, cos[i]!, size);
      continue;
    }
    let start = i * size;
    for (; next < count && bearings[next]! <= end; next++) {
      const bearing = bearings[next]!;
      if (bearing - start > CLOSE) {
        const half = (start + bearing) / 2;
        rays.pushBeside(half, half - middle, sin[i]!, cos[i]!, bearing - start);
      }
      if (jumps[next] === 1 && bearing - lastJump > CLOSE) {
        const [before, after] = [bearing - ASIDE, bearing + ASIDE];
        if (bearing > CLOSE) rays.pushBeside(before, before - middle, sin[i]!, cos[i]!, 0);
        else jumpAtNorth = true;
        rays.pushBeside(after, after - middle, sin[i]!, cos[i]!, 0);
        lastJump = bearing;
      }
      start = bearing;
    }
    if (end - start > CLOSE) {
      const half = (start + end) / 2;
      rays.pushBeside(half, half - middle, sin[i]!, cos[i]!, end - start);
    }
  }
  if (jumpAtNorth) rays.pushBeside(TURN - ASIDE, size / 2 - ASIDE, sin[steps - 1]!, cos[steps - 1]!, 0);
}

/** The wood on one ray. */
class RayWood {
  /** 2, 3 and 4 times the integrals of ρ, ρ² and ρ³ over the wood. */
  first = Number.NaN;
  second = Number.NaN;
  third = Number.NaN;
  /** Radii between which all the wood lies; `inner` is negative if there is none. */
  inner = Number.NaN;
  outer = Number.NaN;
  /** Wood between the outermost void and the surface. */
  shell = Number.NaN;

  measure({ from, to, count }: RayIntervals, surface: number, noWood: number): void {
    let first = 0;
    let second = 0;
    let third = 0;
    let inner = -1;
    let outer = 0;
    let reached = 0;
    for (let i = 0; i <= count; i++) {
      const start = i < count ? from[i]! : surface;
      if (start - reached > noWood) {
        const a2 = reached * reached;
        const b2 = start * start;
        first += b2 - a2;
        second += b2 * start - a2 * reached;
        third += b2 * b2 - a2 * a2;
        if (inner < 0) inner = reached;
        outer = start;
      }
      if (i < count && to[i]! > reached) reached = to[i]!;
    }
    this.first = first;
    this.second = second;
    this.third = third;
    this.inner = inner;
    this.outer = outer;
    this.shell = surface - reached;
  }
}

/** Outermost points of the wood, followed by its innermost ones where these may be extremes too. */
class WoodPoints {
  coordinates = new Float64Array(0);
  rays = new Int32Array(0);
  innermost = new Float64Array(0);

  reserve(most: number): void {
    if (this.rays.length >= most) return;
    this.coordinates = new Float64Array(4 * most);
    this.rays = new Int32Array(most);
    this.innermost = new Float64Array(2 * most);
  }
}

/** The widest angle between neighboring rays that meet wood. */
function widestGap(pointRays: Int32Array, count: number, rays: Float64Array): number {
  if (count === 0) return TURN;
  const bearingOf = (i: number) => rays[4 * pointRays[i]!]!;
  let widest = bearingOf(0) + TURN - bearingOf(count - 1);
  for (let i = 1; i < count; i++) widest = Math.max(widest, bearingOf(i) - bearingOf(i - 1));
  return widest;
}

/** Arrays that are reused from section to section, so that a search of thousands makes no garbage. */
export class RayBuffers {
  readonly breakpoints = new Breakpoints();
  readonly rays = new Rays();
  readonly intervals = new RayIntervals();
  readonly wood = new RayWood();
  readonly points = new WoodPoints();
}

/**
 * Integrates the sound wood over `steps` equal steps of the bearing.
 *
 * @param buffers own the result's `points` and `pointRays`, which the next call with the same buffers overwrites
 */
export function sectionMoments(
  { edge, voids }: SectionShape,
  steps: number,
  { breakpoints, rays, intervals, wood, points }: RayBuffers = new RayBuffers(),
): SectionMoments {
  collectBreakpoints(voids, breakpoints);
  buildRays(steps, breakpoints, rays);
  const { values, count: rayCount } = rays;
  intervals.reserve(voids.length);
  points.reserve(rayCount);
  const { coordinates, innermost, rays: pointRays } = points;
  const round = edge.along === edge.across;
  const noWood = NO_WOOD * Math.min(edge.along, edge.across);

  let area = 0;
  let momentEast = 0;
  let momentNorth = 0;
  let eastEast = 0;
  let northNorth = 0;
  let eastNorth = 0;
  let openAngle = 0;
  let thinnest = Infinity;
  let thinnestBearing = 0;
  let count = 0;
  // Integrals of cos θ / 3 and cos 2θ / 8 about the middle of a step, reused while the step stays the same.
  let usualStep = 0;
  let single = 0;
  let double = 0;

  for (let ray = 0; ray < rayCount; ray++) {
    const bearing = values[4 * ray]!;
    const sin = values[4 * ray + 1]!;
    const cos = values[4 * ray + 2]!;
    const step = values[4 * ray + 3]!;
    const surface = round ? edge.along : edgeRadius(edge, bearing);
    intersectRay(voids, surface, bearing, sin, cos, intervals);
    wood.measure(intervals, surface, noWood);
    const { inner, outer, shell } = wood;
    if (intervals.count > 0) {
      if (shell <= noWood) openAngle += step;
      else if (shell < thinnest) {
        thinnest = shell;
        thinnestBearing = bearing;
      }
    }
    if (inner < 0) continue;
    coordinates[2 * count] = outer * sin;
    coordinates[2 * count + 1] = outer * cos;
    innermost[2 * count] = inner * sin;
    innermost[2 * count + 1] = inner * cos;
    pointRays[count++] = ray;

    if (step === 0) continue;
    if (step !== usualStep) {
      usualStep = step;
      const half = smallSine(step / 2);
      single = (2 / 3) * half;
      double = (half * Math.sqrt(1 - half * half)) / 4;
    }
    const { first, second, third } = wood;
    const isotropic = (step / 8) * third;
    const directional = double * third;
    const cos2 = cos * cos - sin * sin;
    area += (step / 2) * first;
    momentEast += single * second * sin;
    momentNorth += single * second * cos;
    eastEast += isotropic - directional * cos2;
    northNorth += isotropic + directional * cos2;
    eastNorth += 2 * directional * sin * cos;
  }

  const isStarShaped = widestGap(pointRays, count, values) < Math.PI;
  if (!isStarShaped) coordinates.set(innermost.subarray(0, 2 * count), 2 * count);
  return {
    area,
    momentEast,
    momentNorth,
    eastEast,
    northNorth,
    eastNorth,
    points: coordinates,
    pointCount: isStarShaped ? count : 2 * count,
    pointRays,
    rayCount,
    isStarShaped,
    openShare: openAngle / TURN,
    thinnest,
    thinnestBearing: thinnestBearing / RADIANS,
  };
}
