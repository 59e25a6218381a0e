/**
 * Rows and a mapping → inventory text, row by row. No row or cell is lost: an invalid value is kept under its tree
 * as a comment with the reason, an unmapped column as a note.
 */

import { isLatin } from './botanical.ts';
import type { TableColumn } from './draft.ts';
import { type Mapping, noColumn, showMeaning } from './mapping.ts';
import { decimalSign } from './sizes.ts';
import { cellsOf, isExport, type Table, type TableRow } from './table.ts';
import { tagColumns } from './tag-columns.ts';
import { tagger } from './tags.ts';
import { oneLine } from './text.ts';
import { type TreeText, treeWriter } from './tree.ts';

export interface InventoryWriter {
  /** The comment at the top. */
  readonly head: string;
  /** The text of the next tree, after an empty line; already in canonical format. */
  readonly tree: (row: TableRow) => TreeText;
}

/**
 * @param table as far as it was read ahead
 * @param source name of the table, for the comment at the top
 * Throws MappingError where the mapping names a column that the table does not have.
 */
export function inventoryWriter(
  table: Table,
  mapping: Mapping,
  source: string,
  region?: string,
): InventoryWriter {
  for (const column of mapping.keys()) if (!table.columns.includes(column)) throw noColumn(table, column);
  const columns = table.columns.map(
    (name, index): TableColumn => ({
      name,
      index,
      meaning: mapping.get(name) ?? { kind: 'note' },
      sign: decimalSign(cellsOf(table, index), table.separator),
    }),
  );
  const own = tagger();
  const hasTags = columns.some(({ meaning }) => meaning.kind === 'tag');
  const isNote = (index: number) => columns[index]!.meaning.kind === 'note';
  const { taken, others } = tagColumns(table, isNote);
  const hasFormer = columns.some(({ meaning }) => meaning.kind === 'formerly');
  // New tags must not look like numbers of the table.
  const byRow = taken !== undefined || others.length > 0 || hasFormer;
  let rows = 0;
  const write = treeWriter(
    columns,
    table.separator,
    (cell, line) => {
      rows++;
      if (cell !== undefined) return own(cell, line);
      return {
        tag: byRow ? `row-${line}` : String(rows),
        reason: 'no column is read as the tag; name one with --tag COLUMN',
      };
    },
    { region, isLatin: hasLatin(columns, table), isExport: isExport(table) },
    table.rowsAre,
  );
  const read = columns.map(({ name, meaning }) => `${oneLine(name)} as ${showMeaning(meaning)}`).join(', ');
  const above = table.above.map(line => `# ${oneLine(line)}\n`).join('');
  return {
    head: `# From ${oneLine(source)}.\n# Read: ${read}.\n${above}${hasTags ? '' : '# The tags are new, because no column is read as the tag.\n'}`,
    tree: row => {
      const tree = write(row);
      return tree.apart === undefined ? { ...tree, text: `\n${tree.text}` } : tree;
    },
  };
}

/** Whether most of the names that the table calls the species are botanical ones. */
function hasLatin(columns: readonly TableColumn[], table: Table): boolean {
  const column = columns.find(({ meaning }) => meaning.kind === 'species');
  if (!column) return columns.some(({ meaning }) => meaning.kind === 'genus');
  const names = [...new Set(cellsOf(table, column.index).filter(cell => cell !== ''))];
  return names.filter(isLatin).length > names.length * 0.6;
}
