/**
 * The wall of a stem between the bearings at which it was read.
 *
 * Between two readings it runs from one to the other, give or take what a void off the pith may make of it. A round one
 * that holds the pith lies off it by half the stem's radius at most, for it can neither leave the pith nor pass the
 * surface. Seen from the pith such a wall follows the cosine of the bearing, so that midway in a gap of h degrees it may
 * differ from the straight line by R/2 · (1 − cos(h/2)): 0.04 R between eight readings, 0.15 R between four. Two things
 * make it more. The wider the gap, the less a void has to be round: from half a turn on the whole radius counts for the
 * half, and in a wider gap the void need not hold the pith either, so that the wall may be sound from the next bearing
 * on. And the more the readings differ, the further off lies the void, and the steeper its wall: 2 (A/R)² are added
 * to the half, A being half of what lies between the thinnest and the thickest of them.
 *
 * Judged, and tried: read at four to twelve bearings, the loss of all but one of 7,500 round voids that hold the pith was
 * within the range; of 7,000 oval ones, up to twice as long as wide, one in fifteen was not, two in a thousand to the
 * wrong side of a third. No formula knows the pocket that a drill just missed.
 */

import { type Interval, interval } from '../base/interval.ts';
import { RADIANS } from './section-shape.ts';
import type { WallReading } from './section-types.ts';

/** The most that a round void which holds the pith lies off it, as a share of the radius. */
const OFF_PITH = 0.5;
/** What the square of the readings' differences, over the radius, adds to it. */
const STEEPER = 2;
/** Degrees from one bearing to the next, and the widest gap of which nothing more needs to be said. */
const STEP = 10;
const NARROW = 5;
const HALF_TURN = 180;
/** Of the radius: the least wall that may be there. A fibre of any thickness is stressed most where it lies outermost. */
const HAIR = 1e-6;
/** Readings a quarter of a turn apart at most are what the trade means by a wall read around the stem. */
export const QUARTER = 90;

const around = (bearing: number): number => ((bearing % 360) + 360) % 360;

/** A stretch between two neighbouring readings, clockwise. */
interface Gap {
  readonly from: WallReading<Interval>;
  readonly to: WallReading<Interval>;
  /** Degrees. */
  readonly apart: number;
}

function gapsOf(walls: readonly WallReading<Interval>[]): readonly Gap[] {
  const sorted = walls
    .map(({ bearing, wall }) => ({ bearing: around(bearing), wall }))
    .sort((a, b) => a.bearing - b.bearing || a.wall.low - b.wall.low);
  // Of two readings at one bearing the thinner stands.
  const one = sorted.filter(({ bearing }, i) => bearing !== sorted[i - 1]?.bearing);
  return one.map((from, i) => {
    const to = one[i + 1] ?? one[0]!;
    return { from, to, apart: to.bearing - from.bearing + (i + 1 < one.length ? 0 : 360) };
  });
}

/** The widest gap between two neighbouring readings, degrees. */
export const widestGap = (walls: readonly WallReading<Interval>[]): number =>
  Math.max(...gapsOf(walls).map(({ apart }) => apart));

/** Bearings to read so that no two readings are further apart than `most` degrees; those furthest off first. */
export const unreadBearings = (
  walls: readonly WallReading<Interval>[],
  most: number = QUARTER,
): readonly number[] =>
  gapsOf(walls)
    .flatMap(({ from, apart }) => {
      const parts = Math.ceil(apart / most);
      return Array.from({ length: parts - 1 }, (_, i) => {
        const into = ((i + 1) * apart) / parts;
        return { bearing: around(from.bearing + into), off: Math.min(into, apart - into) };
      });
    })
    .sort((a, b) => b.off - a.off || a.bearing - b.bearing)
    .map(({ bearing }) => bearing);

/**
 * Every wall around the stem, read or not, at steps of the bearing.
 *
 * @param radiusAt from the pith to the surface of the wood
 * @param straight the widest gap in which the wall is taken to run straight: 0 unless a rule of the trade asks so
 */
export function wallsAllAround(
  walls: readonly WallReading<Interval>[],
  radiusAt: (bearing: number) => number,
  straight = 0,
): readonly WallReading<Interval>[] {
  // A wall that was read as "more than" ends at the pith.
  const thickest = ({ bearing, wall }: WallReading<Interval>) =>
    Number.isFinite(wall.high) ? wall.high : Math.max(wall.low, radiusAt(bearing));
  const uneven = (Math.max(...walls.map(thickest)) - Math.min(...walls.map(({ wall }) => wall.low))) / 2;
  return gapsOf(walls).flatMap(({ from, to, apart }) => {
    if (apart <= Math.max(NARROW, straight)) return [from];
    // An even number of them: midway the wall may differ most.
    const steps = 2 * Math.ceil(apart / (2 * STEP));
    const [thin, thick] = [
      [from.wall.low, to.wall.low],
      [thickest(from), thickest(to)],
    ] as const;
    const between = Array.from({ length: steps - 1 }, (_, i) => {
      const share = (i + 1) / steps;
      const bearing = around(from.bearing + share * apart);
      const radius = radiusAt(bearing);
      const offMiddle = (share - 0.5) * apart * RADIANS;
      const steepness = STEEPER * Math.min(1, uneven / radius) ** 2;
      const off = Math.max(OFF_PITH, apart / HALF_TURN) + steepness;
      const spread = off * radius * (Math.cos(offMiddle) - Math.cos((apart / 2) * RADIANS));
      const line = ([here, there]: readonly [number, number]) => here + share * (there - here);
      const low = Math.min(Math.max(HAIR * radius, line(thin) - spread), radius);
      const high = apart > HALF_TURN ? radius : Math.min(line(thick) + spread, radius);
      return { bearing, wall: interval(low, Math.max(low, high)) };
    });
    return [from, ...between];
  });
}
