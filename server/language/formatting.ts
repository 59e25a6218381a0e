/** The canonical print as small edits, so that cursors and marks stay where they are. */

import { type Span, splitLines } from '../../grammar/text.ts';
import { tidy } from '../../grammar/tidy.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { type Cursor, cursorAt, meets } from './cursor.ts';
import type { Edit } from './snapshot.ts';

/** What would put the whole file into its canonical print. */
export const formatted = ({ text }: FileSnapshot): readonly Edit[] => tidied(text);

function tidied(text: string): readonly Edit[] {
  const after = tidy(text).text;
  if (after === text) return [];
  const before = filled(text);
  const printed = filled(after);
  // The formatter moves white space only: the lines with words in them are the same, in the same order.
  if (before.length !== printed.length) return [{ start: 0, end: text.length, text: after }];
  const edits: Edit[] = [];
  let at = 0;
  let printedAt = 0;
  before.forEach((line, i) => {
    const print = printed[i]!;
    change(edits, text, { start: at, end: line.start }, after.slice(printedAt, print.start));
    const end = line.start + line.text.length;
    change(edits, text, { start: line.start, end }, print.text);
    at = end;
    printedAt = print.start + print.text.length;
  });
  change(edits, text, { start: at, end: text.length }, after.slice(printedAt));
  return edits;
}

function filled(text: string): readonly { readonly text: string; readonly start: number }[] {
  const { texts, starts } = splitLines(text);
  return texts.map((line, i) => ({ text: line, start: starts[i]! })).filter(line => line.text.trim() !== '');
}

function change(edits: Edit[], text: string, span: Span, wanted: string): void {
  if (text.slice(span.start, span.end) !== wanted) edits.push({ ...span, text: wanted });
}

/** The same for the lines that a stretch touches. */
export const formattedWithin = (file: FileSnapshot, within: Span): readonly Edit[] =>
  formatted(file).filter(edit => meets(edit, within));

/**
 * After a line end was typed: the line above into its print, and the new one to where its words will stand.
 * @param offset on the new line
 */
export function formattedOnLineEnd(file: FileSnapshot, offset: number): readonly Edit[] {
  const { line, lineStart, section, head } = cursorAt(file, offset);
  const above = lineStart === 0 ? undefined : cursorAt(file, lineStart - 1);
  const edits = above ? lineEdits(above) : [];
  const text = line.syntax.text;
  if (text.trim() !== '') return edits;
  // Below a head of the file its fields are indented once, below an inner head twice.
  const depth = section ? (head?.under === undefined ? 1 : 2) : 0;
  const wanted = above?.line.role === 'blank' ? '' : '  '.repeat(depth);
  if (text === wanted) return edits;
  return [...edits, { start: lineStart, end: lineStart + text.length, text: wanted }];
}

/** What a line's print changes in it; its block tells, and the rest of the file need not be read. */
function lineEdits({ placed, line, lineStart }: Cursor): readonly Edit[] {
  const lineEnd = lineStart + line.syntax.text.length;
  return tidied(placed.block.text)
    .map(({ start, end, text }) => ({ start: placed.start + start, end: placed.start + end, text }))
    .filter(({ start, end }) => start >= lineStart && end <= lineEnd && end > start);
}
