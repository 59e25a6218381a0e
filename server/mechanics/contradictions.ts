/** Readings of one cavity that cannot all be true. */

import { type Interval, interval, REPRESENTATION } from '../base/interval.ts';
import { radiusAt } from './section-readings.ts';
import { RADIANS, wallAt, walledVoid, wallsAround, wrapped } from './section-shape.ts';
import type { Cavity, OuterEdge } from './section-types.ts';
import { wallsAllAround } from './unread.ts';

export interface Contradiction {
  /** Index of the cavity in its section. */
  readonly cavity: number;
  readonly kind:
    | 'depth beyond the void of the walls'
    | 'depth beyond the far bark'
    | 'wall beyond the pith'
    | 'opening wider than the stem';
  /** m; `possible` is what the other readings allow. */
  readonly read: Interval;
  readonly possible: Interval;
}

/** Half an inch: the coarsest resolution of stem measurements, m. */
const READING = 0.0127;

/** Greatest depth, along the diameter at the cavity's bearing, of the void that its walls allow. */
function farEdge(outer: OuterEdge<Interval>, bearing: number, { walls, allRound }: Cavity<Interval>): number {
  const at = (angle: number) => radiusAt(outer, angle).high;
  const read = allRound
    ? wallsAround({ walls: walls?.map(thinnest), allRound: allRound.low })
    : wallsAllAround(walls!, at).map(thinnest);
  const across = wallAt(walledVoid(read), wrapped((bearing + 180) * RADIANS));
  return Math.max(0, at(bearing) + at(bearing + 180) - across);
}

const thinnest = ({ bearing, wall }: { readonly bearing: number; readonly wall: Interval }) => ({
  bearing,
  wall: wall.low,
});

/** Contradictions that exceed the intervals of the readings by more than half an inch for each reading involved. */
export function contradictionsOf(
  outer: OuterEdge<Interval>,
  cavity: Cavity<Interval>,
  index = 0,
): readonly Contradiction[] {
  const { bearing = 0, walls = [], allRound, depth, opening } = cavity;
  const found: Contradiction[] = [];
  const beyond = (
    kind: Contradiction['kind'],
    read: Interval | undefined,
    most: number,
    readings: number,
  ) => {
    if (read && read.low - most > readings * READING * (1 + REPRESENTATION))
      found.push({ cavity: index, kind, read, possible: interval(0, most) });
  };
  const diameter = 2 * radiusAt(outer, bearing).high;
  beyond('depth beyond the far bark', depth, diameter, 2);
  if (depth && (walls.length > 0 || allRound))
    beyond('depth beyond the void of the walls', depth, farEdge(outer, bearing, cavity), 3);
  for (const { bearing: at, wall } of walls)
    beyond('wall beyond the pith', wall, radiusAt(outer, at).high, 2);
  beyond('wall beyond the pith', allRound, radiusAt(outer, bearing).high, 2);
  beyond('opening wider than the stem', opening, diameter, 2);
  return found;
}
