/** A tree while its row is being read, and what reads a part of it. */

import { textOfCell } from './inert.ts';
import type { Meaning } from './meanings.ts';
import type { DecimalSign } from './sizes.ts';

export interface TableColumn {
  readonly name: string;
  readonly index: number;
  readonly meaning: Meaning;
  /** As far as the table was read ahead; after that the first cell that tells decides. */
  readonly sign: DecimalSign | undefined;
}

/** A cell that did not become a fact. */
export interface Leftover {
  /** Line of the table, 1-based. */
  readonly line: number;
  readonly column: string;
  readonly value: string;
  readonly reason: string;
}

export interface TreeDraft {
  /** Line of the table, 1-based. */
  readonly line: number;
  /** The lines of the tree in canonical print, each with its line end. */
  facts: string;
  readonly leftovers: Leftover[];
  /** Names of columns that have a meaning and are empty here. */
  readonly empty: string[];
  /** Tags of the table that another tree has. */
  readonly former: readonly string[];
}

/** Why a cell becomes no fact. */
export interface Refused {
  readonly refused: string;
}

/** Reads the cells of one row as far as they are its matter. */
export type PartReader = (cells: readonly string[], draft: TreeDraft) => void;

/** The text of a column in a row; empty where the row is too short or the column is none. */
export const textOf = (cells: readonly string[], column: TableColumn | undefined): string =>
  column === undefined ? '' : textOfCell(cells[column.index] ?? '');

export function leave(draft: TreeDraft, { name }: TableColumn, value: string, reason: string): void {
  draft.leftovers.push({ line: draft.line, column: name, value, reason });
}

/** A column whose cell is one fact. */
export const factPart =
  (column: TableColumn, read: (cell: string) => string | Refused): PartReader =>
  (cells, draft) => {
    const cell = textOf(cells, column);
    if (cell === '') {
      draft.empty.push(column.name);
      return;
    }
    const line = read(cell);
    if (typeof line === 'string') draft.facts += `${line}\n`;
    else leave(draft, column, cell, line.refused);
  };
