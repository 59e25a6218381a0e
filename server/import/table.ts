/** A CSV text → columns and rows of plain text. The separator is found out; nothing is interpreted yet. */

import { CsvError, parse } from 'csv-parse/sync';

export interface Row {
  /** Line of the file on which the row begins, 1-based. */
  readonly line: number;
  /** One cell for each column, trimmed; cells that the row lacks are empty. */
  readonly cells: readonly string[];
}

export interface Table {
  /** Unique names, in order; a column without heading is called `column 3`. */
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
  readonly separator: Separator;
}

export const SEPARATORS = [',', ';', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number];

/** The table can't be read at all: no heading line, a quotation mark never closed. */
export class TableError extends Error {}

interface Read {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

/**
 * Reads comma, semicolon or tab separated text, with or without byte order mark. Rows that are longer or
 * shorter than the heading are kept: further cells get columns of their own.
 * Throws TableError.
 */
export function readTable(text: string): Table {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const separator = separatorOf(plain);
  const lines: string[][] = [];
  const starts: number[] = [];
  let nextLine = 1;
  try {
    const read = parse(plain, {
      delimiter: separator,
      relax_column_count: true,
      relax_quotes: true,
      info: true,
    }) as unknown as readonly Read[];
    for (const { record, info } of read) {
      starts.push(nextLine);
      nextLine = info.lines + 1;
      lines.push(record.map(cell => cell.trim()));
    }
  } catch (error) {
    if (error instanceof CsvError) throw new TableError(`${error.message.replace(/\.?$/, '.')}`);
    throw error;
  }
  const heading = lines[0];
  if (!heading || heading.every(cell => cell === '')) throw new TableError('The table has no heading line.');
  if (heading.every(cell => cell === '' || /^[-+]?[\d.,]+$/.test(cell))) {
    throw new TableError('The first line holds numbers only; it has to name the columns.');
  }
  const width = lines.reduce((most, cells) => Math.max(most, cells.length), 0);
  const rows = lines
    .map((cells, index) => ({
      line: starts[index]!,
      cells: [...cells, ...Array(width - cells.length).fill('')],
    }))
    .slice(1)
    .filter(row => row.cells.some(cell => cell !== ''));
  return { columns: uniqueNames(heading, width), rows, separator };
}

/** The separator that stands most often in the heading line, outside quotation marks; a comma if none does. */
function separatorOf(text: string): Separator {
  const end = text.search(/[\r\n]/);
  const heading = (end < 0 ? text : text.slice(0, end)).replace(/"[^"]*"/g, '');
  const count = (separator: string) => heading.split(separator).length;
  return SEPARATORS.reduce((best, next) => (count(next) > count(best) ? next : best));
}

function uniqueNames(heading: readonly string[], width: number): string[] {
  const seen = new Map<string, number>();
  return Array.from({ length: width }, (_, index) => {
    const name = heading[index] || `column ${index + 1}`;
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return times === 1 ? name : `${name} (${times})`;
  });
}
