/** Where a span of a block is in its file, as people count. */

import type { PlacedNode } from '../facts/file.ts';

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
export function locate(
  { start, firstLine, node }: Pick<PlacedNode, 'start' | 'firstLine' | 'node'>,
  from: number,
  to: number,
): Place {
  const first = node.lineAt(from);
  const last = node.lineAt(to);
  return {
    start: start + from,
    end: start + to,
    line: firstLine + first.line + 1,
    column: from - first.start + 1,
    endLine: firstLine + last.line + 1,
    endColumn: to - last.start + 1,
  };
}
