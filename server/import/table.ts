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
  /** Lines above the heading: a title, a date, a source. */
  readonly above: readonly string[];
  /** What its rows are, if they are no lines: `Feature`; their numbers count them. */
  readonly rowsAre?: 'Feature';
}

const SEPARATORS = [',', ';', '\t', '|'] as const;
export type Separator = (typeof SEPARATORS)[number];

/** The table cannot be read at all: no heading line, an unclosed quotation mark. */
export class TableError extends Error {}

/** Lines that may stand above the heading. */
const MOST_ABOVE = 20;

/** Lines from which the separator is told. */
const LINES_ASKED = 40;

/** The separator that parts most lines as often, outside quotation marks; a comma if there is none. */
export function separatorOf(text: string): Separator {
  const lines = text
    .replace(/"[^"]*"/g, '')
    .split(/\r\n|\n|\r/)
    .slice(0, LINES_ASKED)
    .filter(line => line.trim() !== '');
  const rank = (separator: string) => {
    const counts = lines.map(line => line.split(separator).length - 1).filter(count => count > 0);
    const usual = mostOften(counts);
    // A last line may be cut off; commas stand in titles, too.
    return usual === undefined ? 0 : counts.filter(count => count === usual).length * 1000 + usual;
  };
  return SEPARATORS.reduce((best, next) => (rank(next) > rank(best) ? next : best));
}

function mostOften(values: readonly number[]): number | undefined {
  const times = new Map<number, number>();
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1);
  return [...times].reduce<readonly [number, number] | undefined>(
    (best, next) => (best && best[1] >= next[1] ? best : next),
    undefined,
  )?.[0];
}

const isFilled = (cell: string): boolean => cell !== '';

/** The line with the headings: the first one that fills most of the columns, behind titles and blank lines. */
function headingIndex(lines: readonly TableRow[]): number {
  const widths = lines.slice(0, 200).map(({ cells }) => cells.filter(isFilled).length);
  const usual = mostOften(widths.slice(1)) ?? 0;
  const found = widths.findIndex(
    (width, index) => width >= Math.max(2, usual * 0.6) && !isNumeric(lines[index]!.cells),
  );
  return found > 0 && found <= MOST_ABOVE && widths.slice(0, found).every(width => width * 2 <= usual)
    ? found
    : 0;
}

const isNumeric = (cells: readonly string[]): boolean =>
  cells.every(cell => cell === '' || /^[-+]?[\d.,]+$/.test(cell));

/**
 * @param lines the heading and the rows behind it
 * Rows longer than the heading are kept: extra cells get columns of their own.
 * Throws TableError.
 */
export function tableOf(lines: readonly TableRow[], separator: Separator): Table {
  const at = headingIndex(lines);
  const heading = lines[at]?.cells;
  if (!heading?.some(isFilled)) throw new TableError('The table has no heading line.');
  if (isNumeric(heading)) {
    throw new TableError('The first line contains only numbers; it must name the columns.');
  }
  const width = lines.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  return {
    columns: uniqueNames(heading, width),
    rows: lines.slice(at + 1),
    separator,
    above: lines.slice(0, at).map(({ cells }) => cells.filter(isFilled).join(' ')),
  };
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

/** Whether the table is an export of trees of this program, whose headings and cells are known. */
export const isExport = ({ columns }: Table): boolean =>
  ['tag', 'latitude_deg', 'dbh_low_m'].every(column => columns.includes(column));
