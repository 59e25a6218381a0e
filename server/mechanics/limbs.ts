/** Bending moment at the union of a limb, and what shortening takes off it. SI units, angles in degrees. */

import { exact, type Interval, interval, multiply } from '../base/interval.ts';
import { GRAVITY, TAPER } from './stem.ts';

/** Center of gravity of the wood of a limb over its length: of a cone, of a paraboloid. */
const WOOD_CENTER: Interval = interval(1 / 4, 1 / 3);
/** Of ice, kg/m³. */
const ICE_DENSITY = 917;
/** Twigs that carry ice, m (judged). */
const TWIGS: Interval = interval(0.005, 0.02);

export interface LimbShape {
  /** Just outside the collar. */
  readonly diameter: Interval;
  readonly length: Interval;
  /** From the horizontal, 0 to 90. */
  readonly angle: Interval;
  /** kg/m³. */
  readonly density: Interval;
  /** Mass of twigs and leaves over that of the wood. */
  readonly foliage: Interval;
  /** Where their center of gravity is, over the length. */
  readonly foliageCenter: Interval;
}

/** Lever arm over distance along the limb. */
const horizontal = ({ low, high }: Interval): Interval => interval(cosine(high), cosine(low));
const cosine = (degrees: number): number => Math.max(0, Math.cos((degrees * Math.PI) / 180));

/** Mass of the wood, ρ k (π/4) d² L, kg. @public */
export const woodMass = ({ diameter, length, density }: LimbShape): Interval =>
  multiply(
    multiply(density, TAPER),
    multiply(interval(diameter.low ** 2, diameter.high ** 2), multiply(exact(Math.PI / 4), length)),
  );

/** g cos φ (m_w x_w + m_f x_f), N·m. */
export function ownMoment(shape: LimbShape): Interval {
  const { length, angle, foliage, foliageCenter } = shape;
  const arm = (end: 'low' | 'high') => WOOD_CENTER[end] + foliage[end] * foliageCenter[end];
  return multiply(
    multiply(exact(GRAVITY), horizontal(angle)),
    multiply(woodMass(shape), multiply(length, interval(arm('low'), arm('high')))),
  );
}

/** Weight of ice on a metre of twig, ρ g π t (d + t), N/m. @public */
export const iceOnTwig = (thickness: number, diameter: number): number =>
  ICE_DENSITY * GRAVITY * Math.PI * thickness * (diameter + thickness);

/**
 * Moment of ice, N·m. At the least it covers the limb itself, tapered to nothing; at the most also twigs as heavy as
 * all of its twigs and leaves, of the thinnest kind.
 */
export function iceMoment(shape: LimbShape, thickness: Interval): Interval {
  const { diameter, length, angle, foliage, foliageCenter, density } = shape;
  const lever = horizontal(angle);
  // A tapered limb has the girth of half its diameter on average, with its center at a third of the length.
  const bare = (end: 'low' | 'high') =>
    iceOnTwig(thickness[end], diameter[end] / 2) *
    length[end] *
    length[end] *
    (end === 'low' ? 1 / 3 : 1 / 2);
  const iced =
    iceOnTwig(thickness.high, TWIGS.low) / ((Math.PI / 4) * TWIGS.low ** 2 * GRAVITY * density.low);
  const twigs = woodMass(shape).high * foliage.high * iced * GRAVITY * foliageCenter.high * length.high;
  return multiply(lever, interval(bare('low'), bare('high') + twigs));
}

/** Section modulus of a round limb, π d³ / 32, m³. */
export const roundModulus = ({ low, high }: Interval): Interval =>
  interval((Math.PI * low ** 3) / 32, (Math.PI * high ** 3) / 32);

/**
 * Share of the moment of a limb that shortening it by a share of its length takes off: from that of a uniform load,
 * 2u − u², to that of a load that grows toward the tip, 1 − (1 − u)³.
 *
 * @throws RangeError for a share outside 0 to 1.
 */
export function momentShortened({ low, high }: Interval): Interval {
  if (!(low >= 0 && high <= 1))
    throw new RangeError(`no limb is shortened by ${low} to ${high} of its length`);
  return interval(low * (2 - low), Math.max(high * (2 - high), high * (3 - 3 * high + high ** 2)));
}

/** The same of the bare wood, a cone: u³ (4 − 3u). Pruning of a dead limb. @public */
export const coneShortened = (share: number): number => share ** 3 * (4 - 3 * share);
