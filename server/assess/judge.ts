/** A figure against a limit of the trade, in the three grades of the house. */

import { type Interval, isExact, REPRESENTATION, type Standing } from '../base/interval.ts';
import { inUnit, plainNumber, unitOf } from '../base/quantity.ts';
import type { Setting, Settings } from '../facts/settings.ts';
import { type Limit, type LimitName, limit as limitRow } from '../practice/limits.ts';

export { REPRESENTATION, type Standing };

export interface Judged {
  readonly value: Interval;
  readonly name: LimitName;
  readonly setting: Setting;
  readonly direction: Limit['direction'];
  readonly standing: Standing;
}

/** Stands an interval against the limit of this name as it is in force here; with a day, on that day. */
export function judge(value: Interval, name: LimitName, settings: Settings, on?: number): Judged {
  const setting = settings.limit(name, on);
  const { direction } = limitRow(name);
  return { value, name, setting, direction, standing: standingTo(setting.value, direction, value) };
}

function standingTo(limit: number, direction: Limit['direction'], { low, high }: Interval): Standing {
  const slack = Math.abs(limit) * REPRESENTATION;
  // By how much its better end is beyond the limit, and its worse one.
  const best = direction === 'at most' ? low - limit : limit - high;
  const worst = direction === 'at most' ? high - limit : limit - low;
  return best > slack ? 'exceeds' : worst > slack ? 'may exceed' : 'within';
}

/** The strictest of several limits that all hold: the smallest of those that say `at most`. */
export function strictest(names: readonly LimitName[], settings: Settings): LimitName {
  return names.reduce((strict, name) =>
    settings.limit(name).value < settings.limit(strict).value ? name : strict,
  );
}

const MOST_DIGITS = 4;

/** A number of the limit's dimension for people: `34.3 %`, `0.28`. */
export function showNumber(value: number, { unit: symbol }: Pick<Setting, 'unit'>, digits: number): string {
  const unit = unitOf(symbol);
  return unit ? inUnit(value, unit, digits) : plainNumber(value, digits);
}

/** An interval for people: `34.3 %`, `12.5..34.3 %`, `> 40 %`. */
export function showInterval(value: Interval, setting: Pick<Setting, 'unit'>, digits: number): string {
  if (isExact(value)) return showNumber(value.low, setting, digits);
  if (value.high === Number.POSITIVE_INFINITY) return `> ${showNumber(value.low, setting, digits)}`;
  const factor = unitOf(setting.unit)?.factor ?? 1;
  const low = plainNumber(value.low / factor, digits);
  const high = showNumber(value.high, setting, digits);
  return high.split(' ')[0] === low ? high : `${low}..${high}`;
}

/** As many decimals as it takes to tell an end of the figure from the limit. */
function digitsFor({ value, setting }: Judged): number {
  const factor = unitOf(setting.unit)?.factor ?? 1;
  const isTold = (end: number, digits: number): boolean => {
    const apart = Math.abs(end - setting.value);
    if (!Number.isFinite(end) || apart <= Math.abs(setting.value) * REPRESENTATION) return true;
    // Whatever is further apart than the last digit tells is not rounded to the same: nearly all of them.
    if (apart / factor > 1.01 * 10 ** -digits) return true;
    return showNumber(end, setting, digits) !== showNumber(setting.value, setting, digits);
  };
  let digits = setting.unit === '' ? 2 : 1;
  while (digits < MOST_DIGITS && !(isTold(value.low, digits) && isTold(value.high, digits))) digits++;
  return digits;
}

/** The figure of a judgement, for people. */
export const showValue = (judged: Judged): string =>
  showInterval(judged.value, judged.setting, digitsFor(judged));

/**
 * The limit of a judgement with what stands behind it, for people: `the limit of 33 % (Wagener 1963)`, or
 * `the limit of 30 % (Office limits)` where a practice block sets it.
 */
export function showLimit({ setting }: Pick<Judged, 'setting'>): string {
  const digits = setting.unit === '' ? 2 : 1;
  return `the limit of ${showNumber(setting.value, setting, digits)} (${authority(setting)})`;
}

/** Who says so: what allows it by itself, the practice block by name, else the source in short. */
export const authority = ({
  origin,
  citation,
  authorized,
}: Pick<Setting, 'origin' | 'citation' | 'authorized'>): string =>
  authorized?.by ?? (origin.from === 'practice' && origin.name !== undefined ? origin.name : citation.short);
