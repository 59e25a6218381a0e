/**
 * All facts, one JSON object in each line. Each has its `kind`, `file` and `line`; days are ISO 8601 dates. A
 * quantity is `shown` as it was written (of a girth the diameter in the same unit), with its `form`, and `low` and
 * `high` in the SI unit `unit` (shares of one, degrees, days); `high` is null where it has no upper end. An estimate
 * (`about`) has the value written at both ends: its margin is a matter of practice, not a fact.
 */

import { formatDate, formatMonthDay, type MonthDay } from '../base/dates.ts';
import { type Dimension, type Quantity, showQuantity } from '../base/quantity.ts';
import type { PlacedFact } from '../facts/file.ts';
import { jsonText } from './sanitize.ts';

export interface ExportFact {
  readonly placed: PlacedFact;
  /** As shown to people, with slashes. */
  readonly file: string;
}

const UNIT_NAMES: Readonly<Record<Dimension, string>> = {
  length: 'm',
  share: '1',
  angle: 'deg',
  speed: 'm/s',
  mass: 'kg',
  duration: 'days',
  voltage: 'V',
  number: '1',
};

/** Members that hold a day number wherever they stand. */
const DAYS: ReadonlySet<string> = new Set([
  'date',
  'seen',
  'dated',
  'done',
  'due',
  'until',
  'since',
  'felled',
  'closed',
  'withdrawn',
  'authorizedUntil',
  'from',
  'to',
]);

/** Places in the text, and what another fact of the same tree says. */
const LEFT_OUT: ReadonlySet<string> = new Set(['start', 'end', 'at', 'repeated', 'inspection']);

const isQuantity = (value: object): value is Quantity => 'form' in value && 'dimension' in value;
const isMonthDay = (value: object): value is MonthDay => 'month' in value && 'day' in value;
const isPlaced = (value: object): value is { readonly value: unknown } =>
  'value' in value && 'start' in value && Object.keys(value).length === 3;

/** Twelve digits drop what binary fractions add. */
const number = (value: number): number | null =>
  Number.isFinite(value) ? Number(value.toPrecision(12)) : null;

function plain(value: unknown, name: string): unknown {
  if (typeof value === 'number') return DAYS.has(name) ? formatDate(value) : value;
  if (Array.isArray(value)) return value.map(member => plain(member, name));
  if (typeof value !== 'object' || value === null) return value;
  if (isQuantity(value)) {
    const { form, low, high, dimension } = value;
    return {
      shown: showQuantity(value, 6),
      form,
      low: number(low),
      high: number(high),
      unit: UNIT_NAMES[dimension],
    };
  }
  if (isMonthDay(value)) return formatMonthDay(value);
  if (isPlaced(value)) return plain(value.value, name);
  return Object.fromEntries(
    Object.entries(value)
      .filter(([member, held]) => !LEFT_OUT.has(member) && held !== undefined)
      .map(([member, held]) => [member, plain(held, member)]),
  );
}

export const factsJsonLines = (facts: readonly ExportFact[]): string =>
  facts
    .map(({ placed, file }) => {
      const { kind, ...members } = placed.fact;
      const line = placed.firstLine + 1;
      return `${jsonText({ kind, file, line, ...(plain(members, '') as object) })}\n`;
    })
    .join('');
