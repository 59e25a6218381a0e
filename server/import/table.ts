/** A table: named columns and rows of uninterpreted cells. */

export interface TableRow {
  /** Line of the file on which the row begins, 1-based. */
  readonly line: number;
  /** Trimmed; their number may differ from the number of columns. */
  readonly cells: readonly string[];
}

/** A table as far as it was read ahead: the first rows of a long one. */
export interface Table {
  /** Unique names, in order; a column without a heading is named `column 3`. */
  readonly columns: readonly string[];
  readonly rows: readonly TableRow[];
  readonly separator: Separator;
}

const SEPARATORS = [',', ';', '\t'] as const;
export type Separator = (typeof SEPARATORS)[number];

/** The table cannot be read at all: no heading line, an unclosed quotation mark. */
export class TableError extends Error {}

/** The most frequent separator in the heading line, outside quotation marks; a comma if there is none. */
export function separatorOf(text: string): Separator {
  const end = text.search(/[\r\n]/);
  const heading = (end < 0 ? text : text.slice(0, end)).replace(/"[^"]*"/g, '');
  const count = (separator: string) => heading.split(separator).length;
  return SEPARATORS.reduce((best, next) => (count(next) > count(best) ? next : best));
}

/**
 * @param lines the heading and the rows behind it
 * Rows longer than the heading are kept: extra cells get columns of their own.
 * Throws TableError.
 */
export function tableOf(lines: readonly TableRow[], separator: Separator): Table {
  const heading = lines[0]?.cells;
  if (!heading || heading.every(cell => cell === '')) throw new TableError('The table has no heading line.');
  if (heading.every(cell => cell === '' || /^[-+]?[\d.,]+$/.test(cell))) {
    throw new TableError('The first line holds numbers only; it has to name the columns.');
  }
  const width = lines.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  return { columns: uniqueNames(heading, width), rows: lines.slice(1), separator };
}

/** Name of a column without a heading. */
export const namelessColumn = (index: number): string => `column ${index + 1}`;

function uniqueNames(heading: readonly string[], width: number): string[] {
  const seen = new Map<string, number>();
  return Array.from({ length: width }, (_, index) => {
    const name = heading[index] || namelessColumn(index);
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return times === 1 ? name : `${name} (${times})`;
  });
}

/** The cells of a column, one per row. */
export const cellsOf = ({ rows }: Table, index: number): readonly string[] =>
  rows.map(({ cells }) => cells[index] ?? '');
