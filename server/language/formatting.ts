/** Formatting as small edits, so that cursors and marks keep their places. */

import { type Span, splitLines } from '../../grammar/text.ts';
import { tidy } from '../../grammar/tidy.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { type Cursor, cursorAt, meets } from './cursor.ts';
import type { Edit } from './snapshot.ts';

/** The edits that format the whole file. */
export const formatted = ({ text }: FileSnapshot): readonly Edit[] => tidied(text);

function tidied(text: string): readonly Edit[] {
  const after = tidy(text).text;
  if (after === text) return [];
  const before = filled(text);
  const printed = filled(after);
  // The formatter changes white space only: lines with words correspond one to one.
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

/** The edits that touch a span. */
export const formattedWithin = (file: FileSnapshot, within: Span): readonly Edit[] =>
  formatted(file).filter(edit => meets(edit, within));

/**
 * After a line break was typed: formats the line above and indents the new one.
 * @param offset on the new line
 */
export function formattedOnLineEnd(file: FileSnapshot, offset: number): readonly Edit[] {
  const { line, lineStart, section, head } = cursorAt(file, offset);
  const above = lineStart === 0 ? undefined : cursorAt(file, lineStart - 1);
  const edits = above ? lineEdits(above) : [];
  const text = line.syntax.text;
  if (text.trim() !== '') return edits;
  // Fields are indented once below a top-level head, twice below an inner head.
  const depth = section ? (head?.under === undefined ? 1 : 2) : 0;
  const wanted = above?.line.role === 'blank' ? '' : '  '.repeat(depth);
  if (text === wanted) return edits;
  return [...edits, { start: lineStart, end: lineStart + text.length, text: wanted }];
}

/** The edits that format one line; only its block is read. */
function lineEdits({ placed, line, lineStart }: Cursor): readonly Edit[] {
  const lineEnd = lineStart + line.syntax.text.length;
  return tidied(placed.block.text)
    .map(({ start, end, text }) => ({ start: placed.start + start, end: placed.start + end, text }))
    .filter(({ start, end }) => start >= lineStart && end <= lineEnd && end > start);
}
