/** Open prescriptions, and formatting of lengths and limits. */

import { lengthDigits, rounded } from '../base/figures.ts';
import { REPRESENTATION } from '../base/interval.ts';
import { plainNumber, type Quantity, unitOf, withUnit } from '../base/quantity.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import { UNREAD } from '../facts/placed.ts';
import type { Setting } from '../facts/settings.ts';
import { stagesLeft } from '../facts/stages.ts';
import type { Prescription, Tree, Work } from '../facts/types.ts';
import { prescriptionsInForce } from './jobs.ts';
import { authority } from './judge.ts';

/** Kinds without work at the tree. */
const WAITING: ReadonlySet<Prescription['kind']['value']> = new Set(['keep', 'watch']);

/** Prescriptions of any kind in force with outstanding work; none on a felled tree. */
export function openPrescriptionsOfAnyKind(tree: Tree): readonly Prescription[] {
  if (tree.felled) return [];
  return prescriptionsInForce(tree).filter(prescription => stagesLeft(tree, prescription) > 0);
}

/** Open prescriptions with work at the tree, including cables and investigations. */
export const openWork = (tree: Tree): readonly Prescription[] =>
  openPrescriptionsOfAnyKind(tree).filter(({ kind }) => !WAITING.has(kind.value));

/** Whether the tree itself is felled; `fell` with parts to remove takes only these. */
export const fellsTree = ({ kind, remove }: Prescription): boolean =>
  kind.value === 'fell' && remove.length === 0;

/** Whether nothing remains to prune: felled, or retained as a trunk. */
export const endsTree = (prescription: Prescription): boolean =>
  fellsTree(prescription) || prescription.kind.value === 'monolith';

/** Whether two prescriptions have the same kind, defects and parts. */
export function asksTheSame(a: Prescription, b: Prescription): boolean {
  const words = ({ kind, for: causes, remove }: Prescription) =>
    [kind, ...[...causes, ...remove].sort((x, y) => (x.value < y.value ? -1 : 1))]
      .map(({ value }) => value)
      .join(' ');
  return words(a) === words(b);
}

/** Whether one reduces the crown and the other thins it. */
export const areReduceAndThin = (a: Prescription, b: Prescription): boolean =>
  (a.kind.value === 'reduce' && b.kind.value === 'thin') ||
  (a.kind.value === 'thin' && b.kind.value === 'reduce');

/** Whether the stated windows of two prescriptions are at least so many days apart. */
export const areApart = (a: Prescription, b: Prescription, days: number): boolean =>
  a.between !== undefined &&
  b.between !== undefined &&
  (a.between.from - b.between.to >= days || b.between.from - a.between.to >= days);

/** `reduce R1`. */
export const jobName = ({ kind, id }: Prescription): string =>
  kind.value === UNREAD ? id.value : `${kind.value} ${id.value}`;

/** The rest of the window from `today` on; undefined if none is stated or it is past. */
export function daysLeft({ between }: Prescription, today: number): DaySpan | undefined {
  if (!between || between.to < today) return undefined;
  return { from: Math.max(between.from, today), to: between.to };
}

/** A length in the unit of the first quantity that has one, else in feet. */
export function lengthLike(metres: number, ...like: readonly (Quantity | undefined)[]): string {
  const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf('ft')!;
  const size = metres / unit.factor;
  return `${plainNumber(size, lengthDigits(unit, size))} ${unit.symbol}`;
}

/**
 * A length required by a limit in the unit of a quantity, rounded to the strict side, so that the value as shown is
 * within the limit; exact ones are kept. Undefined for no or infinite length.
 */
const lengthRounded =
  (round: (value: number) => number, slack: number) =>
  (metres: number, ...like: readonly (Quantity | undefined)[]): string | undefined => {
    const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf('ft')!;
    const digits = lengthDigits(unit, metres / unit.factor);
    const scaled = (metres / unit.factor) * 10 ** digits;
    const value = round(scaled * (1 + slack)) / 10 ** digits;
    return value > 0 && Number.isFinite(value) ? withUnit(plainNumber(value, digits), unit) : undefined;
  };

/** `26.3 ft` or more. */
export const lengthUp = lengthRounded(Math.ceil, -REPRESENTATION);
/** `26.2 ft` or less. */
export const lengthDown = lengthRounded(Math.floor, REPRESENTATION);

/**
 * A limit of length in the unit of the first quantity that has one, else in its own, rounded to the strict side: one of
 * 4 in is 100 mm, not 101.
 */
export function lengthLimitLike(
  setting: Setting,
  ...like: readonly (Pick<Quantity, 'unit'> | undefined)[]
): string {
  const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf(setting.unit)!;
  const size = setting.value / unit.factor;
  const isConverted =
    unit.symbol !== setting.unit && size >= 1 && (unit.symbol === 'mm' || unit.symbol === 'cm');
  const digits = isConverted ? 1 - Math.floor(Math.log10(size)) : lengthDigits(unit, size);
  const strict = rounded(size, digits, setting.direction === 'at most' ? 'down' : 'up');
  return withUnit(plainNumber(strict, Math.max(0, digits)), unit);
}

/** The same with its authority: `50 ft (common practice)`. */
export const limitLike = (setting: Setting, ...like: readonly (Quantity | undefined)[]): string =>
  `${lengthLimitLike(setting, ...like)} (${authority(setting)})`;

/** The latest work done under a prescription. */
export const lastWorkUnder = ({ works }: Tree, { id }: Prescription): Work | undefined =>
  works
    .filter(({ prescription }) => prescription.value === id.value)
    .toSorted((a, b) => a.date.value - b.date.value)
    .at(-1);
