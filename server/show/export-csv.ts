/**
 * Trees as comma-separated values (RFC 4180, UTF-8). Importing and exporting the table again returns the same table.
 * Cells that a spreadsheet would take for a formula begin with an apostrophe, see import/inert.ts.
 */

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

function cellOf({ of }: Column, tree: ExportTree): string {
  const value = of(tree);
  if (value === undefined) return '';
  if (typeof value === 'number') return inDecimals(value);
  return quoted(inertCell(value));
}

const line = (cells: readonly string[]): string => `${cells.join(',')}\r\n`;

export const treesCsv: RowForm<ExportTree> = {
  head: line(RECORD_COLUMNS.map(({ name }) => name)),
  row: tree => line(RECORD_COLUMNS.map(column => cellOf(column, tree))),
  between: '',
  end: '',
};
