/** What a stated wind speed means: gusts in a mean wind, and the speed-up over hills. Metres, m/s. */

import { clip, type Interval, interval } from '../base/interval.ts';
import type { SpeedUp } from './wind.ts';

/** Height and roughness length of open terrain, to which basic wind speeds refer, m (EN 1991-1-4, from memory). */
const REFERENCE = { height: 10, roughness: 0.05 };

/**
 * Turbulence intensity of the mean wind over flat ground, 1 / ln(z / z0) (EN 1991-1-4, from memory).
 *
 * @throws RangeError at or below the roughness length.
 * @public
 */
export function turbulenceIntensity(height: number, roughness: number): number {
  if (!(roughness > 0 && height > roughness))
    throw new RangeError(`no mean wind ${height} m above a roughness of ${roughness} m`);
  return 1 / Math.log(height / roughness);
}

/** Peak over mean velocity pressure, 1 + 7 I (EN 1991-1-4, from memory). @public */
export const peakPressure = (height: number, roughness: number): number =>
  1 + 7 * turbulenceIntensity(height, roughness);

/** Gust over mean speed in open terrain. */
export const gustOverMean = (): number => Math.sqrt(peakPressure(REFERENCE.height, REFERENCE.roughness));

/** Constants of the speed-up over one shape of hill in one exposure; see practice/hills.ts. */
export interface HillConstants {
  /** K1 over H / Lh. */
  readonly steepness: number;
  /** γ: how fast it fades with height. */
  readonly fading: number;
  /** μ: how far from the crest it reaches, in Lh. */
  readonly reach: number;
  /** H / Lh from which the hill is felt, and from which steeper ones are like it. */
  readonly least: number;
  readonly steepest: number;
  /** Height from which the hill is felt, m. */
  readonly lowest: number;
}

export interface Hill {
  /** H, from foot to crest. */
  readonly height: Interval;
  /** Lh, from the crest to where the ground upwind is half as high. */
  readonly halfLength: Interval;
  /** x, from the crest. */
  readonly distance: Interval;
}

const SHARE = interval(0, 1);

/**
 * The least and the greatest speed-up that the readings allow, Kzt = (1 + K1 K2 K3)² (ASCE 7); one if they are exact,
 * none if the hill is too low or too gentle. In the lower half of the hill, too, to which the standard does not ask to
 * apply it.
 *
 * @throws RangeError without height or length.
 */
export function speedUps({ height, halfLength, distance }: Hill, of: HillConstants): readonly SpeedUp[] {
  if (!(height.low > 0 && halfLength.low > 0 && distance.low >= 0))
    throw new RangeError(`no hill ${height.low} m high and ${halfLength.low} m long`);
  const slope = interval(height.low / halfLength.high, height.high / halfLength.low);
  if (slope.high < of.least || height.high < of.lowest) return [];
  const isCertain = slope.low >= of.least && height.low >= of.lowest;
  const at = (end: 'low' | 'high', far: number): SpeedUp => {
    // Steeper than the steepest: as if longer.
    const length = Math.max(halfLength[end], height[end] / of.steepest);
    const first = of.steepness * Math.min(slope[end], of.steepest);
    const second = clip({ low: 1 - far / (of.reach * length), high: 1 }, SHARE).low;
    return { rise: first * second, fading: of.fading / length };
  };
  const most = at('high', distance.low);
  const least = at('low', distance.high);
  if (!isCertain) return [{ ...least, rise: 0 }, most];
  return least.rise === most.rise && least.fading === most.fading ? [most] : [least, most];
}
