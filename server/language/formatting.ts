/** Formatting as small edits, so that cursors and marks keep their places. */

import { opensBlock } from '../../grammar/blocks.ts';
import { type HeadSpec, headsUnder } from '../../grammar/fields.ts';
import { lineEnd, type Span, splitLines } from '../../grammar/text.ts';
import { tidy } from '../../grammar/tidy.ts';
import { blockAt } from '../facts/file.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { type Cursor, cursorAt, meets } from './cursor.ts';
import type { Edit } from './snapshot.ts';

/** The edits that format the whole file. */
export const formatted = ({ text }: FileSnapshot): readonly Edit[] => tidied(text);

function tidied(text: string, end?: ReturnType<typeof lineEnd>): readonly Edit[] {
  const after = tidy(text, end).text;
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

/** The edits that touch a span. Only its blocks are read, and those around, which decide about blank lines and comments between. */
export function formattedWithin(file: FileSnapshot, within: Span): readonly Edit[] {
  const { nodes, starts } = file;
  const isApart = (i: number) => opensBlock(nodes[i]!.text);
  let from = blockAt(file, within.start);
  let to = blockAt(file, within.end) + 1;
  // A block that begins with a damaged head is read with the one above it.
  do from--;
  while (from > 0 && !isApart(from));
  do to++;
  while (to < nodes.length && !isApart(to));
  from = Math.max(from, 0);
  const start = starts[from]!;
  const text = nodes
    .slice(from, to)
    .map(node => node.text)
    .join('');
  return tidied(text, lineEnd(file.text))
    .map(edit => ({ start: start + edit.start, end: start + edit.end, text: edit.text }))
    .filter(edit => meets(edit, within));
}

/**
 * After a line break was typed: formats what stands above and indents the new line.
 * @param offset on the new line
 */
export function formattedOnLineEnd(file: FileSnapshot, offset: number): readonly Edit[] {
  const { placed, line, lineIndex, lineStart, head } = cursorAt(file, offset);
  const edits = lineStart === 0 ? [] : editsUpFrom(cursorAt(file, lineStart - 1));
  const text = line.syntax.text;
  if (text.trim() !== '') return edits;
  const isApart = placed.block.lines[lineIndex - 1]?.role === 'blank';
  const wanted = '  '.repeat(head ? depthBelow(head, isApart) : 0);
  if (text === wanted) return edits;
  return [...edits, { start: lineStart, end: lineStart + text.length, text: wanted }];
}

/** How far to indent a new line: fields follow at once, the next record after a blank line. */
function depthBelow({ word, under }: HeadSpec, isApart: boolean): number {
  if (isApart) return headsUnder(under ?? word).length > 0 ? 1 : 0;
  return under === undefined ? 1 : 2;
}

/**
 * The edits that format a line and those above it in its block, up to a field that is formatted already. An editor
 * drops the edits if another key comes before them, so the lines of several line breaks may be waiting.
 */
function editsUpFrom({ placed, lineIndex }: Cursor): readonly Edit[] {
  const { block } = placed;
  const changes = tidied(block.text);
  const edits: Edit[] = [];
  for (let i = lineIndex; i >= 0; i--) {
    const { role, syntax, mistake } = block.lines[i]!;
    const start = block.starts[i]!;
    const end = start + syntax.text.length;
    const edit =
      role === 'blank'
        ? { start, end, text: '' }
        : changes.find(change => start <= change.start && change.end <= end && change.start < change.end);
    if (edit && edit.start < edit.end)
      edits.push({ start: placed.start + edit.start, end: placed.start + edit.end, text: edit.text });
    else if (role === 'field' && !mistake) break;
  }
  return edits;
}
