/**
 * Rows and a mapping → the text of an inventory. No row is lost and no cell: what is not a sound value is kept
 * beside its tree as a comment with the reason, what the mapping has no meaning for as a note.
 */

import { tidy } from '../../grammar/tidy.ts';
import { type Mapping, MappingError, showMeaning } from './mapping.ts';
import type { Meaning } from './meanings.ts';
import { decimalComma } from './sizes.ts';
import type { Table } from './table.ts';
import { tagsOf } from './tags.ts';
import { type Column, type Leftover, oneLine, treeOf } from './tree.ts';

export interface Inventory {
  /** Tidy already. */
  readonly text: string;
  readonly trees: number;
  readonly leftovers: readonly Leftover[];
}

/** Order in which the fields of a tree are written. */
const ORDER: readonly Meaning['kind'][] = [
  'tag',
  'name',
  'species',
  'common-name',
  'position',
  'latitude',
  'longitude',
  'dbh',
  'girth',
  'height',
  'crown-base',
  'crown',
  'live-crown',
  'lean',
  'soil',
  'age',
  'vigor',
  'stressed',
  'protected',
  'felled',
  'note',
  'repeated',
];

/**
 * @param source name of the table, for the comment at the top
 * Throws MappingError where the mapping names a column that the table does not have.
 */
export function importTable(table: Table, mapping: Mapping, source: string): Inventory {
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
      comma: decimalComma(table, index),
    }),
  );
  const ordered = [...columns].sort((a, b) => ORDER.indexOf(a.meaning.kind) - ORDER.indexOf(b.meaning.kind));
  const tags = tagsOf(table.rows, columns.find(({ meaning }) => meaning.kind === 'tag')?.index);
  const trees = table.rows.map((row, index) => treeOf(row, ordered, tags[index]!));
  const read = columns.map(({ name, meaning }) => `${oneLine(name)} as ${showMeaning(meaning)}`).join(', ');
  const head = [
    `# From ${oneLine(source)}: ${table.rows.length} ${table.rows.length === 1 ? 'row' : 'rows'}.`,
    `# Read: ${read}.`,
  ];
  const text = [head, ...trees.map(({ lines }) => lines)].map(lines => lines.join('\n')).join('\n\n');
  return {
    text: tidy(text).text,
    trees: trees.length,
    leftovers: trees.flatMap(({ leftovers }) => leftovers),
  };
}
