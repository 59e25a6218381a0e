/** Where a stretch of a block lies in its file, as people count. */

import type { BlockLine, PlacedBlock } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';

/** Offsets in the file, and lines and columns from 1; columns count UTF-16 code units. */
export interface Place {
  readonly start: number;
  readonly end: number;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** @param span relative to the block */
export function locate({ start, firstLine, block }: PlacedBlock, span: Span): Place {
  const first = lineAt(block.lines, span.start);
  const last = lineAt(block.lines, span.end);
  return {
    start: start + span.start,
    end: start + span.end,
    line: firstLine + first + 1,
    column: span.start - block.lines[first]!.start + 1,
    endLine: firstLine + last + 1,
    endColumn: span.end - block.lines[last]!.start + 1,
  };
}

/** Index of the line that holds an offset of the block. */
function lineAt(lines: readonly BlockLine[], offset: number): number {
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lines[middle]!.start <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
