/** Where a stretch of a block lies in its file, as people count. */

import type { Stated } from '../facts/file.ts';

/** Offsets in the file, and lines and columns from 1; columns count UTF-16 code units. */
export interface Place {
  readonly start: number;
  readonly end: number;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

interface PlacedStated {
  readonly start: number;
  readonly firstLine: number;
  readonly stated: Stated;
}

/** @param from offset in the block @param to likewise */
export function locate({ start, firstLine, stated }: PlacedStated, from: number, to: number): Place {
  const first = stated.lineHolding(from);
  const last = stated.lineHolding(to);
  return {
    start: start + from,
    end: start + to,
    line: firstLine + first.line + 1,
    column: from - first.start + 1,
    endLine: firstLine + last.line + 1,
    endColumn: to - last.start + 1,
  };
}
