/** Unmapped columns, kept as notes. */

import { LINE_LIMIT } from '../../grammar/lexical-errors.ts';
import { type PartReader, type TableColumn, textOf } from './draft.ts';
import { fieldStart } from './notation.ts';
import { oneLine, stringLiteral } from './text.ts';

/** Longest text in one note; a longer cell is split. */
const NOTE_LENGTH = 2000;

/** Columns headed "notes" need no column name before each note. */
const IS_NOTE = /^notes?$/i;

const START = fieldStart('note');

function noteLines(text: string, longest: number): string {
  if (text.length <= longest) return `${START}${stringLiteral(text)}\n`;
  const letters = [...text];
  let lines = '';
  for (let from = 0; from < letters.length; from += NOTE_LENGTH) {
    lines += `${START}${stringLiteral(
      letters
        .slice(from, from + NOTE_LENGTH)
        .join('')
        .trim(),
    )}\n`;
  }
  return lines;
}

/** Notes for a cell: one, prefixed with the column name; for a column of notes, one per line of the cell. */
export function notesOf(column: string, cell: string): string {
  if (!IS_NOTE.test(column)) return noteLines(oneLine(`${column}: ${cell}`), NOTE_LENGTH);
  let lines = '';
  for (const text of cell.split(/\r\n|\n|\r/)) {
    const note = oneLine(text);
    // Even with every quotation mark doubled and the indentation, this stays within the line limit.
    if (note !== '') lines += noteLines(note, LINE_LIMIT / 2 - 20);
  }
  return lines;
}

export const notePart =
  (column: TableColumn): PartReader =>
  (cells, draft) => {
    const cell = textOf(cells, column);
    if (cell !== '') draft.facts += notesOf(column.name, cell);
  };
