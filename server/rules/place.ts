/** Where a stretch of a block lies in its file, as people count. */

import type { PlacedBlock } from '../../grammar/syntax.ts';
import { lineHolding } from '../../grammar/text.ts';

/** Offsets in the file, and lines and columns from 1; columns count UTF-16 code units. */
export interface Place {
  readonly start: number;
  readonly end: number;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** @param from offset in the block @param to likewise */
export function locate({ start, firstLine, block }: PlacedBlock, from: number, to: number): Place {
  const { lines } = block;
  const first = lineHolding(lines, from);
  // Hardly any stretch leaves its line.
  const last = first + 1 < lines.length && to >= lines[first + 1]!.start ? lineHolding(lines, to) : first;
  return {
    start: start + from,
    end: start + to,
    line: firstLine + first + 1,
    column: from - lines[first]!.start + 1,
    endLine: firstLine + last + 1,
    endColumn: to - lines[last]!.start + 1,
  };
}
