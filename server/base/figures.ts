/**
 * Figures for people, the same wherever they are shown. Ends are rounded outwards, so that the interval shown contains
 * the one computed; an end that says nothing is left out.
 */

import type { Interval } from './interval.ts';
import { plainNumber, type Unit } from './quantity.ts';

/** Tolerance for floating-point error, as a fraction of the last digit. */
const SLACK = 1e-6;

/** The side to which a single value is rounded: up for a load or a loss, down for what is borne or left. */
export type Toward = 'up' | 'down';

/** The value with so many decimals, rounded to one side. */
export function rounded(value: number, digits: number, toward: Toward): number {
  const scaled = value * 10 ** digits;
  const whole = toward === 'up' ? Math.ceil(scaled - SLACK) : Math.floor(scaled + SLACK);
  return whole / 10 ** digits;
}

const numberOf = (value: number, digits: number, toward: Toward): string =>
  plainNumber(rounded(value, digits, toward), digits);

/**
 * `0.83..0.86`, `at least 1.74`; one number if both ends print alike.
 * @param highDigits decimals of the upper end of a range, if other
 */
export function numberText(
  { low, high }: Interval,
  digits: number,
  toward: Toward = 'up',
  highDigits = digits,
): string {
  if (low === Number.POSITIVE_INFINITY) return 'without end';
  if (high === Number.POSITIVE_INFINITY) return `at least ${numberOf(low, digits, 'down')}`;
  if (high - low < SLACK) return numberOf(high, digits, toward);
  const [least, most] = [numberOf(low, digits, 'down'), numberOf(high, highDigits, 'up')];
  return least === most ? most : `${least}..${most}`;
}

/** Decimals of a plain ratio: three or four digits in all. */
export function ratioDigits({ low, high }: Interval): number {
  const size = Math.abs(Number.isFinite(high) ? high : low);
  return size >= 100 ? 0 : size >= 10 ? 1 : 2;
}

/** An end of a share this close to 0 or 1 carries no information. */
const NEARLY = 0.005;

/** Width of an interval, as a share, below which one decimal is shown. */
const NARROW = 0.1;

/** Decimals of a share in percent: where it is wide none, unless its lower end would become zero. */
export const shareDigits = ({ low, high }: Interval): number =>
  high - low < NARROW || (low >= NEARLY && low < 0.01) ? 1 : 0;

/** `42..57 %`, `41.8..43.4 %`. */
export const shareText = (share: Interval, toward?: Toward): string =>
  `${numberText({ low: share.low * 100, high: share.high * 100 }, shareDigits(share), toward)} %`;

/** Which ends of a share between 0 and 1 say something: those of a value that is narrow at either end do. */
export function tellingEnds({ low, high }: Interval): { readonly low: boolean; readonly high: boolean } {
  if (low > 1 - NEARLY || high < NEARLY) return { low: true, high: true };
  return { low: low >= NEARLY, high: high <= 1 - NEARLY };
}

/** Of a share of which neither end says anything. */
export const NOT_KNOWN = 'not known';

/** A share by its informative ends: `34..48 %`, `at least 34 %`, `at most 12 %`, `not known`. */
export function lossText(share: Interval): string {
  const ends = tellingEnds(share);
  if (ends.low && ends.high) return shareText(share);
  if (ends.low) return `at least ${numberOf(share.low * 100, 0, 'down')} %`;
  return ends.high ? `at most ${numberOf(share.high * 100, 0, 'up')} %` : NOT_KNOWN;
}

/** `0.97..1.00`: two decimals below 10, so that columns align; `at most 13.6` where the lower end is no more than zero. */
export function ratioText(value: Interval): string {
  const digits = ratioDigits(value);
  if (value.low < 10 ** -digits && value.high > 1 && Number.isFinite(value.high))
    return `at most ${numberOf(value.high, digits, 'up')}`;
  if (digits < 2) return numberText(value, digits);
  return numberText(value, digits).replace(/\d+(?:\.\d+)?/g, number => Number(number).toFixed(digits));
}

/** Decimals of a length, by what a tape shows. @param size in the unit */
export function lengthDigits({ symbol }: Pick<Unit, 'symbol'>, size: number): number {
  if (symbol === 'mm' || size >= 100) return 0;
  return symbol === 'm' && size < 3 ? 2 : 1;
}
