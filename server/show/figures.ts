/** Intervals for people. Ends are rounded outwards, so that what is shown holds what was computed. */

import type { Interval } from '../base/interval.ts';
import { KILOGRAMS_PER_POUND, METRES_PER_FOOT, plainNumber } from '../base/quantity.ts';

/** Share of a last digit that computing alone may add or take. */
const SLACK = 1e-6;

function outward({ low, high }: Interval, digits: number): readonly [string, string] {
  const scale = 10 ** digits;
  const floor = Math.floor(low * scale + SLACK) / scale;
  const ceiling = Math.ceil(high * scale - SLACK) / scale;
  return [plainNumber(floor, digits), plainNumber(ceiling, digits)];
}

/** `0.83..0.86`, `1.74 or more`; a single figure where both ends read alike. */
export function numberText(value: Interval, digits: number): string {
  if (value.low === Number.POSITIVE_INFINITY) return 'without end';
  if (value.high === Number.POSITIVE_INFINITY) {
    const [low] = outward({ low: value.low, high: value.low }, digits);
    return `${low} or more`;
  }
  // An exact figure that falls between two digits takes the upper one: never towards safe.
  if (value.high - value.low < SLACK) return outward(value, digits)[1];
  const [low, high] = outward(value, digits);
  return low === high ? high : `${low}..${high}`;
}

/** Points of a per cent below which a decimal is told. */
const NARROW = 0.1;

/** `42..57 %`, `41.8..43.4 %`. */
export function shareText({ low, high }: Interval): string {
  const digits = high - low < NARROW ? 1 : 0;
  return `${numberText({ low: low * 100, high: high * 100 }, digits)} %`;
}

/** Shares this near to none and to all say nothing. */
const NEARLY = 0.005;

/** A loss by the ends that say something: `34..48 %`, `at least 34 %`, `at most 12 %`, `not known`. */
export function lossText({ low, high }: Interval): string {
  const isFloor = low >= NEARLY;
  const isCeiling = high <= 1 - NEARLY;
  if (low > 1 - NEARLY || high < NEARLY || (isFloor && isCeiling)) return shareText({ low, high });
  if (isFloor)
    return `at least ${numberText({ low: Math.floor(100 * low), high: Math.floor(100 * low) }, 0)} %`;
  return isCeiling ? `at most ${shareText({ low: high, high })}` : 'not known';
}

/** `0.97..1.00`: two decimals, so that ratios stand below each other. */
export const ratioText = (value: Interval): string =>
  numberText(value, 2)
    .split('..')
    .map(end => end.replace(/^[\d.]+/, number => Number(number).toFixed(2)))
    .join('..');

/** Seasons up to which a range tells something; beyond it only its beginning does. */
const MANY_SEASONS = 4;

/** `2`, `2..3`, `at least 3`; no number of seasons takes the whole crown. */
export function seasonsText({ low, high }: Interval): string {
  if (!Number.isFinite(low)) return 'no number';
  return high - low < MANY_SEASONS ? numberText({ low, high }, 0) : `at least ${low}`;
}

/** The ends that say something: `1.80..3.20`, `at most 3.20`, `at least 1.80`, `not known`. */
export function tellingText({ low, high }: Interval, digits: number): string {
  const told = (end: number) => numberText({ low: end, high: end }, digits);
  const begins = low >= 10 ** -digits;
  if (high === Number.POSITIVE_INFINITY)
    return begins ? `at least ${told(floored(low, digits))}` : 'not known';
  return begins ? numberText({ low, high }, digits) : `at most ${told(high)}`;
}

const floored = (value: number, digits: number): number =>
  Math.floor(value * 10 ** digits + SLACK) / 10 ** digits;

export type Units = 'imperial' | 'metric';

const CUBIC_FOOT = METRES_PER_FOOT ** 3;

/** Steps of two digits: what a volume by form and a mass by mean density are good for. */
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
