/** Figures of trees for people, beside the general ones of base/figures.ts: seasons, volumes, masses. */

import { type Units, unitsOf } from '../assess/units.ts';
import { NOT_KNOWN, numberText } from '../base/figures.ts';
import type { Interval } from '../base/interval.ts';
import { KILOGRAMS_PER_POUND, METRES_PER_FOOT } from '../base/quantity.ts';

/** Width of a range of seasons from which only its lower end is shown. */
const MANY_SEASONS = 4;

/** `2`, `2..3`, `at least 3`; `no number` if no number of seasons suffices. */
export function seasonsText({ low, high }: Interval): string {
  if (!Number.isFinite(low)) return 'no number';
  return high - low < MANY_SEASONS ? numberText({ low, high }, 0) : `at least ${low}`;
}

/** The informative ends: `1.80..3.20`, `at most 3.20`, `at least 1.80`, `not known`. */
export function tellingText({ low, high }: Interval, digits: number): string {
  const begins = low >= 10 ** -digits;
  if (begins) return numberText({ low, high }, digits);
  return high === Number.POSITIVE_INFINITY ? NOT_KNOWN : `at most ${numberText({ low: high, high }, digits)}`;
}

export { type Units, unitsOf };

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
