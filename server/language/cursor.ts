/** The syntax and the fact at an offset of a file. */

import { HEADS, type HeadSpec } from '../../grammar/fields.ts';
import {
  type BlockLine,
  type BlockSection,
  type Item,
  type Line,
  type PlacedBlock,
  placedLine,
  sectionAt,
} from '../../grammar/syntax.ts';
import { lastAtMost, type Span } from '../../grammar/text.ts';
import { blockAt, factAt } from '../facts/file.ts';
import type { FileSnapshot, PlacedFact } from '../facts/workspace.ts';

export interface Cursor {
  readonly file: FileSnapshot;
  readonly placed: PlacedBlock;
  readonly fact: PlacedFact | undefined;
  /** Index in the block. */
  readonly lineIndex: number;
  readonly line: BlockLine;
  /** Offsets of the line in the file and of the cursor in the line. */
  readonly lineStart: number;
  readonly column: number;
  /** The section of the line: of the line itself if it is a head, otherwise of the last head above. */
  readonly section: BlockSection | undefined;
  /** The table entry of that head. */
  readonly head: HeadSpec | undefined;
  /** The item under the cursor, or else the one that ends there. */
  readonly item: Item | undefined;
}

export function cursorAt(file: FileSnapshot, offset: number): Cursor {
  const at = Math.max(0, Math.min(offset, file.length));
  const i = blockAt(file, at);
  const { block } = file.nodes[i]!;
  const placed = { start: file.starts[i]!, firstLine: file.firstLines[i]!, block };
  const inBlock = at - placed.start;
  const lineIndex = lastAtMost(block.starts, inBlock);
  const line = placedLine(block, lineIndex);
  const column = inBlock - line.start;
  const section = sectionAt(placed, lineIndex);
  return {
    file,
    placed,
    fact: factAt(file, at),
    lineIndex,
    line,
    lineStart: placed.start + line.start,
    column,
    section,
    head: section && HEADS.get(section.word),
    item: itemAt(line.syntax.items, column),
  };
}

function itemAt(items: readonly Item[], column: number): Item | undefined {
  return (
    items.find(({ start, end }) => start <= column && column < end) ?? items.find(({ end }) => end === column)
  );
}

/** The lines of a section as indices in the block, without blank lines and comments at its end. */
export function linesOfSection(
  { block }: PlacedBlock,
  section: BlockSection,
): { first: number; last: number } {
  const next = block.sections[block.sections.indexOf(section) + 1]?.head ?? block.lines.length;
  return { first: section.head, last: lastFilled(block.lines, section.head, next) };
}

/** The last line before `next` that is not blank, at least `first`. Trailing comments belong to what follows. */
export function lastFilled(lines: readonly Line[], first: number, next: number): number {
  let last = next - 1;
  while (last > first && (lines[last]!.role === 'blank' || lines[last]!.role === 'comment')) last--;
  return last;
}

/** The span of a line's words in the file. */
export function contentOf(placed: PlacedBlock, line: BlockLine): Span {
  const { items, text } = line.syntax;
  const start = placed.start + line.start;
  const first = items[0]?.start ?? text.length - text.trimStart().length;
  const last = items[items.length - 1]?.end ?? Math.max(first, text.trimEnd().length);
  return { start: start + first, end: start + last };
}

export const holds = ({ start, end }: Span, offset: number): boolean => start <= offset && offset <= end;
export const meets = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;

/** The offset in its block at which the head line of the cursor's section begins: what facts go by. */
export function headStart({ placed, section }: Cursor): number | undefined {
  return section && contentOf(placed, placedLine(placed.block, section.head)).start - placed.start;
}
