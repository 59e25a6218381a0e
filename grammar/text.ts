/**
 * Positions in a text. One module owns line ends, UTF-16 columns and offsets.
 *
 * Offsets and columns count UTF-16 code units (as JavaScript strings and editors do). Lines and columns are
 * 0-based here; whoever shows them to people adds one.
 */

/** A half-open stretch of text, as offsets from whatever the holder is relative to (a line, a block, a file). */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Position {
  readonly line: number;
  readonly column: number;
}

/** One physical line: its text without the line end, and where it starts. */
export interface TextLine {
  readonly text: string;
  readonly start: number;
}

/** Offsets at which lines start. LF, CRLF and a lone CR each end a line. */
export function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 10) starts.push(i + 1);
    else if (code === 13 && text.charCodeAt(i + 1) !== 10) starts.push(i + 1);
  }
  return starts;
}

/** Index of the last element of an ascending list that is <= value (-1 if there is none). */
export function lastAtMost(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

export function positionAt(starts: readonly number[], offset: number): Position {
  const line = Math.max(0, lastAtMost(starts, offset));
  return { line, column: offset - starts[line]! };
}

/** The offset of a position; a column past the end of its line is pulled back to the line's end. */
export function offsetAt(starts: readonly number[], textLength: number, position: Position): number {
  if (position.line < 0) return 0;
  if (position.line >= starts.length) return textLength;
  const start = starts[position.line]!;
  const next = position.line + 1 < starts.length ? starts[position.line + 1]! : textLength + 1;
  return Math.max(start, Math.min(start + position.column, next - 1, textLength));
}

/** The lines of a text, without their line ends. */
export function splitLines(text: string): TextLine[] {
  const lines: TextLine[] = [];
  let start = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code !== 10 && code !== 13) continue;
    lines.push({ text: text.slice(start, i), start });
    if (code === 13 && text.charCodeAt(i + 1) === 10) i++;
    start = i + 1;
  }
  lines.push({ text: text.slice(start), start });
  return lines;
}

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
