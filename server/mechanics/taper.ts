/** Diameter of a stem by height: D ((H − z) / (H − 1.37 m))^p. Lengths in metres. */

import { type Interval, interval } from '../base/interval.ts';

/** Height at which the diameter is measured: 4.5 ft. */
export const BREAST_HEIGHT = 1.3716;

export interface Stem {
  /** At breast height, outside bark. */
  readonly diameter: Interval;
  readonly height: Interval;
  /** 0 is a cylinder, 1 a cone. */
  readonly exponent: Interval;
}

/** A stem that narrows as fast as a neiloid: the most that is assumed. */
const NEILOID = 1.5;
const STEPS = 60;

/** Volume over that of the cylinder of the diameter at breast height: (H / (H − 1.37))^2p / (2p + 1). */
export const formOf = (exponent: number, height: number): number =>
  (height / (height - BREAST_HEIGHT)) ** (2 * exponent) / (2 * exponent + 1);

/** The exponent of a stem of this form factor: less volume is more taper. @throws RangeError below 3 m of height. */
export function exponentOfForm(form: Interval, height: Interval): Interval {
  if (!(height.low >= 3)) throw new RangeError(`the form of a stem of ${height.low} m`);
  const solve = (wanted: number, tall: number): number => {
    // Of a short stem the form falls with the exponent up to here only.
    const least = (1 / Math.log(tall / (tall - BREAST_HEIGHT)) - 1) / 2;
    let [low, high] = [0, Math.max(0, Math.min(NEILOID, least))];
    for (let i = 0; i < STEPS; i++) {
      const middle = (low + high) / 2;
      if (formOf(middle, tall) > wanted) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  const ends = [height.low, height.high].flatMap(tall => [solve(form.low, tall), solve(form.high, tall)]);
  return interval(Math.min(...ends), Math.max(...ends));
}

/** The exponent from a second diameter above breast height; undefined where it is no taper. */
export function exponentOfTaper(
  diameter: Interval,
  height: Interval,
  upper: Interval,
  at: Interval,
): Interval | undefined {
  if (!(at.low > BREAST_HEIGHT && at.high < height.low && upper.low > 0 && diameter.low > 0))
    return undefined;
  const exponent = (d: number, tall: number, u: number, z: number) =>
    Math.max(0, Math.log(u / d) / Math.log((tall - z) / (tall - BREAST_HEIGHT)));
  const low = exponent(diameter.low, height.low, Math.min(upper.high, diameter.low), at.high);
  const high = exponent(diameter.high, height.high, upper.low, at.low);
  return upper.low < diameter.high && Number.isFinite(high) ? interval(Math.min(low, high), high) : undefined;
}

/** Outside bark. @throws RangeError outside the stem. */
export function diameterAt({ diameter, height, exponent }: Stem, at: number): Interval {
  if (!(at >= 0 && at < height.low)) throw new RangeError(`no stem at ${at} m`);
  const share = (tall: number, p: number) => ((tall - at) / (tall - BREAST_HEIGHT)) ** p;
  const ends = [height.low, height.high].flatMap(tall => [
    share(tall, exponent.low),
    share(tall, exponent.high),
  ]);
  return interval(diameter.low * Math.min(...ends), diameter.high * Math.max(...ends));
}
