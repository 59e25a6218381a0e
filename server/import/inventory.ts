/**
 * Rows and a mapping → the text of an inventory, row by row. No row is lost and no cell: what is not a sound value is
 * kept beside its tree as a comment with the reason, what the mapping has no meaning for as a note.
 */

import type { Column, Leftover } from './draft.ts';
import { type Mapping, MappingError, showMeaning } from './mapping.ts';
import { decimalSign } from './sizes.ts';
import { cellsOf, type Row, type Table } from './table.ts';
import { tagger } from './tags.ts';
import { oneLine } from './text.ts';
import { treeWriter } from './tree.ts';

export interface InventoryWriter {
  /** The comment at the top. */
  readonly head: string;
  /** The text of one more tree, behind an empty line. All of it together is tidy. */
  readonly tree: (row: Row) => { readonly text: string; readonly leftovers: readonly Leftover[] };
}

/**
 * @param table as far as it was read ahead
 * @param source name of the table, for the comment at the top
 * Throws MappingError where the mapping names a column that the table does not have.
 */
export function inventoryWriter(table: Table, mapping: Mapping, source: string): InventoryWriter {
  const stranger = [...mapping.keys()].find(column => !table.columns.includes(column));
  if (stranger !== undefined) {
    throw new MappingError(
      `The table has no column "${stranger}"; it has ${table.columns.map(name => `"${name}"`).join(', ')}.`,
    );
  }
  const columns = table.columns.map(
    (name, index): Column => ({
      name,
      index,
      meaning: mapping.get(name) ?? { kind: 'note' },
      sign: decimalSign(cellsOf(table, index), table.separator),
    }),
  );
  const own = tagger();
  let rows = 0;
  const write = treeWriter(columns, table.separator, (cell, line) => {
    rows++;
    return cell === undefined ? { tag: String(rows) } : own(cell, line);
  });
  const read = columns.map(({ name, meaning }) => `${oneLine(name)} as ${showMeaning(meaning)}`).join(', ');
  return {
    head: `# From ${oneLine(source)}.\n# Read: ${read}.\n`,
    tree: row => {
      const { text, leftovers } = write(row);
      return { text: `\n${text}`, leftovers };
    },
  };
}
