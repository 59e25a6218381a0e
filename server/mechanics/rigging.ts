/** Pieces lowered on a rope: mass, peak force, and what the spar below the block takes. SI units. */

import { type Interval, interval, multiply } from '../base/interval.ts';
import { GRAVITY } from './stem.ts';

/** Frustum of a cone, m³. @throws RangeError for a negative size. */
export function frustumVolume(length: Interval, wide: Interval, narrow: Interval): Interval {
  for (const size of [length, wide, narrow])
    if (!(size.low >= 0)) throw new RangeError(`a piece with a size of ${size.low} m`);
  const at = (end: 'low' | 'high') => {
    const [l, a, b] = [length[end], wide[end], narrow[end]];
    // Zero times an open end.
    const product = a === 0 || b === 0 ? 0 : a * b;
    return l === 0 ? 0 : (Math.PI / 12) * l * (a ** 2 + product + b ** 2);
  };
  return interval(at('low'), at('high'));
}

/** N. */
export const weightOf = (mass: Interval): Interval => multiply(mass, interval(GRAVITY, GRAVITY));

/** What a rope does to a falling piece. */
export interface CatchingRope {
  /** Force over strain, N. */
  readonly stiffness: Interval;
  /** Under load, m. */
  readonly length: Interval;
}

/** Force over strain from the breaking strength and the elongation at a tenth of it, N. */
export function ropeStiffness(strength: Interval, elongation: Interval): Interval {
  if (!(elongation.low > 0)) throw new RangeError(`a rope that stretches by ${elongation.low}`);
  return interval((0.1 * strength.low) / elongation.high, (0.1 * strength.high) / elongation.low);
}

/** Drop tests gave as little as a third of what the energy model says (Detter et al. 2008, read in a quotation). */
const OVERRATED = 3;
/** A load applied all at once, without a fall, doubles its weight. */
const SUDDEN = 2;

/** W (1 + √(1 + 2 h k / W)): all the energy of the fall goes into the rope. @throws RangeError without a weight. */
export function arrestForce(weight: number, drop: number, springRate: number): number {
  if (!(weight > 0)) throw new RangeError(`a piece of ${weight} N`);
  return weight * (1 + Math.sqrt(1 + (2 * drop * springRate) / weight));
}

/**
 * Peak force in the rope where a piece is stopped, N.
 *
 * @param drop fall of the center of gravity before the rope loads, m; undefined if unknown
 */
export function caughtForce(
  weight: Interval,
  drop: Interval | undefined,
  rope: CatchingRope | undefined,
): Interval {
  const least = SUDDEN * weight.low;
  if (!drop || !rope || !Number.isFinite(weight.high) || !(rope.length.low > 0))
    return interval(least, Number.POSITIVE_INFINITY);
  if (!(weight.low > 0)) throw new RangeError(`a piece of ${weight.low} N`);
  const rate = (force: number, length: number) => force / length;
  const low = arrestForce(weight.low, drop.low, rate(rope.stiffness.low, rope.length.high));
  const high = arrestForce(weight.high, drop.high, rate(rope.stiffness.high, rope.length.low));
  return interval(Math.max(least, low / OVERRATED), high);
}

/** Between the hanging weight and a load applied at once, N: only where there is room to let it run. */
export const runningForce = ({ low, high }: Interval): Interval => interval(low, SUDDEN * high);

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** 2 F cos(θ/2), N; θ the angle between the legs of the rope, in degrees up to 180. */
export const blockForce = (force: Interval, angle: Interval): Interval =>
  multiply(force, interval(2 * Math.cos(radians(angle.high) / 2), 2 * Math.cos(radians(angle.low) / 2)));

/** Whether legs of a rope may stand at such an angle. */
export const isLegAngle = ({ low, high }: Interval): boolean => low >= 0 && high <= 180;

/**
 * Bending moment over force at a section of an upright spar, m: one leg of the rope runs down the spar, the other pulls
 * aside at the angle θ, and the block hangs at the side of the spar: (z sin θ + r (1 + cos θ)).
 *
 * @param below from the block down to the section, m
 * @param aside from the axis of the spar to the block, m
 */
export function sparArm(angle: Interval, below: Interval, aside: Interval): Interval {
  const arm = (degrees: number, z: number, r: number) =>
    z * Math.sin(radians(degrees)) + r * (1 + Math.cos(radians(degrees)));
  const steepest = (Math.atan2(below.high, aside.high) * 180) / Math.PI;
  const most = Math.min(Math.max(steepest, angle.low), angle.high);
  // Concave in θ: least at an end.
  const ends = [angle.low, angle.high];
  return interval(
    Math.max(0, Math.min(...ends.map(end => arm(end, below.low, aside.low)))),
    arm(most, below.high, aside.high),
  );
}
