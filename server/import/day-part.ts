/** Days as tables write them. */

import { dayNumber, formatDate } from '../base/dates.ts';
import type { DateOrder } from '../practice/date-orders.ts';
import { factPart, leave, type PartReader, type Refused, type TableColumn, textOf } from './draft.ts';
import { fieldStart } from './notation.ts';
import { isNoValue } from './sizes.ts';
import { memoized } from './text.ts';

const ISO = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ].*)?$/;
const JOINED = /^(\d{4})(\d{2})(\d{2})(?:\d{6})?$/;
const NUMBERS = /^(\d{1,4})[/.-](\d{1,2})[/.-](\d{2,4})(?:,?\s.*)?$/;
const YEAR = /^(1[5-9]\d\d|20\d\d)(?:\.0+)?$/;

/** The order that the cells themselves tell: in 31/12/2020 the day is first. */
export function dayOrderOf(cells: readonly string[]): DateOrder | 'none' | 'mixed' | undefined {
  let dayFirst = false;
  let monthFirst = false;
  let numbers = 0;
  for (const cell of cells) {
    const [, first, second, third] = NUMBERS.exec(cell) ?? [];
    if (first === undefined || ISO.test(cell)) continue;
    if (first.length > 2) continue;
    numbers++;
    if (third!.length < 3) continue;
    if (Number(first) > 12) dayFirst = true;
    if (Number(second) > 12) monthFirst = true;
  }
  if (numbers === 0) return 'none';
  return dayFirst && monthFirst ? 'mixed' : dayFirst ? 'day first' : monthFirst ? 'month first' : undefined;
}

export const holdsDays = (cell: string): boolean =>
  [ISO, JOINED, NUMBERS, YEAR].some(form => form.test(cell)) || isNoValue(cell);

/** First days of calendars of programs: they stand for a day that is not known. Common practice. */
const PLACEHOLDERS = new Set(['1900-01-01', '1899-12-30', '1899-12-31', '1970-01-01', '9999-12-31']);

function readDay(cell: string, order: DateOrder | undefined): string | Refused {
  const text = cell.trim();
  const year = YEAR.exec(text)?.[1];
  if (year !== undefined) return `${year}-01-01`;
  const iso = ISO.exec(text) ?? JOINED.exec(text);
  const numbers = iso ? undefined : NUMBERS.exec(text);
  let parts = iso?.slice(1, 4).map(Number);
  if (numbers) {
    const [a, b, c] = numbers.slice(1, 4).map(Number) as [number, number, number];
    if (numbers[1]!.length === 4) parts = [a, b, c];
    else if (numbers[3]!.length < 4) return { refused: 'its year has two digits' };
    // German and other days with points are day first everywhere.
    else if (text.includes('.') || order === 'day first') parts = [c, b, a];
    else if (order === 'month first') parts = [c, a, b];
    else return { refused: 'it is not clear which number is the day and which the month' };
  }
  const day = parts && dayNumber(parts[0]!, parts[1]!, parts[2]!);
  if (day === undefined || parts![0]! < 1500) return { refused: 'it is not a date' };
  const written = formatDate(day);
  return PLACEHOLDERS.has(written) ? { refused: 'it stands for an unknown date' } : written;
}

const dayReader = ({ meaning: { days } }: TableColumn) =>
  memoized((cell: string): string | Refused => {
    if (isNoValue(cell) || /^0+$/.test(cell)) return { refused: 'it means that there is no value' };
    return readDay(cell, days);
  });

/** The day of something that happened to the tree. */
export function dayPart(column: TableColumn): PartReader {
  const read = dayReader(column);
  const start = fieldStart(column.meaning.kind);
  return factPart(column, cell => {
    const day = read(cell);
    return typeof day === 'string' ? start + day : day;
  });
}

/** An inspection, from the ground as towns do them. */
export function inspectionPart(column: TableColumn): PartReader {
  const read = dayReader(column);
  return (cells, draft) => {
    const cell = textOf(cells, column);
    if (cell === '') return;
    const day = read(cell);
    if (typeof day === 'string') draft.heads += `\n  inspection ${day} from ground\n`;
    else leave(draft, column, cell, day.refused);
  };
}
