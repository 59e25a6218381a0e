/** What the notation itself can read in a cell. */

import { parseBlock } from '../../grammar/blocks.ts';
import type { Size, WrittenMeaning } from './meanings.ts';

/** Whether the notation reads a line of a tree as it stands. */
export const isSound = (line: string): boolean => lineOf(line).mistake === undefined;

const lineOf = (line: string) => parseBlock(`tree 1\n${line}`).lines[1]!;

/** The field in which the notation has each size by itself. */
const FIELD: Readonly<Record<Size, string>> = {
  dbh: 'dbh',
  girth: 'girth',
  height: 'height',
  crown: 'height',
  'crown-base': 'height',
};

/**
 * The sizes (m) of a cell that is written as the notation has it, units and all: `5 ft 6 in`, `~11 in, 9 in at
 * 4 ft`, `unseen`. Undefined for any other cell, and where a size is 0.
 */
export function notationSizes(kind: Size, cell: string): readonly number[] | undefined {
  // A line's comment is no part of a size.
  if (cell === '' || cell.includes('#')) return undefined;
  const { mistake, values } = lineOf(`${FIELD[kind]} ${cell}`);
  if (mistake) return undefined;
  const sizes = values.flatMap(value => (value.type === 'quantity' ? [value.quantity] : []));
  const metres = sizes.map(({ low, high }) => (Number.isFinite(high) ? high : low));
  return sizes.some(({ high }) => high === 0) ? undefined : metres;
}

/** The line of a cell that holds what stands behind a word; `protected` may stand alone. */
export const writtenLine = (kind: WrittenMeaning, cell: string): string =>
  cell === kind ? kind : `${kind} ${cell}`;
