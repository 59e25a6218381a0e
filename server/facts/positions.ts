/** Places in a file, as offsets and as lines with columns: found by its blocks, so that an edit costs no counting of the whole text. */

import { lastAtMost, type TextPosition } from '../../grammar/text.ts';
import { blockAt, type FileSnapshot } from './file.ts';

/** Line and column, from 0, of an offset; one outside of the file is drawn to its ends. */
export function positionIn(file: FileSnapshot, offset: number): TextPosition {
  const at = Math.max(0, Math.min(offset, file.length));
  const i = blockAt(file, at);
  const inBlock = at - file.starts[i]!;
  const { line, start } = file.nodes[i]!.lineAt(inBlock);
  return { line: file.firstLines[i]! + line, column: inBlock - start };
}

/** The offset of a line and column; a column past the end of its line is drawn to that end. */
export function offsetIn(file: FileSnapshot, { line, column }: TextPosition): number {
  const { nodes, starts, firstLines, length } = file;
  if (line < 0) return 0;
  const i = lastAtMost(firstLines, line);
  const { lines, starts: inBlock } = nodes[i]!.block;
  const own = line - firstLines[i]!;
  const found = lines[own];
  if (!found) return length;
  return starts[i]! + inBlock[own]! + Math.max(0, Math.min(column, found.syntax.text.length));
}
