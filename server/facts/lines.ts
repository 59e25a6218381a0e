/** The lines of a block that count, with their place. */

import { HEADS } from '../../grammar/fields.ts';
import { type Block, type BlockLine, type BlockSection, placedLine } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import type { Repeated } from './placed.ts';

/** A block on its way to facts. */
export interface Reading {
  readonly block: Block;
  readonly repeated: Repeated[];
}

/** A line from its first word to its last, without indentation and comment. */
export const contentOf = (line: BlockLine): Span => ({ start: startOf(line), end: endOf(line) });

export function startOf({ start, syntax }: BlockLine): number {
  const { items, text } = syntax;
  return start + (items.length > 0 ? items[0]!.start : text.length - text.trimStart().length);
}

export function endOf({ start, syntax }: BlockLine): number {
  const { items, text } = syntax;
  if (items.length > 0) return start + items[items.length - 1]!.end;
  // A line of spaces ends where it starts.
  return start + (text.trim() === '' ? text.length : text.trimEnd().length);
}

/** Stands for every list that stays empty; never added to. */
const NONE: readonly never[] = [];

/** The list with one more: most lists of a tree have one member or none, and get no room for more. */
export function append<T>(list: readonly T[], added: T): readonly T[] {
  if (list.length === 0) return [added];
  (list as T[]).push(added);
  return list;
}

/** The field lines of a section that count: understood, and not there before where the field may be stated once. */
export function fieldLines(reading: Reading, section: BlockSection): readonly BlockLine[] {
  if (section.fields.length === 0) return NONE;
  const { block } = reading;
  // Of nearly all sections every line counts. A list of their number: one that grows has room to spare.
  const lines = new Array<BlockLine>(section.fields.length);
  for (let i = 0; i < lines.length; i++) lines[i] = placedLine(block, section.fields[i]!);
  if (lines.every(countsAtOnce)) return lines;
  const counting: BlockLine[] = [];
  for (const line of lines) {
    if (line.mistake) continue;
    const first = sameWord(counting, line.word!);
    if (first && !HEADS.get(section.word)!.fields.get(line.word!)?.many)
      reading.repeated.push({
        word: line.word!,
        start: startOf(line),
        end: endOf(line),
        first: contentOf(first),
      });
    else counting.push(line);
  }
  return counting;
}

/** Understood, and the first one of its word. */
const countsAtOnce = ({ word, mistake }: BlockLine, index: number, lines: readonly BlockLine[]): boolean =>
  !mistake && !sameWord(lines, word!, index);

/** Among the first lines, up to `end`. */
function sameWord(lines: readonly BlockLine[], word: string, end = lines.length): BlockLine | undefined {
  for (let i = 0; i < end; i++) if (lines[i]!.word === word) return lines[i];
  return undefined;
}
