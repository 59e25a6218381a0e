/** What stands at an offset of a file. */

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
  /** Offset of the line in the file, and of the cursor in the line. */
  readonly lineStart: number;
  readonly column: number;
  /** The section that the line belongs to: the last head above, or of the line itself. */
  readonly section: BlockSection | undefined;
  /** The table's entry of that head. */
  readonly head: HeadSpec | undefined;
  /** The item under the cursor; one that ends there counts where none begins. */
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

/** The lines of a section, up to the next head, without blank lines at its end: indices in the block. */
export function linesOfSection(
  { block }: PlacedBlock,
  section: BlockSection,
): { first: number; last: number } {
  const next = block.sections[block.sections.indexOf(section) + 1]?.head ?? block.lines.length;
  return { first: section.head, last: lastFilled(block.lines, section.head, next) };
}

/** The last line before `next` that is not blank; `first` at least. Comments at the end lead what follows. */
export function lastFilled(lines: readonly Line[], first: number, next: number): number {
  let last = next - 1;
  while (last > first && (lines[last]!.role === 'blank' || lines[last]!.role === 'comment')) last--;
  return last;
}

/** Where a line's words stand in the file. */
export function contentOf(placed: PlacedBlock, line: BlockLine): Span {
  const { items, text } = line.syntax;
  const start = placed.start + line.start;
  const first = items[0]?.start ?? text.length - text.trimStart().length;
  const last = items[items.length - 1]?.end ?? Math.max(first, text.trimEnd().length);
  return { start: start + first, end: start + last };
}

export const holds = ({ start, end }: Span, offset: number): boolean => start <= offset && offset <= end;
export const meets = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;
