/** A file: its text, blocks and facts, read again at the cost of what was edited. */

import { opensBlock, splitBlocks } from '../../grammar/blocks.ts';
import type { PlacedBlock } from '../../grammar/syntax.ts';
import { factOf } from './build.ts';
import type { Fact, Tree } from './types.ts';

/** A fact in its file. */
export interface PlacedFact<F extends Fact = Fact> extends PlacedBlock {
  /** Relative to the root, with `/`. */
  readonly path: string;
  readonly fact: F;
}

export interface FileSnapshot {
  readonly path: string;
  readonly text: string;
  /** Together they hold every character of the text. */
  readonly blocks: readonly PlacedBlock[];
  /** In the order of the text. */
  readonly facts: readonly PlacedFact[];
  readonly trees: readonly PlacedFact<Tree>[];
  /** Facts that are not trees. */
  readonly others: readonly PlacedFact<Exclude<Fact, Tree>>[];
}

/**
 * A file's text with its blocks and facts. With an earlier state of the same file, every block that an edit
 * left alone is taken over from it, so that the cost is that of the edited blocks.
 */
export function readFile(path: string, text: string, previous?: FileSnapshot): FileSnapshot {
  const blocks = previous ? reread(text, previous) : splitBlocks(text);
  const facts: PlacedFact[] = [];
  const trees: PlacedFact<Tree>[] = [];
  const others: PlacedFact<Exclude<Fact, Tree>>[] = [];
  for (const { start, firstLine, block } of blocks) {
    const fact = factOf(block);
    if (!fact) continue;
    const placed = { path, start, firstLine, block, fact };
    facts.push(placed);
    if (fact.kind === 'tree') trees.push(placed as PlacedFact<Tree>);
    else others.push(placed as PlacedFact<Exclude<Fact, Tree>>);
  }
  return { path, text, blocks, facts, trees, others };
}

/** The blocks of a text: those before and after the edit as they were, those between read again. */
function reread(text: string, { text: before, blocks }: FileSnapshot): readonly PlacedBlock[] {
  if (text === before) return blocks;
  let kept = 0;
  let from = 0;
  // A last line without line end may have grown.
  while (kept < blocks.length - 1 && text.startsWith(blocks[kept]!.block.text, from)) {
    from += blocks[kept++]!.block.text.length;
  }
  // The block above the edit may grow; and a block that opens with a damaged head was parsed with the one above.
  const least = kept;
  do kept--;
  while (kept > 0 && !opensSoundly(blocks[kept]!));
  kept = Math.max(kept, 0);
  from = blocks[kept]!.start;

  let after = blocks.length;
  let to = text.length;
  while (after > least && to - from >= blocks[after - 1]!.block.text.length) {
    if (!text.endsWith(blocks[after - 1]!.block.text, to)) break;
    to -= blocks[--after]!.block.text.length;
  }
  // What follows must still begin a line, and with a head that opens a block whatever stands above.
  while (after < blocks.length && !(opensSoundly(blocks[after]!) && beginsLine(text, to))) {
    to += blocks[after++]!.block.text.length;
  }

  // Nothing is left between where the edit took whole blocks away; an empty file is still one block.
  const edited = to > from || after === blocks.length ? splitBlocks(text.slice(from, to)) : [];
  const firstLine = blocks[kept]!.firstLine;
  const moved = edited.map(({ start, firstLine: line, block }) => ({
    start: from + start,
    firstLine: firstLine + line,
    block,
  }));
  const tail = blocks.slice(after);
  const last = edited[edited.length - 1];
  // A block that ends in a line end has an empty last line, which is the first of what follows.
  const nextLine = firstLine + (last ? last.firstLine + last.block.lines.length - 1 : 0);
  const shift = to - (tail[0]?.start ?? to);
  const lineShift = nextLine - (tail[0]?.firstLine ?? nextLine);
  const followed =
    shift === 0 && lineShift === 0
      ? tail
      : tail.map(({ start, firstLine: line, block }) => ({
          start: start + shift,
          firstLine: line + lineShift,
          block,
        }));
  return [...blocks.slice(0, kept), ...moved, ...followed];
}

const opensSoundly = ({ block }: PlacedBlock): boolean => opensBlock(block.lines[0]!.syntax.text);

const beginsLine = (text: string, offset: number): boolean =>
  offset === 0 || text[offset - 1] === '\n' || text[offset - 1] === '\r';
