/**
 * A mapping gives the meaning of each column: `{"Girth": "dbh in", "Species": "species"}`. It is guessed from the
 * headings and the cells (guess.ts), and whoever knows the table answers what is open or edits it as a file. What is
 * open ends in a question mark, and is not read before somebody decides.
 */

import { nearest } from '../../grammar/nearest.ts';
import type { DateOrder } from '../practice/date-orders.ts';
import { isKnownGrid, readGrid } from './grid.ts';
import {
  isDay,
  isGrid,
  isLengthUnit,
  isPlainMeaning,
  isSize,
  LENGTH_UNITS,
  type Meaning,
  PLAIN_MEANINGS,
  POINT_ORDERS,
  type PointOrder,
  SIZES,
} from './meanings.ts';
import { cellsOf, type Table } from './table.ts';
import { oneLine } from './text.ts';

export type Mapping = ReadonlyMap<string, Meaning>;

/** Uses another column as the tag, or none. Throws MappingError for an unknown column. */
export function withTag(table: Table, mapping: Mapping, column: string | undefined): Mapping {
  const changed = new Map(mapping);
  for (const [other, { kind }] of mapping) if (kind === 'tag') changed.set(other, { kind: 'note' });
  if (column !== undefined) changed.set(columnNamed(table, column), { kind: 'tag' });
  return changed;
}

/** Matched exactly, else ignoring case. */
function columnNamed(table: Table, name: string): string {
  const plain = (text: string) => text.trim().toLowerCase();
  const { columns } = table;
  const found =
    columns.find(column => column === name) ?? columns.find(column => plain(column) === plain(name));
  if (found === undefined) throw noColumn(table, name);
  return found;
}

export const noColumn = ({ columns }: Table, name: string): MappingError =>
  new MappingError(
    `The table has no column "${name}"; it has ${columns.map(column => `"${column}"`).join(', ')}.`,
  );

/** An invalid mapping file: not JSON, an unknown meaning, a missing unit, something open. */
export class MappingError extends Error {}

/** Orders of the numbers in a day, in one word. */
const DAY_ORDERS: ReadonlyMap<string, DateOrder> = new Map([
  ['month-first', 'month first'],
  ['day-first', 'day first'],
  ['year-first', 'year first'],
]);

/** Behind a meaning that is open. */
const OPEN = '?';

export const showMeaning = ({ kind, unit, crs, order, days, isOpen }: Meaning): string =>
  [kind, unit ?? crs ?? order ?? days?.replace(' ', '-'), isOpen ? OPEN : undefined]
    .filter(part => part !== undefined)
    .join(' ');

/** The mapping as the file that a user edits. */
export function showMapping(mapping: Mapping): string {
  const shown = [...mapping].map(([column, meaning]) => {
    const { values } = meaning;
    const text = showMeaning(meaning);
    return [column, values ? { means: text, values: Object.fromEntries(values) } : text] as const;
  });
  return `${JSON.stringify(Object.fromEntries(shown), null, 2)}\n`;
}

/** Each column with its meaning and its first value, as a table. */
export function mappingWords(table: Table, mapping: Mapping): string {
  const lines = table.columns.map((column, index) => {
    const meaning = mapping.get(column) ?? { kind: 'note' };
    const example = oneLine(cellsOf(table, index).find(cell => cell !== '') ?? '');
    const shown = example.length > LONGEST_EXAMPLE ? `${example.slice(0, LONGEST_EXAMPLE)}…` : example;
    return [oneLine(column), showMeaning(meaning), shown === '' ? '(empty so far)' : shown] as const;
  });
  const [first, second] = [0, 1].map(i => Math.max(...lines.map(line => line[i]!.length)));
  return lines
    .map(([column, meaning, shown]) => `${column.padEnd(first!)}  ${meaning.padEnd(second!)}  ${shown}\n`)
    .join('');
}

const LONGEST_EXAMPLE = 40;

/** Meanings that several columns may have. */
const MANY = new Set(['note', 'repeated', 'inspected', 'job']);

/** Reads a mapping file. Throws MappingError. */
export function readMapping(text: string): Mapping {
  let read: unknown;
  try {
    read = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new MappingError(`The mapping is not valid JSON: ${(error as Error).message}.`);
  }
  if (typeof read !== 'object' || read === null || Array.isArray(read)) {
    throw new MappingError('The mapping must be one object, such as {"Girth": "dbh in"}.');
  }
  const mapping = new Map<string, Meaning>();
  const columnOf = new Map<string, string>();
  for (const [column, written] of Object.entries(read)) {
    const meaning = columnMeaning(column, written);
    const other = columnOf.get(meaning.kind);
    if (other !== undefined && !MANY.has(meaning.kind)) {
      throw new MappingError(
        `"${other}" and "${column}" both mean ${meaning.kind}; only notes may have several columns.`,
      );
    }
    columnOf.set(meaning.kind, column);
    mapping.set(column, meaning);
  }
  return mapping;
}

function columnMeaning(column: string, written: unknown): Meaning {
  if (typeof written !== 'object' || written === null || !('means' in written))
    return readMeaning(column, written);
  const meaning = readMeaning(column, written.means);
  const values = 'values' in written ? written.values : {};
  const isTexts =
    typeof values === 'object' &&
    values !== null &&
    Object.values(values).every(value => typeof value === 'string');
  if (!isTexts)
    throw new MappingError(`"${column}": values must be one object of texts, such as {"Buono": "good"}.`);
  return { ...meaning, values: new Map(Object.entries(values as Record<string, string>)) };
}

/** Reads what is written for a column. Throws MappingError. */
export function readMeaning(column: string, text: unknown): Meaning {
  const [kind = '', detail, ...more] = typeof text === 'string' ? text.trim().split(/\s+/) : [];
  if (detail === OPEN || more.includes(OPEN))
    throw new MappingError(
      `"${column}": ${JSON.stringify(text)} is undecided. Remove the question mark if it is right, or write another meaning, or "note".`,
    );
  if (more.length === 0 && isSize(kind)) {
    if (detail !== undefined && isLengthUnit(detail)) return { kind, unit: detail };
    throw new MappingError(
      `"${column}": ${kind} needs one of the units ${LENGTH_UNITS.join(', ')}, as in "${kind} ft".`,
    );
  }
  if (more.length === 0 && isPlainMeaning(kind)) {
    if (isGrid(kind)) {
      const crs = detail === undefined ? undefined : readGrid(detail);
      if (crs !== undefined && isKnownGrid(crs)) return { kind, crs };
      throw new MappingError(
        `"${column}": ${kind} needs the EPSG code of its grid, as in "${kind} EPSG:25833"${crs === undefined ? '' : `; ${crs} is not a known grid`}.`,
      );
    }
    if (detail === undefined) return { kind };
    const days = DAY_ORDERS.get(detail);
    if (isDay(kind) && days !== undefined) return { kind, days };
    const crs = kind === 'position' ? readGrid(detail) : undefined;
    if (crs !== undefined && isKnownGrid(crs)) return { kind, crs };
    if (kind === 'position' && (POINT_ORDERS as readonly string[]).includes(detail))
      return { kind, order: detail as PointOrder };
  }
  const meanings = [...SIZES, ...PLAIN_MEANINGS];
  const near = nearest(kind, meanings);
  throw new MappingError(
    `"${column}": ${JSON.stringify(text)} is not a meaning of a column.${near ? ` Did you mean ${near}?` : ''} ` +
      `Meanings are ${meanings.join(', ')}.`,
  );
}
