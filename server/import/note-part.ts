/** Texts that the notation has no field for, kept as notes. */

import { LINE_LIMIT } from '../../grammar/spoiled.ts';
import { type PartReader, type TableColumn, textOf } from './draft.ts';
import { fieldStart } from './notation.ts';
import { oneLine, quoted } from './text.ts';

/** Longest stretch of text in one note; a longer cell goes on in the next. */
const NOTE_LENGTH = 2000;

/** Columns that are notes by their own name need no name before each of them. */
const IS_NOTE = /^notes?$/i;

const START = fieldStart('note');

function noteLines(text: string, longest: number): string {
  if (text.length <= longest) return `${START}${quoted(text)}\n`;
  const letters = [...text];
  let lines = '';
  for (let from = 0; from < letters.length; from += NOTE_LENGTH) {
    lines += `${START}${quoted(
      letters
        .slice(from, from + NOTE_LENGTH)
        .join('')
        .trim(),
    )}\n`;
  }
  return lines;
}

/** The notes of a cell: one under the name of its column; in a column of notes one for each line of the cell. */
export function notesOf(column: string, cell: string): string {
  if (!IS_NOTE.test(column)) return noteLines(oneLine(`${column}: ${cell}`), NOTE_LENGTH);
  let lines = '';
  for (const text of cell.split(/\r\n|\n|\r/)) {
    const note = oneLine(text);
    // Even with every mark written twice and indented, it is no longer than a line may be.
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
