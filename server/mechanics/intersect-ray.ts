/** Intersection of one ray from the pith with the voids of a section: an interval of radii per void, or a few. */

import { type Corner, type ProbedVoid, type VoidShape, wallAt } from './section-shape.ts';

const TURN = 2 * Math.PI;
/** Intervals of one void at most: a circle, a trough, what the mouth takes off the surface. */
const INTERVALS_PER_VOID = 3;

/** Intervals of radius without wood on one ray, sorted by where they begin; they may overlap. Reused for all rays. */
export class RayIntervals {
  from = new Float64Array(16);
  to = new Float64Array(16);
  count = 0;

  reserve(voids: number): void {
    if (this.from.length >= INTERVALS_PER_VOID * voids) return;
    this.from = new Float64Array(INTERVALS_PER_VOID * voids);
    this.to = new Float64Array(INTERVALS_PER_VOID * voids);
  }

  insert(near: number, far: number): void {
    if (!(far > near)) return;
    const { from, to } = this;
    let place = this.count++;
    for (; place > 0 && from[place - 1]! > near; place--) {
      from[place] = from[place - 1]!;
      to[place] = to[place - 1]!;
    }
    from[place] = near;
    to[place] = far;
  }
}

/**
 * The smallest void of a depth: the hull of its mouth and its deepest point. Where the chord of the mouth lies deeper
 * than the probe, the void follows that chord at a fraction of its depth.
 *
 * @param across component of the ray's direction perpendicular to the void's bearing, absolute
 * @param along component along the bearing
 */
function intersectSmallest(
  intervals: RayIntervals,
  { depth, floor, offset, radius }: ProbedVoid,
  corner: Corner,
  open: boolean,
  surface: number,
  across: number,
  along: number,
): void {
  const chord = offset + radius - corner.along;
  if (depth < chord) {
    if (!open) return;
    const removed = surface - (along > 0 ? Math.min(surface, corner.along / along) : surface);
    intervals.insert(surface - (depth / chord) * removed, surface);
    return;
  }
  // Edge of the hull from the deepest point to the edge of the mouth.
  const side = floor / (along - (across * (corner.along - floor)) / corner.across);
  if (open) intervals.insert(floor > 0 ? side : 0, surface);
  else if (floor < 0) intervals.insert(0, Math.min(side, surface));
}

/** A trough as wide as its mouth, and what the mouth takes off the surface. */
function intersectTrough(
  intervals: RayIntervals,
  { depth, floor, offset, radius }: ProbedVoid,
  corner: Corner,
  open: boolean,
  surface: number,
  across: number,
  along: number,
): void {
  const side = across > 0 ? Math.min(surface, corner.across / across) : surface;
  if (floor < 0) intervals.insert(0, along < 0 ? Math.min(side, floor / along) : side);
  else if (along > 0) intervals.insert(floor / along, side);
  if (open) intervals.insert(surface - Math.min(depth, offset + radius - corner.along), surface);
}

/** Replaces `intervals` by the radii that the voids take from a ray. */
export function intersectRay(
  voids: readonly VoidShape[],
  surface: number,
  bearing: number,
  sin: number,
  cos: number,
  intervals: RayIntervals,
): void {
  intervals.count = 0;
  for (let v = 0; v < voids.length; v++) {
    const { walled, probed, sector } = voids[v]!;
    let open = false;
    if (sector) {
      let off = Math.abs(bearing - sector.bearing);
      if (off > Math.PI) off = TURN - off;
      open = off < sector.half;
    }
    if (walled) {
      intervals.insert(0, open ? surface : surface - wallAt(walled, bearing));
      continue;
    }
    const across = sin * probed!.cos - cos * probed!.sin;
    const along = cos * probed!.cos + sin * probed!.sin;
    const corner = across < 0 ? probed!.left : probed!.right;
    if (corner) {
      const intersect = probed!.smallest ? intersectSmallest : intersectTrough;
      intersect(intervals, probed!, corner, open, surface, Math.abs(across), along);
    }
    if (probed!.smallest) continue;
    const { radius, offset } = probed!;
    const inside = radius * radius - offset * offset * across * across;
    if (inside <= 0) continue;
    const half = Math.sqrt(inside);
    intervals.insert(Math.max(offset * along - half, 0), Math.min(offset * along + half, surface));
  }
}
