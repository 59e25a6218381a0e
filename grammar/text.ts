/**
 * Positions in a text: line ends, columns and offsets.
 *
 * Offsets and columns count UTF-16 code units (as JavaScript strings and editors do). Lines and columns are
 * 0-based here; output for people adds one.
 */

/**
 * Character class (without brackets) of characters rejected as non-text: control characters, the replacement character,
 * line separators other than line ends, and bidirectional controls, which could make a line display other evidence than
 * it contains (Unicode, UAX #9).
 */
export const NO_TEXT =
  '\\0-\\x08\\x0B\\x0C\\x0E-\\x1F\\x7F-\\x9F\\u2028\\u2029\\u202A-\\u202E\\u2066-\\u2069\\uFFFD';

/** A half-open range of offsets, relative to the line, block or file of its owner. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Puts a text in the place of a span. */
export interface Replacement extends Span {
  readonly text: string;
}

/** The text with replacements that do not overlap; those at one place in their order. */
export function textWith(text: string, replacements: readonly Replacement[]): string {
  let at = 0;
  let changed = '';
  for (const { start, end, text: put } of replacements.toSorted((a, b) => a.start - b.start)) {
    changed += text.slice(at, start) + put;
    at = end;
  }
  return changed + text.slice(at);
}

export interface TextPosition {
  readonly line: number;
  readonly column: number;
}

/** Physical lines: their texts without the line ends, and where each starts. */
export interface TextLines {
  readonly texts: readonly string[];
  readonly starts: readonly number[];
}

/** Index of the last element of an ascending list that is <= value; 0 if none is. */
export function lastAtMost(sorted: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (sorted[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** A line, from 0, and the offset at which it begins. */
export interface LinePlace {
  readonly line: number;
  readonly start: number;
}

/** The line that contains an offset. */
export function lineIn(text: string, offset: number): LinePlace {
  let line = 0;
  let start = 0;
  LINE_END.lastIndex = 0;
  while (LINE_END.test(text) && LINE_END.lastIndex <= offset) {
    line++;
    start = LINE_END.lastIndex;
  }
  return { line, start };
}

const LINE_END = /\r\n|\r|\n/g;

/** The lines of a text, without their line ends. */
export function splitLines(text: string): TextLines {
  const hasReturns = text.includes('\r');
  const texts = hasReturns ? text.split(/\r\n|\r|\n/) : text.split('\n');
  const starts = new Array<number>(texts.length);
  for (let i = 0, start = 0; i < texts.length; i++) {
    starts[i] = start;
    const end = start + texts[i]!.length;
    start = end + (hasReturns && text.charCodeAt(end) === 13 && text.charCodeAt(end + 1) === 10 ? 2 : 1);
  }
  return { texts, starts };
}

/** Copies a substring, which would otherwise keep the whole text in memory. */
export const ownText = (part: string): string => ` ${part}`.slice(1);

/** The most frequent line end of a text; LF if it has none. */
export function lineEnd(text: string): '\n' | '\r\n' {
  let crlf = 0;
  let lf = 0;
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) {
    if (text.charCodeAt(i - 1) === 13) crlf++;
    else lf++;
  }
  return crlf > lf ? '\r\n' : '\n';
}

/** What was found in a line or is to be written, for a message; curly around quotation marks of its own. */
export const inQuotes = (found: string): string => (found.includes('"') ? `“${found}”` : `"${found}"`);
