/**
 * Positions in a text. One module owns line ends, UTF-16 columns and offsets.
 *
 * Offsets and columns count UTF-16 code units (as JavaScript strings and editors do). Lines and columns are
 * 0-based here; whoever shows them to people adds one.
 */

/**
 * What is no text, for the inside of a regular expression's brackets: control characters, what stands for bytes that
 * could not be read, separators of lines beside the line end, and marks that turn the direction of what follows, with
 * which a line would show other evidence than it holds (Unicode, UAX #9).
 */
export const NO_TEXT =
  '\\0-\\x08\\x0B\\x0C\\x0E-\\x1F\\x7F-\\x9F\\u2028\\u2029\\u202A-\\u202E\\u2066-\\u2069\\uFFFD';

/** A half-open stretch of text, as offsets from whatever the holder is relative to (a line, a block, a file). */
export interface Span {
  readonly start: number;
  readonly end: number;
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

/** Index of the last element of an ascending list that is <= value; the first where none is. */
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

/** The line of a text that holds an offset. */
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

/** A part of a text keeps the whole of it in memory; this is the same text by itself. */
export const ownText = (part: string): string => ` ${part}`.slice(1);

/** The line end a text uses most; LF where it has none. */
export function lineEnd(text: string): '\n' | '\r\n' {
  let crlf = 0;
  let lf = 0;
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) {
    if (text.charCodeAt(i - 1) === 13) crlf++;
    else lf++;
  }
  return crlf > lf ? '\r\n' : '\n';
}
