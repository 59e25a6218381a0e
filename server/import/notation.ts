/** What the notation itself can read in a cell, and how it prints it. */

import { parseBlock } from '../../grammar/blocks.ts';
import { printValues, tidy } from '../../grammar/tidy.ts';
import type { Size, WrittenMeaning } from './meanings.ts';

const lineOf = (line: string) => parseBlock(`tree 1\n${line}`).lines[1]!;

/** A line of a tree in its canonical print, indented; undefined where the notation can't read it. */
export function canonical(line: string): string | undefined {
  if (lineOf(line).mistake) return undefined;
  return tidy(`tree 1\n${line}`).text.split('\n')[1];
}

/** What stands before the values of a field as the formatter prints it. */
export const fieldStart = (word: string): string => `${`  ${word}`.padEnd(13)} `;

/** The field in which the notation has each size by itself. */
const FIELD: Readonly<Record<Size, string>> = {
  dbh: 'dbh',
  girth: 'girth',
  height: 'height',
  crown: 'height',
  'crown-base': 'height',
};

export interface WrittenSizes {
  /** In their canonical print. */
  readonly text: string;
  readonly metres: readonly number[];
}

/**
 * The sizes of a cell that is written as the notation has it, units and all: `5 ft 6 in`, `~11 in, 9 in at 4 ft`,
 * `unseen`. Undefined for any other cell, and where a size is 0.
 */
export function notationSizes(kind: Size, cell: string): WrittenSizes | undefined {
  // A line's comment is no part of a size.
  if (cell === '' || cell.includes('#')) return undefined;
  const line = lineOf(`${FIELD[kind]} ${cell}`);
  if (line.mistake) return undefined;
  const sizes = line.values.flatMap(value => (value.type === 'quantity' ? [value.quantity] : []));
  if (sizes.some(({ high }) => high === 0)) return undefined;
  const metres = sizes.map(({ low, high }) => (Number.isFinite(high) ? high : low));
  return { text: printValues(line), metres };
}

/** The line of a cell that holds what stands behind a word; `protected` may stand alone. */
export const writtenLine = (kind: WrittenMeaning, cell: string): string =>
  cell === kind ? kind : `${kind} ${cell}`;
