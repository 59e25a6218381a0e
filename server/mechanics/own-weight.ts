/** The bending moment of the weight of a leaning or bowed stem. SI units. */

import { add, type Interval, interval, multiply } from '../base/interval.ts';
import { GRAVITY, TAPER } from './stem.ts';

/** Center of gravity of a stem over its height: of a cone, of a paraboloid. */
const CENTER: Interval = interval(1 / 4, 1 / 3);

/** Mass of a stem of one taper, ρ k (π/4) D² H, kg. */
export const stemMass = (diameter: Interval, height: Interval, density: Interval): Interval =>
  multiply(
    multiply(density, TAPER),
    multiply(
      interval(diameter.low ** 2, diameter.high ** 2),
      multiply(interval(Math.PI / 4, Math.PI / 4), height),
    ),
  );

export interface WeightArms {
  /** kg. */
  readonly stem: Interval;
  readonly crown: Interval;
  /** From the axis of the section to the center of gravity, horizontally, m. */
  readonly stemArm: Interval;
  readonly crownArm: Interval;
}

/** g (m_s x_s + m_c x_c), N·m. */
export const weightMoment = ({ stem, crown, stemArm, crownArm }: WeightArms): Interval =>
  multiply(interval(GRAVITY, GRAVITY), add(multiply(stem, stemArm), multiply(crown, crownArm)));

/**
 * How far the center of gravity of a straight leaning stem is to the side, and that of its crown: (z − h) tan θ.
 *
 * @param lean degrees
 * @param length of the stem above the section, vertically
 * @param crown height of the middle of the crown above the section
 * @throws RangeError for a lean of 90 degrees or more.
 */
export function leaningArms(
  lean: Interval,
  length: Interval,
  crown: Interval,
): Pick<WeightArms, 'stemArm' | 'crownArm'> {
  if (!(lean.low >= 0 && lean.high < 90)) throw new RangeError(`no stem leans ${lean.high} degrees`);
  const slope = interval(tangent(lean.low), tangent(lean.high));
  return { stemArm: multiply(slope, multiply(CENTER, length)), crownArm: multiply(slope, crown) };
}

/** Of an angle in degrees. */
export const tangent = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
