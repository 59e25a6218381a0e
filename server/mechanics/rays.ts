/**
 * Area properties of the sound wood, summed over rays from the pith.
 *
 * Every void is an interval of radii on each ray, so their union is a merge of a few intervals: no polygon can
 * fail to close, and a section costs microseconds. Between two rays the radii are taken as constant while the
 * integrals of the angle are exact, so concentric rings and sectors come out exactly and the rest within the
 * square of the step. Where the wood jumps (edges of openings, tangents to a void) a ray stands on each side.
 */

import { edgeRadius, RADIANS, type SectionShape, type VoidShape, wallAt, wrapped } from './section-shape.ts';

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

/** Bearings at which rays stand besides the equal steps; `jump`: on both sides, for the wood may differ there. */
interface Break {
  readonly bearing: number;
  readonly jump: boolean;
}

/** Sorted by bearing. */
function breaksOf(voids: readonly VoidShape[]): Break[] {
  const found: Break[] = [];
  const put = (bearing: number, jump: boolean) => {
    const within = wrapped(bearing);
    found.push({ bearing: TURN - within < CLOSE ? 0 : within, jump });
  };
  for (const { walled, probed, sector } of voids) {
    if (sector) {
      put(sector.bearing - sector.half, true);
      put(sector.bearing + sector.half, true);
    }
    if (walled && walled.bearings.length > 1) for (const bearing of walled.bearings) put(bearing, true);
    if (probed && probed.radius > 0) {
      put(probed.bearing, true);
      if (probed.offset > probed.radius) {
        const half = Math.asin(probed.radius / probed.offset);
        for (let i = -VOID_STEPS; i <= VOID_STEPS; i++)
          if (i !== 0) put(probed.bearing + half * CHORDS[i + VOID_STEPS]!, Math.abs(i) === VOID_STEPS);
      }
    }
  }
  return found.sort((a, b) => a.bearing - b.bearing);
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
let from = new Float64Array(16);
let to = new Float64Array(16);

function makeRoom(rays: number, voids: number): void {
  if (rayList.length < 4 * rays) {
    rayList = new Float64Array(4 * rays);
    outermost = new Float64Array(4 * rays);
    innermost = new Float64Array(2 * rays);
    pointRays = new Int32Array(rays);
  }
  if (from.length < voids) {
    from = new Float64Array(voids);
    to = new Float64Array(voids);
  }
}

/**
 * Fill `rayList` with bearing, sine, cosine and step: the middle of each of `rays` equal steps, split at the
 * jumps, and two rays of no step beside each jump. Returns how many.
 */
function layRays(rays: number, breaks: readonly Break[]): number {
  const { sin, cos } = gridOf(rays);
  const size = TURN / rays;
  let count = 0;
  const put = (bearing: number, sine: number, cosine: number, step: number) => {
    rayList[4 * count] = bearing;
    rayList[4 * count + 1] = sine;
    rayList[4 * count + 2] = cosine;
    rayList[4 * count + 3] = step;
    count++;
  };
  const lay = (bearing: number, step: number) => put(bearing, Math.sin(bearing), Math.cos(bearing), step);
  let next = 0;
  let lastJump = -TURN;
  let jumpAtNorth = false;
  for (let i = 0; i < rays; i++) {
    const end = (i + 1) * size;
    if (next >= breaks.length || breaks[next]!.bearing > end) {
      put((i + 0.5) * size, sin[i]!, cos[i]!, size);
      continue;
    }
    let start = i * size;
    for (; next < breaks.length && breaks[next]!.bearing <= end; next++) {
      const { bearing, jump } = breaks[next]!;
      if (bearing - start > CLOSE) lay((start + bearing) / 2, bearing - start);
      if (jump && bearing - lastJump > CLOSE) {
        const sine = Math.sin(bearing);
        const cosine = Math.cos(bearing);
        if (bearing > CLOSE) put(bearing - ASIDE, sine - ASIDE * cosine, cosine + ASIDE * sine, 0);
        else jumpAtNorth = true;
        put(bearing + ASIDE, sine + ASIDE * cosine, cosine - ASIDE * sine, 0);
        lastJump = bearing;
      }
      start = bearing;
    }
    if (end - start > CLOSE) lay((start + end) / 2, end - start);
  }
  if (jumpAtNorth) lay(TURN - ASIDE, 0);
  return count;
}

/**
 * The radii that the voids take on a ray, into `from` and `to`, sorted by where they begin. Returns how many.
 */
function cutRay(
  voids: readonly VoidShape[],
  surface: number,
  bearing: number,
  sin: number,
  cos: number,
): number {
  let hits = 0;
  for (let v = 0; v < voids.length; v++) {
    const { walled, probed, sector } = voids[v]!;
    let open = false;
    if (sector) {
      let off = Math.abs(bearing - sector.bearing);
      if (off > Math.PI) off = TURN - off;
      open = off < sector.half;
    }
    let near = 0;
    let far: number;
    if (walled) {
      far = open ? surface : surface - wallAt(walled, bearing);
    } else {
      const { radius, offset } = probed!;
      const across = offset * (sin * probed!.cos - cos * probed!.sin);
      const inside = radius * radius - across * across;
      if (inside <= 0) continue;
      const half = Math.sqrt(inside);
      const along = offset * (cos * probed!.cos + sin * probed!.sin);
      near = Math.max(along - half, 0);
      far = along + half;
      if (far <= 0) continue;
      if (open || far > surface) far = surface;
    }
    if (far <= near) continue;
    let place = hits++;
    for (; place > 0 && from[place - 1]! > near; place--) {
      from[place] = from[place - 1]!;
      to[place] = to[place - 1]!;
    }
    from[place] = near;
    to[place] = far;
  }
  return hits;
}

/**
 * Sum the sound wood over `rays` equal steps. The result's `points` are scratch space: valid until the next
 * call.
 */
export function soundWood({ edge, voids }: SectionShape, rays: number): SoundWood {
  const breaks = breaksOf(voids);
  makeRoom(rays + 3 * breaks.length + 1, voids.length);
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
  // Integrals of cos θ and cos 2θ about the middle of a step, kept while the step stays the same.
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

    // Integrals of ρ, ρ² and ρ³ over the wood between the voids.
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
        first += (b2 - a2) / 2;
        second += (b2 * start - a2 * reached) / 3;
        third += (b2 * b2 - a2 * a2) / 4;
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
      single = 2 * Math.sin(step / 2);
      double = Math.sin(step) / 2;
    }
    const alike = (step / 2) * third;
    const turned = double * third;
    area += step * first;
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
