/**
 * Bending strength of a round stem that lost wood from the outside: dead wood under a canker, or a crack that parts it.
 * Shares of the modulus of the whole circle, for bending in the least favorable direction.
 */

import { clip, type Interval, interval } from '../base/interval.ts';

/** Bending directions tried over half a turn; the section is symmetrical about the middle of the canker. */
const DIRECTIONS = 90;

/**
 * Loss of section modulus by a missing sector of a ring: over a share of the circumference, to a depth given as a share
 * of the radius. The modulus is that of either edge, whichever yields first.
 */
export function sectorLoss(share: number, depth: number): number {
  if (share <= 0 || depth <= 0) return 0;
  const half = Math.PI * Math.min(1, share);
  const inner = 1 - Math.min(1, depth);
  // The ring sector, with the radius as the unit; x points to its middle.
  const quartic = (1 - inner ** 4) / 4;
  const area = Math.PI - half * (1 - inner ** 2);
  if (!(area > 0)) return 1;
  const centroid = (-(2 / 3) * (1 - inner ** 3) * Math.sin(half)) / area;
  const alongX = Math.PI / 4 - quartic * (half + Math.sin(2 * half) / 2) - area * centroid ** 2;
  const alongY = Math.PI / 4 - quartic * (half - Math.sin(2 * half) / 2);
  /** Distance of the outermost remaining wood from the pith in a direction. */
  const reach = (direction: number): number => {
    const off = Math.abs(direction);
    return off >= half ? 1 : Math.max(half >= Math.PI ? 0 : Math.cos(half - off), inner);
  };
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= DIRECTIONS; i++) {
    const direction = (i * Math.PI) / DIRECTIONS;
    const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
    const second = alongX * cos ** 2 + alongY * sin ** 2;
    const edge = Math.max(reach(direction) - centroid * cos, reach(Math.PI - direction) + centroid * cos);
    if (edge > 0) least = Math.min(least, second / edge);
  }
  return Math.min(1, Math.max(0, 1 - least / (Math.PI / 4)));
}

const WHOLE = interval(0, 1);
/** Values tried of each reading. */
const STEPS = 12;

/**
 * The same over all shares and depths that the readings allow. Not only at the corners: taking off a projecting edge
 * may raise the modulus by up to 0.3 % of the whole.
 */
export function sectorLossBounds(share: Interval, depth: Interval): Interval {
  const tried = (read: Interval): readonly number[] => {
    const { low, high } = clip(read, WHOLE);
    return low === high
      ? [low]
      : Array.from({ length: STEPS + 1 }, (_, i) => low + ((high - low) * i) / STEPS);
  };
  const depths = tried(depth);
  const losses = tried(share).flatMap(one => depths.map(deep => sectorLoss(one, deep)));
  return interval(Math.min(...losses), Math.max(...losses));
}

/**
 * Modulus left by a crack right through the pith, as a share of that of the whole circle: two half circles side by side
 * if the crack lies across the bending plane, (π/8 − 8/(9π)) / (1 − 4/(3π)) each, and all of it if it lies in the plane.
 */
export const SPLIT: Interval = interval(
  (2 * (Math.PI / 8 - 8 / (9 * Math.PI))) / (1 - 4 / (3 * Math.PI)) / (Math.PI / 4),
  1,
);
