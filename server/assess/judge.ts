/** Compares a value with a limit; formats both for messages. */

import { type Interval, isExact, type LimitVerdict, limitVerdict, REPRESENTATION } from '../base/interval.ts';
import { inUnit, plainNumber, unitOf } from '../base/quantity.ts';
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

const MAX_DIGITS = 4;

/** A value in the limit's unit: `34.3 %`, `0.28`. */
export function showNumber(value: number, { unit: symbol }: Pick<Setting, 'unit'>, digits: number): string {
  const unit = unitOf(symbol);
  return unit ? inUnit(value, unit, digits) : plainNumber(value, digits);
}

/** `34.3 %`, `12.5..34.3 %`, `> 40 %`. */
export function showInterval(value: Interval, setting: Pick<Setting, 'unit'>, digits: number): string {
  if (isExact(value)) return showNumber(value.low, setting, digits);
  if (value.high === Number.POSITIVE_INFINITY) return `> ${showNumber(value.low, setting, digits)}`;
  const factor = unitOf(setting.unit)?.factor ?? 1;
  const low = plainNumber(value.low / factor, digits);
  const high = showNumber(value.high, setting, digits);
  return high.split(' ')[0] === low ? high : `${low}..${high}`;
}

/** Enough decimals to distinguish both ends of the value from the limit. */
function digitsFor({ value, setting }: Judged): number {
  const factor = unitOf(setting.unit)?.factor ?? 1;
  const isDistinct = (end: number, digits: number): boolean => {
    const apart = Math.abs(end - setting.value);
    if (!Number.isFinite(end) || apart <= Math.abs(setting.value) * REPRESENTATION) return true;
    // Fast path: further apart than one unit in the last digit.
    if (apart / factor > 1.01 * 10 ** -digits) return true;
    return showNumber(end, setting, digits) !== showNumber(setting.value, setting, digits);
  };
  let digits = setting.unit === '' ? 2 : 1;
  while (digits < MAX_DIGITS && !(isDistinct(value.low, digits) && isDistinct(value.high, digits))) digits++;
  return digits;
}

export const showValue = (judged: Judged): string =>
  showInterval(judged.value, judged.setting, digitsFor(judged));

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
