/** Columns of an exported table with the ends of what another one has as it was written. */

import { leave, type PartReader, type TableColumn, textOf } from './draft.ts';

const END_OF_INTERVAL = /^(dbh|height|crown_base|crown_spread)_(?:low|high)_m$/;

/** The columns that have it as it was written; none for a column that is no such end. */
export function writtenBeside(column: string): readonly string[] {
  const size = END_OF_INTERVAL.exec(column)?.[1];
  // A diameter may come from a girth.
  return size === undefined ? [] : size === 'dbh' ? [size, 'girth'] : [size];
}

/** Says where there is nothing that it repeats: the end of a size alone is no reading. */
export function repeatedPart(column: TableColumn, columns: readonly TableColumn[]): PartReader {
  const written = columns.filter(({ name }) => writtenBeside(column.name).includes(name));
  return (cells, draft) => {
    const cell = textOf(cells, column);
    if (cell !== '' && written.length > 0 && written.every(other => textOf(cells, other) === ''))
      leave(draft, column, cell, `${written.map(({ name }) => name).join(' and ')} say nothing`);
  };
}
