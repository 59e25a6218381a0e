/**
 * Tables as comma-separated values (RFC 4180, UTF-8 with its mark). Importing and exporting that of the trees again returns the
 * same table.
 * Cells that a spreadsheet would take for a formula begin with an apostrophe, see import/inert.ts.
 */

import { formatDate } from '../base/dates.ts';
import { inertCell } from '../import/index.ts';
import type { RowForm } from './row-form.ts';
import { type Column, type ExportTree, RECORD_COLUMNS } from './tree-table.ts';

const quoted = (cell: string): string =>
  /[",\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

/** Without exponent; eight decimals are enough for every column. */
const inDecimals = (value: number): string => {
  const shown = String(value);
  return shown.includes('e') ? value.toFixed(8) : shown;
};

function cellOf<Row>({ of, type }: Column<Row>, row: Row): string {
  const value = of(row);
  if (value === undefined) return '';
  if (type === 'day') return formatDate(value as number);
  if (typeof value === 'number') return inDecimals(value);
  return quoted(inertCell(value));
}

const line = (cells: readonly string[]): string => `${cells.join(',')}\r\n`;

/** By which spreadsheets know that the text is UTF-8. */
const MARK = '\uFEFF';

export const csvForm = <Row>(columns: readonly Column<Row>[]): RowForm<Row> => ({
  head: MARK + line(columns.map(({ name }) => name)),
  row: row => line(columns.map(column => cellOf(column, row))),
  between: '',
  end: '',
});

/** What an import takes back. */
export const treesCsv: RowForm<ExportTree> = csvForm(RECORD_COLUMNS);
