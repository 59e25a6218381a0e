/** Intervals for people. Ends are rounded outwards: the interval shown contains the one computed. */

import type { Interval } from '../base/interval.ts';
import { KILOGRAMS_PER_POUND, METRES_PER_FOOT, plainNumber } from '../base/quantity.ts';
import type { Tree } from '../facts/types.ts';

/** Tolerance for floating-point error, as a fraction of the last digit. */
const SLACK = 1e-6;

function outward({ low, high }: Interval, digits: number): readonly [string, string] {
  const scale = 10 ** digits;
  const floor = Math.floor(low * scale + SLACK) / scale;
  const ceiling = Math.ceil(high * scale - SLACK) / scale;
  return [plainNumber(floor, digits), plainNumber(ceiling, digits)];
}

/** `0.83..0.86`, `1.74 or more`; one number if both ends print alike. */
export function numberText(value: Interval, digits: number): string {
  if (value.low === Number.POSITIVE_INFINITY) return 'without end';
  if (value.high === Number.POSITIVE_INFINITY) {
    const [low] = outward({ low: value.low, high: value.low }, digits);
    return `${low} or more`;
  }
  // An exact value is rounded up: never towards safe.
  if (value.high - value.low < SLACK) return outward(value, digits)[1];
  const [low, high] = outward(value, digits);
  return low === high ? high : `${low}..${high}`;
}

/** Width of an interval, as a share, below which one decimal is shown. */
const NARROW = 0.1;

/** `42..57 %`, `41.8..43.4 %`. */
export function shareText({ low, high }: Interval): string {
  const digits = high - low < NARROW ? 1 : 0;
  return `${numberText({ low: low * 100, high: high * 100 }, digits)} %`;
}

/** An end this close to 0 or 1 carries no information. */
const NEARLY = 0.005;

/** Of a loss that may be any. */
export const NOT_KNOWN = 'not known';

/** A loss by its informative ends: `34..48 %`, `at least 34 %`, `at most 12 %`, `not known`. */
export function lossText({ low, high }: Interval): string {
  const isFloor = low >= NEARLY;
  const isCeiling = high <= 1 - NEARLY;
  if (low > 1 - NEARLY || high < NEARLY || (isFloor && isCeiling)) return shareText({ low, high });
  if (isFloor)
    return `at least ${numberText({ low: Math.floor(100 * low), high: Math.floor(100 * low) }, 0)} %`;
  return isCeiling ? `at most ${shareText({ low: high, high })}` : NOT_KNOWN;
}

/** `0.97..1.00`: always two decimals, so that columns align. */
export const ratioText = (value: Interval): string =>
  numberText(value, 2)
    .split('..')
    .map(end => end.replace(/^[\d.]+/, number => Number(number).toFixed(2)))
    .join('..');

/** Width of a range of seasons from which only its lower end is shown. */
const MANY_SEASONS = 4;

/** `2`, `2..3`, `at least 3`; `no number` if no number of seasons suffices. */
export function seasonsText({ low, high }: Interval): string {
  if (!Number.isFinite(low)) return 'no number';
  return high - low < MANY_SEASONS ? numberText({ low, high }, 0) : `at least ${low}`;
}

/** The informative ends: `1.80..3.20`, `at most 3.20`, `at least 1.80`, `not known`. */
export function tellingText({ low, high }: Interval, digits: number): string {
  const endText = (end: number) => numberText({ low: end, high: end }, digits);
  const begins = low >= 10 ** -digits;
  if (high === Number.POSITIVE_INFINITY)
    return begins ? `at least ${endText(floored(low, digits))}` : 'not known';
  return begins ? numberText({ low, high }, digits) : `at most ${endText(high)}`;
}

const floored = (value: number, digits: number): number =>
  Math.floor(value * 10 ** digits + SLACK) / 10 ** digits;

export type Units = 'imperial' | 'metric';

/** Those in which the sizes of a tree are written. */
export const unitsOf = ({ diameters, height }: Tree): Units =>
  [...diameters, ...(height ? [height] : [])].some(({ value: { unit } }) =>
    ['in', 'ft'].includes(unit?.symbol ?? ''),
  )
    ? 'imperial'
    : 'metric';

const CUBIC_FOOT = METRES_PER_FOOT ** 3;

/** Rounds outwards to two digits: a volume by form and a mass by mean density are no more precise. */
function twoDigits({ low, high }: Interval): Interval {
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(high, 1))) - 1);
  return { low: Math.floor(low / step) * step, high: Math.ceil(high / step) * step };
}

const scaled = ({ low, high }: Interval, unit: number): Interval => ({ low: low / unit, high: high / unit });

/** m³ for people: `90..160 ft³`, `2.5..4.4 m³`. */
export const volumeText = (volume: Interval, units: Units): string =>
  units === 'imperial'
    ? `${numberText(twoDigits(scaled(volume, CUBIC_FOOT)), 0)} ft³`
    : `${numberText(volume, 1)} m³`;

/** kg for people: `4200..9900 lb`. */
export const massText = (mass: Interval, units: Units): string =>
  units === 'imperial'
    ? `${numberText(twoDigits(scaled(mass, KILOGRAMS_PER_POUND)), 0)} lb`
    : `${numberText(twoDigits(mass), 0)} kg`;
