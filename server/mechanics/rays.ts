/**
 * Area properties of the sound wood, summed over rays from the pith.
 *
 * Every void is an interval of radii on each ray, so their union is a merge of a few intervals: no polygon can
 * fail to close, and a section costs microseconds. Between two rays the radii are taken as constant while the
 * integrals of the angle are exact, so concentric rings and sectors come out exactly and the rest within the
 * square of the step. Where the wood jumps (edges of openings, tangents to a void) a ray stands on each side.
 */

import { cutRay, from, makeStretches, to } from './cut-ray.ts';
import { edgeRadius, RADIANS, type SectionShape, type VoidShape, wrapped } from './section-shape.ts';

/** Moments about the pith: x east, y north. */
export interface SoundWood {
  readonly area: number;
  readonly momentEast: number;
  readonly momentNorth: number;
  readonly eastEast: number;
  readonly northNorth: number;
  readonly eastNorth: number;
  /** x, y of points among which lies every extreme of the sound wood, in order of bearing if `starlike`. */
  readonly points: Float64Array;
  readonly pointCount: number;
  /** Which ray each outermost point lies on, of `rayCount`: two that follow each other have wood between. */
  readonly pointRays: Int32Array;
  readonly rayCount: number;
  /** The pith lies in the hull of the wood: then `points` holds the outermost point of each ray only. */
  readonly starlike: boolean;
  /** Share of the circumference without wood at the surface. */
  readonly openShare: number;
  /** Thinnest wood between a void and the surface, m, and its bearing; Infinity when there is none. */
  readonly thinnest: number;
  readonly thinnestBearing: number;
}

const TURN = 2 * Math.PI;
/** A step aside of a jump, far below any reading's accuracy. */
const ASIDE = 1e-9;
/** Jumps nearer to each other are one, and shorter steps none: so rays stay in order of bearing. */
const CLOSE = 2 * ASIDE;
/** Wood thinner than this share of the radius is the rounding of none. */
const NOTHING = 1e-11;

interface Grid {
  readonly sin: Float64Array;
  readonly cos: Float64Array;
}
const grids = new Map<number, Grid>();

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

/** Steps across half of a void that the pith lies outside of; closer towards its tangents. */
const VOID_STEPS = 4;
/**
 * Breaks of a void at most, besides one for each wall that was read: its opening's edges, its middle, its steps, the
 * corners at its floor.
 */
const BREAKS = 5 + 2 * VOID_STEPS;

/**
 * Bearings at which rays stand besides the equal steps, into `breakList` in order of bearing; `jumps` says whether
 * on both sides, for the wood may differ there. Returns how many.
 */
function layBreaks(voids: readonly VoidShape[]): number {
  const most = voids.reduce((sum, { walled }) => sum + BREAKS + (walled?.bearings.length ?? 0), 0);
  if (breakList.length < most) {
    breakList = new Float64Array(most);
    jumps = new Uint8Array(most);
  }
  let count = 0;
  const put = (at: number, jump: 0 | 1) => {
    const around = wrapped(at);
    const bearing = TURN - around < CLOSE ? 0 : around;
    let place = count++;
    for (; place > 0 && breakList[place - 1]! > bearing; place--) {
      breakList[place] = breakList[place - 1]!;
      jumps[place] = jumps[place - 1]!;
    }
    breakList[place] = bearing;
    jumps[place] = jump;
  };
  for (let v = 0; v < voids.length; v++) {
    const { walled, probed, sector } = voids[v]!;
    if (sector) {
      put(sector.bearing - sector.half, 1);
      put(sector.bearing + sector.half, 1);
    }
    if (walled && walled.bearings.length > 1)
      for (let w = 0; w < walled.bearings.length; w++) put(walled.bearings[w]!, 1);
    if (probed?.smallest && probed.right) put(probed.bearing, 1);
    if (probed && probed.radius > 0 && !probed.smallest) {
      put(probed.bearing, 1);
      if (probed.right) {
        put(probed.bearing + Math.atan2(probed.right.across, probed.floor), 0);
        put(probed.bearing - Math.atan2(probed.left!.across, probed.floor), 0);
      }
      if (probed.offset > probed.radius) {
        const half = Math.asin(probed.radius / probed.offset);
        for (let i = -VOID_STEPS; i <= VOID_STEPS; i++)
          if (i !== 0)
            put(probed.bearing + half * CHORDS[i + VOID_STEPS]!, Math.abs(i) === VOID_STEPS ? 1 : 0);
      }
    }
  }
  return count;
}

/** Sines of equal steps from −90° to 90°. */
const CHORDS = Float64Array.from({ length: 2 * VOID_STEPS + 1 }, (_, i) =>
  Math.sin(((i - VOID_STEPS) * Math.PI) / (2 * VOID_STEPS)),
);

// Scratch space, so that thousands of sections a second make no garbage; nothing here outlives a call.
let rayList = new Float64Array(4 * 1024);
let outermost = new Float64Array(4096);
let innermost = new Float64Array(2048);
let pointRays = new Int32Array(1024);
let breakList = new Float64Array(64);
let jumps = new Uint8Array(64);

function makeRoom(rays: number): void {
  if (rayList.length < 4 * rays) {
    rayList = new Float64Array(4 * rays);
    outermost = new Float64Array(4 * rays);
    innermost = new Float64Array(2 * rays);
    pointRays = new Int32Array(rays);
  }
}

/** Sine of half a step at most: exact to the last digits there, at a fraction of the cost. */
function smallSine(angle: number): number {
  const square = angle * angle;
  return angle * (1 - (square / 6) * (1 - (square / 20) * (1 - square / 42)));
}

/** A ray that stands `off` radians, half a step at most, from one whose sine and cosine are known. */
function putRay(ray: number, bearing: number, off: number, sin: number, cos: number, step: number): void {
  const square = off * off;
  const sinOff = smallSine(off);
  const cosOff = 1 - (square / 2) * (1 - (square / 12) * (1 - (square / 30) * (1 - square / 56)));
  const at = 4 * ray;
  rayList[at] = bearing;
  rayList[at + 1] = sin * cosOff + cos * sinOff;
  rayList[at + 2] = cos * cosOff - sin * sinOff;
  rayList[at + 3] = step;
}

/**
 * Fill `rayList` with bearing, sine, cosine and step: the middle of each of `rays` equal steps, split at the
 * jumps, and two rays of no step beside each jump. Returns how many.
 */
function layRays(rays: number, breaks: number): number {
  const { sin, cos } = gridOf(rays);
  const size = TURN / rays;
  let count = 0;
  let next = 0;
  let lastJump = -TURN;
  let jumpAtNorth = false;
  for (let i = 0; i < rays; i++) {
    const end = (i + 1) * size;
    const middle = (i + 0.5) * size;
    if (next >= breaks || breakList[next]! > end) {
      const at = 4 * count++;
      rayList[at] = middle;
      rayList[at + 1] = sin[i]!;
      rayList[at + 2] = cos[i]!;
      rayList[at + 3] = size;
      continue;
    }
    let start = i * size;
    for (; next < breaks && breakList[next]! <= end; next++) {
      const bearing = breakList[next]!;
      if (bearing - start > CLOSE) {
        const half = (start + bearing) / 2;
        putRay(count++, half, half - middle, sin[i]!, cos[i]!, bearing - start);
      }
      if (jumps[next] === 1 && bearing - lastJump > CLOSE) {
        const [before, after] = [bearing - ASIDE, bearing + ASIDE];
        if (bearing > CLOSE) putRay(count++, before, before - middle, sin[i]!, cos[i]!, 0);
        else jumpAtNorth = true;
        putRay(count++, after, after - middle, sin[i]!, cos[i]!, 0);
        lastJump = bearing;
      }
      start = bearing;
    }
    if (end - start > CLOSE) {
      const half = (start + end) / 2;
      putRay(count++, half, half - middle, sin[i]!, cos[i]!, end - start);
    }
  }
  if (jumpAtNorth) putRay(count++, TURN - ASIDE, size / 2 - ASIDE, sin[rays - 1]!, cos[rays - 1]!, 0);
  return count;
}

/**
 * Sum the sound wood over `rays` equal steps. The result's `points` are scratch space: valid until the next
 * call.
 */
export function soundWood({ edge, voids }: SectionShape, rays: number): SoundWood {
  const breaks = layBreaks(voids);
  makeRoom(rays + 3 * breaks + 1);
  makeStretches(voids.length);
  const laid = layRays(rays, breaks);
  const round = edge.along === edge.across;
  const nothing = NOTHING * Math.min(edge.along, edge.across);

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
  let firstBearing = 0;
  let lastBearing = 0;
  let widestGap = 0;
  // Integrals of cos θ / 3 and cos 2θ / 8 about the middle of a step, kept while the step stays the same.
  let usual = 0;
  let single = 0;
  let double = 0;

  for (let ray = 0; ray < laid; ray++) {
    const bearing = rayList[4 * ray]!;
    const sin = rayList[4 * ray + 1]!;
    const cos = rayList[4 * ray + 2]!;
    const step = rayList[4 * ray + 3]!;
    const surface = round ? edge.along : edgeRadius(edge, bearing);
    const hits = cutRay(voids, surface, bearing, sin, cos);

    // Twice, three times and four times the integrals of ρ, ρ² and ρ³ over the wood between the voids.
    let first = 0;
    let second = 0;
    let third = 0;
    let inner = -1;
    let outer = 0;
    let reached = 0;
    for (let h = 0; h <= hits; h++) {
      const start = h < hits ? from[h]! : surface;
      if (start - reached > nothing) {
        const a2 = reached * reached;
        const b2 = start * start;
        first += b2 - a2;
        second += b2 * start - a2 * reached;
        third += b2 * b2 - a2 * a2;
        if (inner < 0) inner = reached;
        outer = start;
      }
      if (h < hits && to[h]! > reached) reached = to[h]!;
    }
    if (hits > 0) {
      const shell = surface - reached;
      if (shell <= nothing) openAngle += step;
      else if (shell < thinnest) {
        thinnest = shell;
        thinnestBearing = bearing;
      }
    }
    if (inner < 0) continue;

    if (count === 0) firstBearing = bearing;
    else if (bearing - lastBearing > widestGap) widestGap = bearing - lastBearing;
    lastBearing = bearing;
    outermost[2 * count] = outer * sin;
    outermost[2 * count + 1] = outer * cos;
    innermost[2 * count] = inner * sin;
    innermost[2 * count + 1] = inner * cos;
    pointRays[count] = ray;
    count++;

    if (step === 0) continue;
    if (step !== usual) {
      usual = step;
      const half = smallSine(step / 2);
      single = (2 / 3) * half;
      double = (half * Math.sqrt(1 - half * half)) / 4;
    }
    const alike = (step / 8) * third;
    const turned = double * third;
    area += (step / 2) * first;
    momentEast += single * second * sin;
    momentNorth += single * second * cos;
    const cos2 = cos * cos - sin * sin;
    eastEast += alike - turned * cos2;
    northNorth += alike + turned * cos2;
    eastNorth += 2 * turned * sin * cos;
  }

  const gap = count === 0 ? TURN : Math.max(widestGap, firstBearing + TURN - lastBearing);
  const starlike = gap < Math.PI;
  if (!starlike) outermost.set(innermost.subarray(0, 2 * count), 2 * count);
  return {
    area,
    momentEast,
    momentNorth,
    eastEast,
    northNorth,
    eastNorth,
    points: outermost,
    pointCount: starlike ? count : 2 * count,
    pointRays,
    rayCount: laid,
    starlike,
    openShare: openAngle / TURN,
    thinnest,
    thinnestBearing: thinnestBearing / RADIANS,
  };
}
