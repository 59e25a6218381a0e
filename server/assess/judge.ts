/** Compares a value with a limit; formats both for messages. */

import { numberText, ratioDigits, shareDigits, type Toward, tellingEnds } from '../base/figures.ts';
import {
  exact,
  type Interval,
  isExact,
  type LimitVerdict,
  limitVerdict,
  REPRESENTATION,
} from '../base/interval.ts';
import { inUnit, plainNumber, unitOf, withUnit } from '../base/quantity.ts';
import type { Setting, Settings } from '../facts/settings.ts';
import { type LimitEntry, type LimitName, limit as limitRow } from '../practice/limits.ts';

export interface Judged {
  readonly value: Interval;
  readonly name: LimitName;
  readonly setting: Setting;
  readonly direction: LimitEntry['direction'];
  readonly standing: LimitVerdict;
}

/** Compares an interval with the limit in force under these settings, on a given day if stated. */
export function judge(value: Interval, name: LimitName, settings: Settings, on?: number): Judged {
  const setting = settings.limit(name, on);
  const { direction } = limitRow(name);
  return { value, name, setting, direction, standing: limitVerdict(value, setting.value, direction) };
}

/** The smallest of several `at most` limits. */
export function strictest(names: readonly LimitName[], settings: Settings): LimitName {
  return names.reduce((strict, name) =>
    settings.limit(name).value < settings.limit(strict).value ? name : strict,
  );
}

/** A single value in the limit's unit, to the nearest: `34.3 %`, `0.28`. For limits, and values that are rounded already. */
export function showNumber(value: number, { unit: symbol }: Pick<Setting, 'unit'>, digits: number): string {
  const unit = unitOf(symbol);
  return unit ? inUnit(value, unit, digits) : plainNumber(value, digits);
}

/** `34.3 %`, `12.5..34.3 %`, `at least 40 %`. @param toward to which a single value is rounded */
export function showInterval(
  value: Interval,
  setting: Pick<Setting, 'unit'>,
  digits = digitsOf(value, setting),
  toward?: Toward,
  highDigits = digits,
): string {
  const { unit, scaled } = inUnitOf(value, setting);
  const number = numberText(scaled, digits, toward, highDigits);
  return unit ? withUnit(number, unit) : number;
}

function inUnitOf({ low, high }: Interval, { unit: symbol }: Pick<Setting, 'unit'>) {
  const unit = unitOf(symbol);
  const factor = unit?.factor ?? 1;
  return { unit, scaled: { low: low / factor, high: high / factor } };
}

function digitsOf(value: Interval, { unit }: Pick<Setting, 'unit'>): number {
  return unit === '%' ? shareDigits(value) : unit === '' ? ratioDigits(value) : 1;
}

/** From so many on, enough decimals to distinguish an end of the value, as shown, from the limit. */
function digitsFor(end: number, { setting }: Pick<Judged, 'setting'>, least: number, toward: Toward): number {
  const factor = unitOf(setting.unit)?.factor ?? 1;
  const [shown, limit] = [end / factor, setting.value / factor];
  const apart = Math.abs(shown - limit);
  if (!Number.isFinite(shown) || apart <= Math.abs(limit) * REPRESENTATION) return least;
  // Three significant digits are more than any reading supports.
  const most = Math.max(least, 2 - Math.floor(Math.log10(Math.abs(shown) || 1)));
  let digits = least;
  // Further apart than one unit in the last digit they are distinct; else it takes a look.
  while (
    digits < most &&
    apart <= 1.01 * 10 ** -digits &&
    numberText(exact(shown), digits, toward) === numberText(exact(limit), digits, toward)
  )
    digits++;
  return digits;
}

export function showValue(judged: Judged): string {
  const { value, setting, direction } = judged;
  const least = digitsOf(value, setting);
  // A single value is never rounded towards the side that is within the limit.
  const toward = direction === 'at most' ? 'up' : 'down';
  if (isExact(value))
    return showInterval(value, setting, digitsFor(value.low, judged, least, toward), toward);
  if (setting.unit === '' && value.low < 10 ** -least && value.high === Number.POSITIVE_INFINITY)
    return UNKNOWN_TIMES;
  // Rounded outwards, the ends of what only may exceed stay on both sides of the limit.
  const isOpen = judged.standing === 'may exceed';
  const digits = (end: number, to: Toward) => (isOpen ? least : digitsFor(end, judged, least, to));
  return showInterval(value, setting, digits(value.low, 'down'), 'down', digits(value.high, 'up'));
}

/** Of a ratio of which neither end says anything, before `times`. */
export const UNKNOWN_TIMES = 'an unknown number of';

/** `carries 1.4..3.6 times the design wind`, `has an unknown capacity in the design wind`. */
export function carries(judged: Judged, load: string, when = 'in the design wind'): string {
  const times = showValue(judged);
  return times === UNKNOWN_TIMES ? `has an unknown capacity ${when}` : `carries ${times} times ${load}`;
}

/** Of a share of which neither end says anything. */
const UNKNOWN_SHARE = 'an unknown share';

/** A share by its informative ends: `34..48 %`, `at least 34 %`, `at most 12 %`, `an unknown share`. */
export function showShare(judged: Judged): string {
  const { low, high } = judged.value;
  const telling = tellingEnds(judged.value);
  if (telling.low && telling.high) return showValue(judged);
  if (!telling.low && !telling.high) return UNKNOWN_SHARE;
  const toward = telling.low ? 'down' : 'up';
  const end = telling.low ? low : high;
  const digits = digitsFor(end, judged, 0, toward);
  return `${telling.low ? 'at least' : 'at most'} ${showInterval(exact(end), judged.setting, digits, toward)}`;
}

/** What a share is of: `12 % of the crown`, `an unknown loss of bending strength`. */
export const shareOf = (share: string, what: string): string =>
  share === UNKNOWN_SHARE && !what.startsWith('of ') ? `an unknown ${what}` : `${share} ${what}`;

/** `the limit of 33 % (Wagener 1963)`, or `the limit of 30 % (Office limits)` where a practice block sets it. */
export function showLimit({ setting }: Pick<Judged, 'setting'>): string {
  const digits = setting.unit === '' ? 2 : 1;
  return `the limit of ${showNumber(setting.value, setting, digits)} (${authority(setting)})`;
}

/** What the limit rests on: an authorization, the name of a practice block, or the short citation. */
export const authority = ({
  origin,
  citation,
  authorized,
}: Pick<Setting, 'origin' | 'citation' | 'authorized'>): string =>
  authorized?.by ?? (origin.from === 'practice' && origin.name !== undefined ? origin.name : citation.short);

/** `, perhaps over the limit of 60 % (…)`. */
export function beyond(judged: Judged): string {
  if (judged.standing === 'within') return '';
  const over = judged.direction === 'at most' ? 'over' : 'under';
  return `, ${judged.standing === 'exceeds' ? over : `perhaps ${over}`} ${showLimit(judged)}`;
}
