/**
 * The size of a thing between two points of a picture, by the pinhole model. Lengths in meters, angles in radians.
 *
 * Two points are two rays with the angle 2h between them. A straight thing between them that is turned by t out of the plane
 * across the line of sight, of which a point at the angle p from the middle is at the distance r, has the length
 * r sin 2h cos(t + p) / (cos(t + h) cos(t - h)).
 */

import { type Interval, interval } from '../base/interval.ts';
import { FRAME_DIAGONAL } from './photo.ts';

/** Pixels from the left and the top of the picture as it is shown. */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

export type PointPair = readonly [PicturePoint, PicturePoint];

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

export interface Sighting {
  readonly size: PictureSize;
  /** Equivalent focal length by the diagonal of the picture, m. */
  readonly focalLength35: Interval;
  readonly points: PointPair;
  /** Pixels that each point may be off, to any side. */
  readonly pointError: number;
  /** How far the thing may be turned out of the plane across the line of sight. */
  readonly obliqueness: number;
}

/** The angle between the rays of two points, with the focal length in pixels. */
function angleBetween([one, other]: PointPair, { width, height }: PictureSize, focal: number): number {
  const [ax, ay] = [one.x - width / 2, one.y - height / 2];
  const [bx, by] = [other.x - width / 2, other.y - height / 2];
  const dot = ax * bx + ay * by + focal ** 2;
  const cross = Math.hypot(ay * focal - by * focal, ax * focal - bx * focal, ax * by - ay * bx);
  return Math.atan2(cross, dot);
}

/** Focal length in pixels: the 35 mm frame is compared by its diagonal. */
const inPixels = (focalLength35: number, { width, height }: PictureSize): number =>
  (focalLength35 * Math.hypot(width, height)) / FRAME_DIAGONAL;

/** The focal length at which two points off the middle are seen farthest apart; undefined if there is none. */
function widestFocal([one, other]: PointPair, { width, height }: PictureSize): number | undefined {
  const [ax, ay] = [one.x - width / 2, one.y - height / 2];
  const [bx, by] = [other.x - width / 2, other.y - height / 2];
  const [a, b, c] = [ax ** 2 + ay ** 2, bx ** 2 + by ** 2, ax * bx + ay * by];
  const squared = (c * (a + b) - 2 * a * b) / (a + b - 2 * c);
  return squared > 0 ? Math.sqrt(squared) : undefined;
}

/** The angle that the points may span, with the points off by their error. */
function spannedAngle(sighting: Sighting, focalLength35: Interval): Interval {
  const { points, size, pointError } = sighting;
  const [shortest, longest] = [inPixels(focalLength35.low, size), inPixels(focalLength35.high, size)];
  const widest = widestFocal(points, size);
  const focals = [shortest, longest, ...(widest && widest > shortest && widest < longest ? [widest] : [])];
  const angles = focals.map(focal => angleBetween(points, size, focal));
  // A shift of the point turns its ray by no more than that over the focal length.
  const off = (2 * Math.SQRT2 * pointError) / shortest;
  return interval(Math.max(0, Math.min(...angles) - off), Math.max(...angles) + off);
}

/** Length over distance, for any point of the thing at that distance. */
function lengthOverDistance(angle: Interval, obliqueness: number): Interval {
  const half = { low: angle.low / 2, high: angle.high / 2 };
  if (obliqueness + half.high >= Math.PI / 2) return interval(lowest(angle.low, obliqueness), Infinity);
  const high =
    obliqueness >= half.high
      ? Math.sin(angle.high) / Math.cos(obliqueness + half.high)
      : (2 * Math.sin(angle.high)) / (Math.cos(2 * obliqueness) + Math.cos(angle.high));
  return interval(lowest(angle.low, obliqueness), high);
}

const lowest = (angle: number, obliqueness: number): number =>
  Math.sin(Math.min(angle, Math.PI / 2)) / Math.cos(Math.max(0, angle / 2 - obliqueness));

function requireSighting({ size, focalLength35, points, obliqueness }: Sighting): void {
  const { width, height } = size;
  if (!(width >= 1 && height >= 1)) throw new RangeError(`a picture of ${width} by ${height} pixels`);
  if (!(focalLength35.low > 0 && focalLength35.high < Infinity))
    throw new RangeError(`a lens of ${focalLength35.low} m focal length`);
  if (!(obliqueness >= 0 && obliqueness < Math.PI / 2)) throw new RangeError(`turned by ${obliqueness}`);
  for (const { x, y } of points)
    if (!(x >= 0 && x <= width && y >= 0 && y <= height))
      throw new RangeError(`the point ${x}, ${y} outside of the picture, ${width} by ${height} pixels`);
}

/**
 * The length between two points of a picture, from the distance to any point of the thing.
 *
 * @throws RangeError if the distance may be zero, a point lies outside of the picture, or the camera is none.
 */
export function lengthAt(distance: Interval, sighting: Sighting): Interval {
  requireSighting(sighting);
  if (!(distance.low > 0)) throw new RangeError(`a subject at ${distance.low} m from the camera`);
  const over = lengthOverDistance(spannedAngle(sighting, sighting.focalLength35), sighting.obliqueness);
  return interval(distance.low * over.low, distance.high * over.high);
}

/** A length known in the picture. */
export interface KnownLength {
  readonly length: Interval;
  readonly points: PointPair;
  /** Share that its distance may differ from that of the thing. */
  readonly apart: number;
}

/** Steps between the shortest and the longest lens: the ratio of two angles hardly changes with it. */
const LENSES = 48;
/** What the ratio may change between two steps. */
const BETWEEN_LENSES = 0.002;

/**
 * The length between two points of a picture, from a known length beside it; the lens is the same for both.
 *
 * @throws RangeError like `lengthAt`, and if the points of the known length could be one.
 */
export function lengthBeside({ length, points, apart }: KnownLength, sighting: Sighting): Interval {
  const known = { ...sighting, points };
  requireSighting(sighting);
  requireSighting(known);
  if (!(length.low > 0)) throw new RangeError(`a known length of ${length.low} m`);
  const { low: shortest, high: longest } = sighting.focalLength35;
  let [low, high] = [Infinity, 0];
  for (let i = 0; i <= LENSES; i++) {
    const focal = shortest * (longest / shortest) ** (i / LENSES);
    const lens = interval(focal, focal);
    const of = lengthOverDistance(spannedAngle(sighting, lens), sighting.obliqueness);
    const to = lengthOverDistance(spannedAngle(known, lens), sighting.obliqueness);
    if (!(to.low > 0)) throw new RangeError('a known length between points that could be one');
    low = Math.min(low, of.low / to.high);
    high = Math.max(high, of.high / to.low);
  }
  return interval(
    length.low * low * (1 - apart) * (1 - BETWEEN_LENSES),
    length.high * high * (1 + apart) * (1 + BETWEEN_LENSES),
  );
}
