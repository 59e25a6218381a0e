/** Columns of an exported table that repeat the ends of an interval from another column. */

import { leave, type PartReader, type TableColumn, textOf } from './draft.ts';

const END_OF_INTERVAL = /^(dbh|height|crown_base|crown_spread)_(?:low|high)_m$/;

/** The columns with the original size; none for any other column. */
export function writtenBeside(column: string): readonly string[] {
  const size = END_OF_INTERVAL.exec(column)?.[1];
  // A diameter may have been recorded as a girth.
  return size === undefined ? [] : size === 'dbh' ? [size, 'girth'] : [size];
}

/** Leaves a value over where the original is missing: one end of an interval is not a reading. */
export function repeatedPart(column: TableColumn, columns: readonly TableColumn[]): PartReader {
  const written = columns.filter(({ name }) => writtenBeside(column.name).includes(name));
  return (cells, draft) => {
    const cell = textOf(cells, column);
    if (cell !== '' && written.length > 0 && written.every(other => textOf(cells, other) === ''))
      leave(draft, column, cell, `${written.map(({ name }) => name).join(' and ')} say nothing`);
  };
}
