/**
 * Anchorage: what is left of it after roots were lost or cut, and what a pull test says of it. Metres, newtons,
 * radians only inside; angles in degrees. The constants are those of practice/anchorage.ts.
 */

import { clip, type Interval, interval, multiply } from '../base/interval.ts';

const SHARE: Interval = interval(0, 1);
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/**
 * Anchorage left over that before, 1 − c · x, after a share x of the buttress roots (or of their section) was lost.
 *
 * @param effect c: loss of anchorage over the share of roots lost
 * @throws RangeError for a share outside 0 to 1.
 */
export function leftOfRoots(lost: Interval, effect: Interval): Interval {
  if (!(lost.low >= 0 && lost.high <= 1)) throw new RangeError(`roots lost: ${lost.low} to ${lost.high}`);
  return clip(interval(1 - effect.high * lost.high, 1 - effect.low * lost.low), SHARE);
}

/** Anchorage left beside a straight trench: at the bark, and the distances over the diameter from which all is left. */
export interface TrenchEffect {
  readonly atBark: number;
  readonly from: Interval;
}

/**
 * Anchorage left over that before, linear from the bark out to the distance from which nothing is lost.
 *
 * @param ratio distance from the bark over the stem diameter
 * @throws RangeError for a negative distance.
 */
export function leftBesideTrench(ratio: Interval, { atBark, from }: TrenchEffect): Interval {
  if (!(ratio.low >= 0)) throw new RangeError(`a trench at ${ratio.low} diameters`);
  const at = (value: number, whole: number) => atBark + (1 - atBark) * Math.min(1, value / whole);
  return interval(at(ratio.low, from.high), at(ratio.high, from.low));
}

/** 0.64 · (50 D)^0.42, at least `least`: the radius within which roots hold a tree up, from D above the root flare, m. */
export function structuralRootRadius(diameter: Interval, least: number): Interval {
  if (!(diameter.low > 0)) throw new RangeError(`a stem diameter of ${diameter.low} m`);
  const at = (value: number) => Math.max(least, 0.64 * (50 * value) ** 0.42);
  return interval(at(diameter.low), at(diameter.high));
}

/** A rope that pulls a stem: where it holds, how steeply it comes down, and how far off the axis of the root plate. */
export interface Pull {
  /** N, in the rope. */
  readonly force: Interval;
  /** m above ground. */
  readonly height: Interval;
  /** Degrees from the horizontal. */
  readonly slope: Interval;
  /** m, toward the pull; 0 for an upright stem. */
  readonly offset: Interval;
}

/**
 * Bending moment of a pull at a height of an upright stem, N·m: F cos α (h_a − h) + F sin α e_a.
 *
 * @throws RangeError for a negative reading, a rope at 90° or steeper, or a height that is not below the rope.
 */
export function pullMoment({ force, height, slope, offset }: Pull, at = 0): Interval {
  if (!(force.low >= 0 && slope.low >= 0 && slope.high < 90 && offset.low >= 0 && at >= 0))
    throw new RangeError('a pull with a negative reading or a vertical rope');
  if (!(height.low > at)) throw new RangeError(`a rope at ${height.low} m bends no section at ${at} m`);
  // Concave in the slope: least at an end, greatest where the rope is square to the lever.
  const lever = (end: 'low' | 'high', degrees: number) =>
    Math.cos(radians(degrees)) * (height[end] - at) + Math.sin(radians(degrees)) * offset[end];
  const least = Math.min(lever('low', slope.low), lever('low', slope.high));
  const square = (Math.atan2(offset.high, height.high - at) * 180) / Math.PI;
  const steepest = Math.min(Math.max(square, slope.low), slope.high);
  return interval(force.low * least, force.high * lever('high', steepest));
}

/** How a pull test is extrapolated. */
export interface TippingCurve {
  /** Degrees of inclination at the stem base that the test is read at. */
  readonly inclination: number;
  /** Greatest moment over that at this inclination. */
  readonly peak: number;
}

/**
 * Moment at the inclination at which tests are read, in proportion.
 *
 * @param inclination measured, degrees
 * @throws RangeError without an inclination.
 */
export function momentAtReading(moment: Interval, inclination: Interval, curve: TippingCurve): Interval {
  if (!(inclination.low > 0)) throw new RangeError(`an inclination of ${inclination.low}°`);
  return multiply(
    moment,
    interval(curve.inclination / inclination.high, curve.inclination / inclination.low),
  );
}

/**
 * The moment at which the root plate gives way, N·m.
 *
 * @param scatter single trees over this estimate
 */
export const anchorageMoment = (reading: Interval, { peak }: TippingCurve, scatter: Interval): Interval =>
  multiply(reading, interval(peak * scatter.low, peak * scatter.high));

/**
 * Share of the greatest moment at an inclination in degrees, 1 − exp(−φ / φ0), through the share at the inclination
 * that tests are read at. For drawings.
 *
 * @public
 */
export function tippingShare(inclination: number, curve: TippingCurve): number {
  const scale = -curve.inclination / Math.log(1 - 1 / curve.peak);
  return 1 - Math.exp(-inclination / scale);
}

/**
 * Moment at which the outermost wood is first crushed, N·m: M ε_lim / ε at the section where the strain was read.
 *
 * @throws RangeError without a strain.
 */
export function momentByStrain(moment: Interval, strain: Interval, limit: Interval): Interval {
  if (!(strain.low > 0)) throw new RangeError(`a strain of ${strain.low}`);
  return multiply(moment, interval(limit.low / strain.high, limit.high / strain.low));
}
