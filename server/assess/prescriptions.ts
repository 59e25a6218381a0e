/** Prescriptions by what they still ask of people: who goes to the tree, and what comes down. */

import { REPRESENTATION } from '../base/interval.ts';
import { plainNumber, type Quantity, type Unit, unitOf, withUnit } from '../base/quantity.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import { UNREAD } from '../facts/lines.ts';
import type { Setting } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import { stagesOf, standingPrescriptions } from './jobs.ts';
import { authority } from './judge.ts';

/** Prescriptions that send nobody to the tree. */
const WAITING: ReadonlySet<string> = new Set(['keep', 'watch']);

/** Standing prescriptions of any kind that still wait for all or part of their work; none on a felled tree. */
export function openPrescriptionsOfAnyKind(tree: Tree): readonly Prescription[] {
  if (tree.felled) return [];
  const timesDone = (id: string) => tree.works.filter(({ prescription }) => prescription.value === id).length;
  return standingPrescriptions(tree).filter(
    prescription => timesDone(prescription.id.value) < stagesOf(prescription),
  );
}

/** Open prescriptions that send somebody to the tree, cables and investigations among them. */
export const openWork = (tree: Tree): readonly Prescription[] =>
  openPrescriptionsOfAnyKind(tree).filter(({ kind }) => !WAITING.has(kind.value));

/** Whether the tree itself is felled; `fell` with parts to remove takes only those. */
export const fellsTree = ({ kind, remove }: Prescription): boolean =>
  kind.value === 'fell' && remove.length === 0;

/** Whether nothing of the tree is left to prune: felled, or kept as a trunk. */
export const endsTree = (prescription: Prescription): boolean =>
  fellsTree(prescription) || prescription.kind.value === 'monolith';

/** Whether two prescriptions ask for the same kind of work, for the same defects and on the same parts. */
export function asksTheSame(a: Prescription, b: Prescription): boolean {
  const words = ({ kind, for: causes, remove }: Prescription) =>
    [kind, ...[...causes, ...remove].sort((x, y) => (x.value < y.value ? -1 : 1))]
      .map(({ value }) => value)
      .join(' ');
  return words(a) === words(b);
}

/** Whether one shortens the crown and the other thins it. */
export const areReduceAndThin = (a: Prescription, b: Prescription): boolean =>
  (a.kind.value === 'reduce' && b.kind.value === 'thin') ||
  (a.kind.value === 'thin' && b.kind.value === 'reduce');

/** Whether so many days lie between the windows of two prescriptions, as far as they are stated. */
export const areApart = (a: Prescription, b: Prescription, days: number): boolean =>
  a.between !== undefined &&
  b.between !== undefined &&
  (a.between.from - b.between.to >= days || b.between.from - a.between.to >= days);

/** For people: `reduce R1`. */
export const jobName = ({ kind, id }: Prescription): string =>
  kind.value === UNREAD ? id.value : `${kind.value} ${id.value}`;

/** What remains of the window from `today` on; undefined where none is stated or it is past. */
export function daysLeft({ between }: Prescription, today: number): DaySpan | undefined {
  if (!between || between.to < today) return undefined;
  return { from: Math.max(between.from, today), to: between.to };
}

/** Metres need a second decimal to tell what a tenth of a foot tells. */
const digitsOf = ({ symbol }: Unit): number => (symbol === 'm' ? 2 : 1);

/** A length for people in the writer's unit: that of the first quantity that has one, else feet. */
export function lengthLike(metres: number, ...like: readonly (Quantity | undefined)[]): string {
  const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf('ft')!;
  return `${plainNumber(metres / unit.factor, digitsOf(unit))} ${unit.symbol}`;
}

/**
 * A length in the writer's unit that a limit asks for, rounded to the strict side, so that what is written as told
 * keeps the limit; a length that is round already stays it. Undefined where no length is left, or it has no end.
 */
const lengthRounded =
  (round: (value: number) => number, slack: number) =>
  (metres: number, ...like: readonly (Quantity | undefined)[]): string | undefined => {
    const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf('ft')!;
    const digits = digitsOf(unit);
    const scaled = (metres / unit.factor) * 10 ** digits;
    const value = round(scaled * (1 + slack)) / 10 ** digits;
    return value > 0 && Number.isFinite(value) ? withUnit(plainNumber(value, digits), unit) : undefined;
  };

/** `26.3 ft` or more. */
export const lengthUp = lengthRounded(Math.ceil, -REPRESENTATION);
/** `26.2 ft` or less. */
export const lengthDown = lengthRounded(Math.floor, REPRESENTATION);

const TENTHS = 10;

/** A limit of length in the writer's unit, to a tenth of it on the strict side. */
function lengthLimitLike(setting: Setting, ...like: readonly (Quantity | undefined)[]): string {
  const unit = like.find(quantity => quantity?.unit)?.unit ?? unitOf('ft')!;
  const tenths = (setting.value / unit.factor) * TENTHS;
  const slack = Math.abs(tenths) * REPRESENTATION;
  const strict = setting.direction === 'at most' ? Math.floor(tenths + slack) : Math.ceil(tenths - slack);
  return `${plainNumber(strict / TENTHS, 1)} ${unit.symbol}`;
}

/** A limit of length in the writer's unit, with who says so: `50 ft (common practice)`. */
export const limitLike = (setting: Setting, ...like: readonly (Quantity | undefined)[]): string =>
  `${lengthLimitLike(setting, ...like)} (${authority(setting)})`;
