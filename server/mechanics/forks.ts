/** Strength of a fork, and the tension of a cable above it. SI units, angles in degrees. */

import { type Interval, interval, multiply } from '../base/interval.ts';
import { roundModulus } from './limbs.ts';

/**
 * k_f k_ib MOR Z of the thinner stem, N·m.
 *
 * @param factors of the fork and of its bark, over the modulus of rupture of clear wood
 */
export const forkStrength = (
  rupture: Interval,
  thinner: Interval,
  ...factors: readonly Interval[]
): Interval => factors.reduce(multiply, multiply(rupture, roundModulus(thinner)));

export interface CableGeometry {
  /** Of the cable above the fork, m. */
  readonly above: Interval;
  /** Of the cable from the horizontal. */
  readonly slope: Interval;
}

/**
 * T = (γ M − R) / (a cos β), N, at least 0. With R = 0 and γ = 1 the cable alone holds the load.
 *
 * @throws RangeError if the cable may be at the fork or below it, or be vertical.
 */
export function cableTension(
  moment: Interval,
  margin: number,
  fork: Interval,
  { above, slope }: CableGeometry,
): Interval {
  if (!(above.low > 0)) throw new RangeError(`a cable ${above.low} m above the fork holds nothing`);
  if (!(slope.low >= 0 && slope.high < 90))
    throw new RangeError(`a cable at ${slope.high} degrees holds nothing`);
  const reach = (height: number, degrees: number) => height * Math.cos((degrees * Math.PI) / 180);
  return interval(
    Math.max(0, margin * moment.low - fork.high) / reach(above.high, slope.low),
    Math.max(0, margin * moment.high - fork.low) / reach(above.low, slope.high),
  );
}
