/** A tree being read from its row, and readers of its columns. */

import { textOfCell } from './inert.ts';
import type { Meaning } from './meanings.ts';
import type { DecimalSign } from './sizes.ts';

export interface TableColumn {
  readonly name: string;
  readonly index: number;
  readonly meaning: Meaning;
  /** From the rows read ahead; if undefined, the first unambiguous cell decides. */
  readonly sign: DecimalSign | undefined;
}

/** A cell that was not imported. */
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
  /** What stands below the fields, with its own head: inspections, prescriptions. */
  heads: string;
  readonly leftovers: Leftover[];
  /** Names of mapped columns that are empty in this row. */
  readonly empty: string[];
  /** Whether a name or a status says that the tree is dead. */
  isDead: boolean;
  /** Tags in the table that are already used by another tree. */
  readonly former: readonly string[];
}

/** Why a cell is not imported. */
export interface Refused {
  readonly refused: string;
}

/** Reads one or several columns of a row into the draft. */
export type PartReader = (cells: readonly string[], draft: TreeDraft) => void;

/** The text of a column in a row; empty where the row is too short or there is no column. */
export const textOf = (cells: readonly string[], column: TableColumn | undefined): string =>
  column === undefined ? '' : textOfCell(cells[column.index] ?? '');

export function leave(draft: TreeDraft, { name }: TableColumn, value: string, reason: string): void {
  draft.leftovers.push({ line: draft.line, column: name, value, reason });
}

/** Reader of a column whose cells each make one line. */
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
