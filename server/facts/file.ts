/** A file: its blocks and their facts, reread at the cost of what was edited. */

import { blocksOf, opensBlock, parseBlock, stretchesWithoutTrees } from '../../grammar/blocks.ts';
import type { Block, PlacedBlock } from '../../grammar/syntax.ts';
import { type LinePlace, lastAtMost, lineIn, type Span } from '../../grammar/text.ts';
import { memoLatest } from '../base/memo.ts';
import { factOf } from './build.ts';
import { namesPhotos } from './photos.ts';
import type { Fact, WrittenTree } from './types.ts';

/** Above this length, UTF-16 code units, searching the text for lines costs more than keeping their list. */
const LONG = 10_000;

/**
 * A block with its fact: one object in every state of the file that leaves the block alone. It does not know its place,
 * which edits further up change. Syntax takes many times the memory of its text, so that it is kept only where it can't
 * be had again from the text, or not cheaply.
 */
export class BlockNode {
  readonly text: string;
  readonly length: number;
  readonly lineEnds: number;
  readonly fact: Fact | undefined;
  /** Whether it states something else than a tree, which applies to trees of other blocks. */
  readonly isShared: boolean;
  /** Whether a check found a nest in its tree, which applies to trees of other blocks too. */
  readonly hasNest: boolean;
  /** Whether a line of it has a mistake. */
  readonly isDamaged: boolean;
  /** Whether its tree names photographs, so that their files matter to it. */
  readonly namesPhotos: boolean;
  private readonly syntax: Block | undefined;

  /** @param keepsSyntax where it is wanted of every block, and not for long */
  constructor(block: Block, keepsSyntax = false) {
    const { text, lines, starts } = block;
    this.text = text;
    this.length = text.length;
    // A block that ends before a damaged head comes without the empty line behind its last line end.
    const isShort = endsLine(text) && starts[starts.length - 1]! < text.length;
    this.lineEnds = isShort ? lines.length : lines.length - 1;
    this.fact = factOf(block);
    this.isShared = this.fact !== undefined && this.fact.kind !== 'tree';
    this.hasNest = this.fact?.kind === 'tree' && hasNest(this.fact);
    this.isDamaged = lines.some(({ mistake }) => mistake);
    this.namesPhotos = this.fact?.kind === 'tree' && namesPhotos(this.fact);
    this.syntax = keepsSyntax || this.isDamaged || text.length > LONG ? withoutSpareRoom(block) : undefined;
  }

  /** Its syntax, which may have to be parsed again: get it once. */
  get block(): Block {
    return this.syntax ?? syntaxOf(this.text);
  }

  /** The line, from 0, at an offset of the block. */
  lineAt(offset: number): LinePlace {
    if (!this.syntax) return lineIn(this.text, offset);
    const { starts } = this.syntax;
    const line = lastAtMost(starts, offset);
    return { line, start: starts[line]! };
  }
}

function hasNest({ nestChecks }: WrittenTree): boolean {
  for (const { found } of nestChecks) for (const { use } of found) if (use !== 'none') return true;
  return false;
}

const syntaxOf = memoLatest(parseBlock);

const endsLine = (text: string): boolean => text === '' || text.endsWith('\n') || text.endsWith('\r');

/** Drops the spare capacity that push() leaves in arrays. */
const withoutSpareRoom = ({ text, lines, starts, sections }: Block): Block => ({
  text,
  lines: lines.slice(),
  starts,
  sections: sections.map(({ word, head, fields }) => ({ word, head, fields: fields.slice() })),
});

/** A block in its file. */
export class PlacedNode implements PlacedBlock {
  constructor(
    /** Relative to the root, with `/`. */
    readonly path: string,
    readonly start: number,
    readonly firstLine: number,
    readonly node: BlockNode,
  ) {}

  get fact(): Fact | undefined {
    return this.node.fact;
  }

  get block(): Block {
    return this.node.block;
  }
}

/** A fact in its file. */
export interface PlacedFact<F extends Fact = Fact> extends PlacedNode {
  readonly fact: F;
}

type Other = Exclude<Fact, WrittenTree>;

/**
 * One state of a file. Two states with the same list of nodes have the same text. Of a file that is not kept as a whole
 * the nodes are some of its blocks, each in its place.
 */
export class FileSnapshot {
  private lists: { blocks?: readonly PlacedNode[]; facts?: readonly PlacedFact[] } = {};
  private placedOthers: readonly PlacedFact<Other>[] | undefined;
  private nesting: readonly WrittenTree[] | undefined;
  private joined: string | undefined;

  constructor(
    readonly path: string,
    readonly nodes: readonly BlockNode[],
    /** Offset at which each of them begins, and its first line, from 0. */
    readonly starts: Int32Array,
    readonly firstLines: Int32Array,
  ) {}

  get text(): string {
    this.joined ??= textOf(this.nodes);
    return this.joined;
  }

  /** UTF-16 code units. */
  get length(): number {
    const last = this.nodes.length - 1;
    return this.starts[last]! + this.nodes[last]!.length;
  }

  get blocks(): readonly PlacedNode[] {
    this.lists.blocks ??= this.nodes.map((_, i) => this.placed(i));
    return this.lists.blocks;
  }

  get facts(): readonly PlacedFact[] {
    this.lists.facts ??= this.blocks.filter((placed): placed is PlacedFact => placed.fact !== undefined);
    return this.lists.facts;
  }

  get trees(): readonly PlacedFact<WrittenTree>[] {
    return this.facts.filter((placed): placed is PlacedFact<WrittenTree> => placed.fact.kind === 'tree');
  }

  /** Facts that are not trees. Most blocks are trees: the others are placed without the list of all. */
  get others(): readonly PlacedFact<Other>[] {
    if (this.placedOthers) return this.placedOthers;
    const others: PlacedFact<Other>[] = [];
    for (let i = 0; i < this.nodes.length; i++)
      if (this.nodes[i]!.isShared) others.push(this.placed(i) as PlacedFact<Other>);
    this.placedOthers = others;
    return others;
  }

  /** Trees with nests. */
  get nestTrees(): readonly WrittenTree[] {
    this.nesting ??= this.nodes.filter(({ hasNest: has }) => has).map(({ fact }) => fact as WrittenTree);
    return this.nesting;
  }

  placed(i: number): PlacedNode {
    return new PlacedNode(this.path, this.starts[i]!, this.firstLines[i]!, this.nodes[i]!);
  }
}

const textOf = (nodes: readonly BlockNode[]): string => nodes.map(({ text }) => text).join('');

/** A file of these blocks, one after the other. */
export function fileOf(path: string, nodes: readonly BlockNode[]): FileSnapshot {
  const starts = new Int32Array(nodes.length);
  const firstLines = new Int32Array(nodes.length);
  for (let i = 1; i < nodes.length; i++) {
    const { length, lineEnds } = nodes[i - 1]!;
    starts[i] = starts[i - 1]! + length;
    firstLines[i] = firstLines[i - 1]! + lineEnds;
  }
  return new FileSnapshot(path, nodes, starts, firstLines);
}

/** A file of which only these blocks are known. */
export const fileWith = (path: string, placed: readonly PlacedNode[]): FileSnapshot =>
  new FileSnapshot(
    path,
    placed.map(({ node }) => node),
    Int32Array.from(placed, ({ start }) => start),
    Int32Array.from(placed, ({ firstLine }) => firstLine),
  );

/** What a text states besides trees; damaged heads and what follows them are not seen. */
export function withoutTrees(path: string, text: string): FileSnapshot {
  const placed: PlacedNode[] = [];
  let line = 0;
  let counted = 0;
  for (const stretch of stretchesWithoutTrees(text)) {
    let { start } = stretch;
    line += text.slice(counted, start).match(/\r\n|\r|\n/g)?.length ?? 0;
    for (const node of nodesOf(stretch.text)) {
      if (node.isShared) placed.push(new PlacedNode(path, start, line, node));
      start += node.length;
      line += node.lineEnds;
    }
    counted = start;
  }
  return fileWith(path, placed);
}

/** The blocks of a text in order, one at a time. */
export function* nodesOf(text: string, keepsSyntax = false): Iterable<BlockNode> {
  for (const { block } of blocksOf(text)) yield new BlockNode(block, keepsSyntax);
}

/** A file with this text. Of an earlier state of it the blocks that are still the same are taken over. */
export function readFile(path: string, text: string, previous?: FileSnapshot): FileSnapshot {
  return previous ? reread(text, previous) : fileOf(path, [...nodesOf(text)]);
}

/** What both texts have in common before and behind is one edit apart. */
function reread(text: string, file: FileSnapshot): FileSnapshot {
  const { nodes, starts, length } = file;
  const startOf = (i: number) => (i < nodes.length ? starts[i]! : length);
  const shift = text.length - length;
  let from = 0;
  while (from < nodes.length && text.startsWith(nodes[from]!.text, starts[from])) from++;
  const start = startOf(from);
  if (from === nodes.length && shift === 0) return file;
  let to = nodes.length;
  while (
    to > from &&
    startOf(to - 1) + shift >= start &&
    text.endsWith(nodes[to - 1]!.text, startOf(to) + shift)
  )
    to--;
  return editFile(file, start, startOf(to), text.slice(start, startOf(to) + shift));
}

/** Where two lists differ: what is before `from`, and behind the ends, is the same in both. */
export function difference<T>(before: readonly T[], now: readonly T[]) {
  let [from, oldEnd, newEnd] = [0, before.length, now.length];
  while (from < oldEnd && from < newEnd && before[from] === now[from]) from++;
  while (oldEnd > from && newEnd > from && before[oldEnd - 1] === now[newEnd - 1]) {
    oldEnd--;
    newEnd--;
  }
  return { from, oldEnd, newEnd };
}

/** The same file under another path. */
export const atPath = (path: string, file: FileSnapshot): FileSnapshot =>
  file.path === path ? file : new FileSnapshot(path, file.nodes, file.starts, file.firstLines);

/** Index of the block at an offset; the last one for the end of the file. */
export const blockAt = ({ starts }: FileSnapshot, offset: number): number => lastAtMost(starts, offset);

/** The blocks that a stretch touches. */
export function* blocksWithin(file: FileSnapshot, within: Span): Iterable<PlacedNode> {
  const { nodes, starts } = file;
  // A block that ends where the stretch begins touches it.
  const first = blockAt(file, Math.max(0, within.start - 1));
  for (let i = first; i < nodes.length && starts[i]! <= within.end; i++) yield file.placed(i);
}

/** The fact of the block at an offset. */
export const factAt = (file: FileSnapshot, offset: number): PlacedFact | undefined => {
  const placed = file.placed(blockAt(file, offset));
  return placed.fact && (placed as PlacedFact);
};

/** The file with `put` in place of its text from `start` to `end`. Only the blocks around are parsed again. */
export function editFile(file: FileSnapshot, start: number, end: number, put: string): FileSnapshot {
  const { path, nodes, starts } = file;
  let from = blockAt(file, start);
  let after = blockAt(file, end);
  // A block that begins where the edit ends is left alone, unless what comes before it forbids.
  if (starts[after]! < end) after++;
  // The block above may grow; and a block that opens with a damaged head was parsed with the one above.
  do from--;
  while (from > 0 && !opensBlock(nodes[from]!.text));
  from = Math.max(from, 0);

  const before = textOf(nodes.slice(from, after));
  const base = starts[from]!;
  let text = before.slice(0, start - base) + put + before.slice(end - base);
  // What follows must still begin a line, with a head that opens a block whatever is above it.
  while (after < nodes.length && !(opensBlock(nodes[after]!.text) && endsLine(text)))
    text += nodes[after++]!.text;

  // Nothing is left between where the edit removed whole blocks; an empty file is still one block.
  const isAll = from === 0 && after === nodes.length;
  const edited = text.length > 0 || isAll ? [...nodesOf(text)] : [];
  return fileOf(path, nodes.slice(0, from).concat(edited, nodes.slice(after)));
}
