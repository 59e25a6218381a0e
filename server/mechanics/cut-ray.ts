/** What the voids of a section take of one ray from the pith: stretches, of which each void leaves a few. */

import { type Corner, type ProbedVoid, type VoidShape, wallAt } from './section-shape.ts';

const TURN = 2 * Math.PI;
/** Stretches in one void at most: a circle, a trough, what the mouth takes off the surface. */
const STRETCHES = 3;

/** Where each stretch of the last ray begins and ends; written over by the next. */
export let from = new Float64Array(16);
export let to = new Float64Array(16);

/** Room for as many voids. */
export function makeStretches(voids: number): void {
  if (from.length >= STRETCHES * voids) return;
  from = new Float64Array(STRETCHES * voids);
  to = new Float64Array(STRETCHES * voids);
}

/** One more stretch into `from` and `to`, which are sorted by where they begin. Returns how many there are. */
function putStretch(hits: number, near: number, far: number): number {
  if (!(far > near)) return hits;
  let place = hits;
  for (; place > 0 && from[place - 1]! > near; place--) {
    from[place] = from[place - 1]!;
    to[place] = to[place - 1]!;
  }
  from[place] = near;
  to[place] = far;
  return hits + 1;
}

/**
 * What the smallest void of a depth takes of a ray: the hull of its mouth and deepest point. Where the chord of the
 * mouth lies deeper than the probe, the void follows that chord at a share of its depth.
 *
 * @param across of the ray's direction, off the void's bearing to either side
 * @param along the same, along the bearing
 */
function cutSmallest(
  hits: number,
  { depth, floor, offset, radius }: ProbedVoid,
  corner: Corner,
  open: boolean,
  surface: number,
  across: number,
  along: number,
): number {
  const chord = offset + radius - corner.along;
  if (depth < chord) {
    if (!open) return hits;
    const gone = surface - (along > 0 ? Math.min(surface, corner.along / along) : surface);
    return putStretch(hits, surface - (depth / chord) * gone, surface);
  }
  // From the deepest point to the edge of the mouth.
  const side = floor / (along - (across * (corner.along - floor)) / corner.across);
  if (open) return putStretch(hits, floor > 0 ? side : 0, surface);
  return floor < 0 ? putStretch(hits, 0, Math.min(side, surface)) : hits;
}

/** What a trough as wide as its mouth takes of a ray, and what the mouth takes off the surface. */
function cutTrough(
  hits: number,
  { depth, floor, offset, radius }: ProbedVoid,
  corner: Corner,
  open: boolean,
  surface: number,
  across: number,
  along: number,
): number {
  const side = across > 0 ? Math.min(surface, corner.across / across) : surface;
  let cut = hits;
  if (floor < 0) cut = putStretch(cut, 0, along < 0 ? Math.min(side, floor / along) : side);
  else if (along > 0) cut = putStretch(cut, floor / along, side);
  return open ? putStretch(cut, surface - Math.min(depth, offset + radius - corner.along), surface) : cut;
}

/**
 * The radii that the voids take on a ray, into `from` and `to`, sorted by where they begin. Returns how many.
 */
export function cutRay(
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
    if (walled) {
      hits = putStretch(hits, 0, open ? surface : surface - wallAt(walled, bearing));
      continue;
    }
    const across = sin * probed!.cos - cos * probed!.sin;
    const along = cos * probed!.cos + sin * probed!.sin;
    const corner = across < 0 ? probed!.left : probed!.right;
    if (corner) {
      const cut = probed!.smallest ? cutSmallest : cutTrough;
      hits = cut(hits, probed!, corner, open, surface, Math.abs(across), along);
    }
    if (probed!.smallest) continue;
    const { radius, offset } = probed!;
    const inside = radius * radius - offset * offset * across * across;
    if (inside <= 0) continue;
    const half = Math.sqrt(inside);
    hits = putStretch(hits, Math.max(offset * along - half, 0), Math.min(offset * along + half, surface));
  }
  return hits;
}
