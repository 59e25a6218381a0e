/** Cells that are already in the notation. */

import { parseBlock } from '../../grammar/blocks.ts';
import { printValues, tidy } from '../../grammar/tidy.ts';
import type { Size, WrittenMeaning } from './meanings.ts';

const lineOf = (line: string) => parseBlock(`tree 1\n${line}`).lines[1]!;

/** A line of a tree in canonical format, indented; undefined if it is not valid. */
export function canonical(line: string): string | undefined {
  if (lineOf(line).mistake) return undefined;
  return tidy(`tree 1\n${line}`).text.split('\n')[1];
}

/** The line of a head inside a tree, canonical; undefined if it is not valid. */
export function canonicalHead(line: string): string | undefined {
  if (lineOf(line).mistake) return undefined;
  return tidy(`tree 1\n\n${line}`).text.split('\n')[2];
}

/** Indentation and name of a field as the formatter prints them. */
export const fieldStart = (word: string): string => `${`  ${word}`.padEnd(13)} `;

/** A field that has a single value of the same form as each size. */
const FIELD: Readonly<Record<Size, string>> = {
  dbh: 'dbh',
  girth: 'girth',
  height: 'height',
  crown: 'height',
  'crown-radius': 'height',
  'crown-base': 'height',
};

export interface WrittenSizes {
  /** In canonical format. */
  readonly text: string;
  readonly metres: readonly number[];
}

/**
 * The sizes of a cell written in the notation, including units: `5 ft 6 in`, `~11 in, 9 in at 4 ft`,
 * `unseen`. Undefined for any other cell, and for a size of 0.
 */
export function notationSizes(kind: Size, cell: string): WrittenSizes | undefined {
  // A comment is not part of a size.
  if (cell === '' || cell.includes('#')) return undefined;
  const line = lineOf(`${FIELD[kind]} ${cell}`);
  if (line.mistake) return undefined;
  const sizes = line.values.flatMap(value => (value.type === 'quantity' ? [value.quantity] : []));
  if (sizes.some(({ high }) => high === 0)) return undefined;
  const metres = sizes.map(({ low, high }) => (Number.isFinite(high) ? high : low));
  return { text: printValues(line), metres };
}

/** The line for a cell whose field takes the cell's text as is; `protected` may have no value. */
export const writtenLine = (kind: WrittenMeaning, cell: string): string =>
  cell === kind ? kind : `${kind} ${cell}`;
