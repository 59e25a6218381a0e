/**
 * The formatter. One canonical print: heads of the file at column 0, what belongs to them indented by two, values
 * in one column. It moves white space only: every word, mark and comment stays, lines with a mistake stay as
 * they are, and line ends are kept as found.
 */

import { splitBlocks } from './blocks.ts';
import { HEADS } from './fields.ts';
import type { Item, Line, LineSyntax, Value } from './syntax.ts';
import { lineEnd } from './text.ts';

const SPACES = /[ \t\u00A0\uFEFF]+/g;
const BLANKS: ReadonlySet<string> = new Set(' \t\u00A0\uFEFF');
/** Byte order marks; one below blank lines would become that of the file. */
const MARKS_AT_START = /^\uFEFF+/;
const STEP = 2;
/** Column of the values, the same for a tree and its inner heads. */
const VALUE_COLUMN = 14;

export interface Tidied {
  readonly text: string;
  /** Lines (0-based) left unchanged because of a mistake. */
  readonly left: readonly number[];
}

interface Printed {
  readonly text: string;
  readonly kind: 'blank' | 'comment' | 'top head' | 'other';
  /** An unindented comment stays unindented; any other is indented as the line below it. */
  readonly indented?: boolean;
}

/** @param end line end of the file, where the text is a stretch of one */
export function tidy(text: string, end = lineEnd(text)): Tidied {
  const left: number[] = [];
  const printed: Printed[] = [];
  for (const { block, firstLine } of splitBlocks(text.replace(MARKS_AT_START, ''))) {
    let depth = 0;
    block.lines.forEach((line, i) => {
      // The empty line after a block's last line end belongs to the next block.
      if (block.starts[i] === block.text.length && line.syntax.text === '') return;
      if (line.mistake) left.push(firstLine + i);
      const head = line.role === 'head' ? HEADS.get(line.word!) : undefined;
      if (head) depth = head.under === undefined ? 0 : 1;
      printed.push(printLine(line, head !== undefined, depth));
    });
  }
  return { text: join(printed, end).replace(MARKS_AT_START, ''), left };
}

/**
 * Trims only the blanks of the notation: trimming others would fix a line or change its meaning. A loop from the end,
 * since a regular expression is quadratic in long runs of blanks.
 */
function withoutBlanksAtEnd(text: string): string {
  let end = text.length;
  while (end > 0 && BLANKS.has(text[end - 1]!)) end--;
  return text.slice(0, end);
}

function printLine(line: Line, isHead: boolean, depth: number): Printed {
  const { syntax, role } = line;
  if (line.mistake || role === 'bad')
    return {
      text: withoutBlanksAtEnd(syntax.text),
      kind: isHead && depth === 0 ? 'top head' : 'other',
    };
  if (role === 'blank') return { text: '', kind: 'blank' };
  const comment = syntax.comment
    ? withoutBlanksAtEnd(syntax.text.slice(syntax.comment.start, syntax.comment.end))
    : '';
  if (role === 'comment') {
    return { text: comment, kind: 'comment', indented: syntax.comment!.start > 0 };
  }
  const indent = ' '.repeat(isHead ? depth * STEP : (depth + 1) * STEP);
  const words = isHead ? 0 : 1;
  const named = words === 0 ? indent : (indent + printItems(line, 0, 1)).padEnd(VALUE_COLUMN - 1);
  const values = printItems(line, words, syntax.items.length);
  const content =
    words === 0 || values === ''
      ? (named.trimEnd() === '' ? indent : named.trimEnd()) + values
      : `${named} ${values}`;
  return {
    text: comment ? `${content}  ${comment}` : content,
    kind: isHead && depth === 0 ? 'top head' : 'other',
  };
}

/** The part after the word of a field, in canonical form. */
export const printValues = (line: Line): string => printItems(line, 1, line.syntax.items.length);

/** One of the values of a line, in its canonical print. */
export function printValue(line: Line, { start, end }: Value): string {
  const { items } = line.syntax;
  const from = items.findIndex(item => item.start >= start);
  return printItems(line, from, items.findLastIndex(item => item.end <= end) + 1);
}

function printItems({ syntax, values }: Line, from: number, to: number): string {
  const names = values.filter(({ type }) => type === 'text').sort((a, b) => a.start - b.start);
  let next = 0;
  let out = '';
  for (let i = from; i < to; i++) {
    const item = syntax.items[i]!;
    // A name is one word, whatever its tokens: 12-5, 14m.
    while (next < names.length && names[next]!.end <= item.start) next++;
    const name = names[next];
    if (name && name.start <= item.start && item.end <= name.end) {
      const written = syntax.text.slice(name.start, name.end);
      if (item.start === name.start)
        out += (i > from ? ' ' : '') + (written.startsWith('"') ? written : written.replace(SPACES, ' '));
      continue;
    }
    const touching = i > from && syntax.items[i - 1]!.end === item.start && item.kind !== 'quantity';
    if (i > from && item.kind !== 'comma' && !(touching && syntax.items[i - 1]!.kind !== 'comma')) out += ' ';
    out += printItem(syntax, item);
  }
  return out;
}

/** An item as written, with normalized inner white space. */
function printItem(syntax: LineSyntax, item: Item): string {
  const written = syntax.text.slice(item.start, item.end);
  switch (item.kind) {
    case 'quantity':
      return written
        .replace(SPACES, ' ')
        .replace(/ ?\.\. ?/, '..')
        .replace(/^~ /, '~')
        .replace(/^([<>])(?! )/, '$1 ')
        .replace(/(\d)(?=[A-Za-z%])/g, '$1 ');
    case 'date':
    case 'monthDays':
      return written.replace(/\s*\.\.\s*/, '..');
    default:
      return written;
  }
}

/** Joins lines: single blank lines only, one before each head of the file (or the comments right above it). */
function join(printed: readonly Printed[], end: string): string {
  const following = followingOf(printed);
  const out: string[] = [];
  printed.forEach((line, i) => {
    const last = out[out.length - 1];
    if (line.kind === 'blank') {
      if (last !== undefined && last !== '') out.push('');
      return;
    }
    const leads = (at: number) => printed[at]?.kind === 'comment' && following[at]!.leadsTopHead;
    const opens = line.kind === 'top head' || leads(i);
    if (opens && !leads(i - 1) && last !== undefined && last !== '') out.push('');
    out.push(line.indented ? following[i]!.indent + line.text : line.text);
  });
  while (out[out.length - 1] === '') out.pop();
  return out.length === 0 ? '' : out.join(end) + end;
}

/** What follows a line, as far as the indentation of a comment depends on it. */
interface Following {
  /** Only comments stand between the line and a head of the file. */
  readonly leadsTopHead: boolean;
  /** Of the next line that is not a comment. A comment at the end of a block stays in it. */
  readonly indent: string;
}

/** From end to beginning, so that long runs of comments take linear time. */
function followingOf(printed: readonly Printed[]): readonly Following[] {
  const following: Following[] = new Array(printed.length);
  let next: Printed | undefined;
  let apart = false;
  for (let i = printed.length - 1; i >= 0; i--) {
    const inBlock = next === undefined || (next.kind === 'top head' && apart);
    following[i] = {
      leadsTopHead: next?.kind === 'top head' && !apart,
      indent: inBlock ? ' '.repeat(STEP) : /^ */.exec(next!.text)![0],
    };
    const { kind } = printed[i]!;
    if (kind === 'blank') apart = true;
    else if (kind !== 'comment') {
      next = printed[i];
      apart = false;
    }
  }
  return following;
}
