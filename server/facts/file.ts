/** A file: its text, blocks and facts, read again at the cost of what was edited. */

import { blocksOf, opensBlock, parseBlock } from '../../grammar/blocks.ts';
import { type Block, type BlockLine, type PlacedBlock, placedLine } from '../../grammar/syntax.ts';
import { type LinePlace, lastAtMost, lineIn } from '../../grammar/text.ts';
import { factOf } from './build.ts';
import type { Fact, Tree } from './types.ts';

/**
 * A block with the fact that it states: one object in every state of the file that leaves the block alone. It
 * does not know its place, which edits further up change.
 */
export interface Stated {
  readonly text: string;
  readonly lineCount: number;
  readonly fact: Fact | undefined;
  /** Lines with a mistake, and which of the block's lines each is, from 0. */
  readonly mistaken: readonly BlockLine[];
  readonly mistakenAt: readonly number[];
  /** Its syntax. Ask once and hold on to it. */
  readonly block: Block;
  /** What was last made of the fact, kept here by the layer that judges it, since a fact never changes. */
  judged: unknown;
  /** The line, from 0, that holds an offset of the block, and where it begins. */
  lineHolding(offset: number): LinePlace;
}

const NONE: readonly never[] = [];

/** Above this length, UTF-16 code units, looking for lines in the text again and again costs more than their list. */
const LONG = 10_000;

/**
 * Syntax weighs many times what it says. Where nothing is damaged a block follows from its own text, so that it is
 * read again for the few who ask.
 */
class StatedBlock implements Stated {
  judged: unknown = undefined;
  readonly text: string;
  readonly lineCount: number;
  readonly fact: Fact | undefined;
  readonly mistaken: readonly BlockLine[];
  readonly mistakenAt: readonly number[];
  private readonly kept: Block | undefined;

  constructor(block: Block) {
    let mistaken: BlockLine[] | undefined;
    let mistakenAt: number[] | undefined;
    for (let i = 0; i < block.lines.length; i++) {
      if (!block.lines[i]!.mistake) continue;
      (mistaken ??= []).push(placedLine(block, i));
      (mistakenAt ??= []).push(i);
    }
    this.text = block.text;
    this.lineCount = block.lines.length;
    this.fact = factOf(block);
    this.mistaken = mistaken ?? NONE;
    this.mistakenAt = mistakenAt ?? NONE;
    this.kept = mistaken || block.text.length > LONG ? withoutRoom(block) : undefined;
  }

  get block(): Block {
    return this.kept ?? parsedLast(this.text);
  }

  lineHolding(offset: number): LinePlace {
    if (!this.kept) return lineIn(this.text, offset);
    const { starts } = this.kept;
    const line = lastAtMost(starts, offset);
    return { line, start: starts[line]! };
  }
}

/** Lists that were built up hold room for more, which would weigh as much as they do. */
const withoutRoom = ({ text, lines, starts, sections }: Block): Block => ({
  text,
  lines: lines.slice(),
  starts,
  sections: sections.map(({ word, head, fields }) => ({ word, head, fields: fields.slice() })),
});

let last: Block | undefined;

/** Who asks once often asks again at once. */
function parsedLast(text: string): Block {
  if (last?.text !== text) last = parseBlock(text);
  return last;
}

/** A fact in its file. */
export interface PlacedFact<F extends Fact = Fact> extends PlacedBlock {
  /** Relative to the root, with `/`. */
  readonly path: string;
  readonly fact: F;
  readonly stated: Stated;
}

class PlacedStated implements PlacedBlock {
  constructor(
    readonly path: string,
    readonly start: number,
    readonly firstLine: number,
    readonly stated: Stated,
  ) {}

  get fact(): Fact | undefined {
    return this.stated.fact;
  }

  get block(): Block {
    return this.stated.block;
  }
}

/** One state of a file. The lists of placed things are made when somebody asks. */
export interface FileSnapshot {
  readonly path: string;
  readonly text: string;
  /** UTF-16 code units. */
  readonly length: number;
  /** In the order of the text; their blocks hold every character of it. */
  readonly stated: readonly Stated[];
  /** Offset at which each of them begins, and its first line, from 0. */
  readonly starts: Int32Array;
  readonly firstLines: Int32Array;
  /** Indices of the blocks that state something else than a tree. */
  readonly otherPlaces: readonly number[];
  readonly blocks: readonly PlacedBlock[];
  readonly facts: readonly PlacedFact[];
  readonly trees: readonly PlacedFact<Tree>[];
  /** Facts that are not trees. */
  readonly others: readonly PlacedFact<Exclude<Fact, Tree>>[];
  /** Stands for this state of the text. */
  readonly state: object;
  /** What made it out of the state before; undefined for one that was read whole. */
  readonly change: Change | undefined;
  /** The fact that the i-th block states. */
  placed(i: number): PlacedFact | undefined;
  /** The same state under another path. */
  under(path: string): FileSnapshot;
  /** Which of the blocks this is; -1 for one of another state. */
  indexOf(stated: Stated): number;
}

/** The blocks from `from` to `oldEnd` of another state gave way to those from `from` to `newEnd` of this one. */
export interface Change {
  /** That state, which is not kept for this. */
  readonly since: object;
  readonly from: number;
  readonly oldEnd: number;
  readonly newEnd: number;
}

/** Where two states of a file differ; what lies before and behind is the same. */
export function changeBetween(before: FileSnapshot, after: FileSnapshot): Change {
  if (after.change?.since === before.state) return after.change;
  const [old, now] = [before.stated, after.stated];
  let [from, oldEnd, newEnd] = [0, old.length, now.length];
  while (from < oldEnd && from < newEnd && old[from] === now[from]) from++;
  while (oldEnd > from && newEnd > from && old[oldEnd - 1] === now[newEnd - 1]) {
    oldEnd--;
    newEnd--;
  }
  return { since: before.state, from, oldEnd, newEnd };
}

const FEW = 20;

class Snapshot implements FileSnapshot {
  private wholeText: string | undefined;
  private placedBlocks: readonly PlacedBlock[] | undefined;
  private placedFacts: readonly PlacedFact[] | undefined;
  private placedTrees: readonly PlacedFact<Tree>[] | undefined;
  private placedOthers: readonly PlacedFact<Exclude<Fact, Tree>>[] | undefined;
  private indices: Map<Stated, number> | undefined;
  private searches = 0;

  constructor(
    readonly path: string,
    readonly stated: readonly Stated[],
    readonly starts: Int32Array,
    readonly firstLines: Int32Array,
    readonly otherPlaces: readonly number[],
    text: string | undefined,
    readonly state: object,
    readonly change: Change | undefined,
  ) {
    this.wholeText = text;
  }

  get text(): string {
    this.wholeText ??= this.stated.map(({ text }) => text).join('');
    return this.wholeText;
  }

  get length(): number {
    const last = this.stated.length - 1;
    return this.starts[last]! + this.stated[last]!.text.length;
  }

  get blocks(): readonly PlacedBlock[] {
    this.placedBlocks ??= this.stated.map((_, i) => this.at(i));
    return this.placedBlocks;
  }

  get facts(): readonly PlacedFact[] {
    this.placedFacts ??= this.stated.flatMap((_, i) => this.placed(i) ?? []);
    return this.placedFacts;
  }

  get trees(): readonly PlacedFact<Tree>[] {
    this.placedTrees ??= this.facts.filter(
      (placed): placed is PlacedFact<Tree> => placed.fact.kind === 'tree',
    );
    return this.placedTrees;
  }

  get others(): readonly PlacedFact<Exclude<Fact, Tree>>[] {
    this.placedOthers ??= this.otherPlaces.map(i => this.placed(i) as PlacedFact<Exclude<Fact, Tree>>);
    return this.placedOthers;
  }

  placed(i: number): PlacedFact | undefined {
    return this.stated[i]!.fact && (this.at(i) as PlacedFact);
  }

  private at(i: number): PlacedStated {
    return new PlacedStated(this.path, this.starts[i]!, this.firstLines[i]!, this.stated[i]!);
  }

  under(path: string): FileSnapshot {
    const { stated, starts, firstLines, otherPlaces, wholeText, state, change } = this;
    return new Snapshot(path, stated, starts, firstLines, otherPlaces, wholeText, state, change);
  }

  indexOf(stated: Stated): number {
    // A few are found sooner than a table of all is made.
    if (++this.searches <= FEW) return this.stated.indexOf(stated);
    this.indices ??= new Map(this.stated.map((one, i) => [one, i]));
    return this.indices.get(stated) ?? -1;
  }
}

/** Which blocks state something else than a tree. */
function othersIn(stated: readonly Stated[]): readonly number[] {
  const others: number[] = [];
  for (let i = 0; i < stated.length; i++) {
    const { fact } = stated[i]!;
    if (fact && fact.kind !== 'tree') others.push(i);
  }
  return others;
}

/** The same after a change, at the cost of what changed. */
const othersAfter = (
  before: readonly number[],
  now: readonly Stated[],
  { from, oldEnd, newEnd }: Change,
): readonly number[] => [
  ...before.filter(i => i < from),
  ...othersIn(now.slice(from, newEnd)).map(i => from + i),
  ...before.filter(i => i >= oldEnd).map(i => i + newEnd - oldEnd),
];

/**
 * A file's text with its blocks and facts. With an earlier state of the same file, every block that an edit
 * left alone is taken over from it, so that the cost is that of the edited blocks.
 */
export function readFile(path: string, text: string, previous?: FileSnapshot): FileSnapshot {
  if (previous) return text === previous.text ? previous : reread(text, previous);
  const { stated, starts, firstLines } = statedIn(text);
  return new Snapshot(
    path,
    stated,
    new Int32Array(starts),
    new Int32Array(firstLines),
    othersIn(stated),
    text,
    {},
    undefined,
  );
}

function statedIn(text: string) {
  const stated: Stated[] = [];
  const starts: number[] = [];
  const firstLines: number[] = [];
  for (const { start, firstLine, block } of blocksOf(text)) {
    stated.push(new StatedBlock(block));
    starts.push(start);
    firstLines.push(firstLine);
  }
  return { stated, starts, firstLines };
}

/** The file with another text: what both have in common before and after is one edit apart. */
function reread(text: string, file: FileSnapshot): FileSnapshot {
  const { stated } = file;
  let start = 0;
  for (const { text: own } of stated) {
    if (!text.startsWith(own, start)) break;
    start += own.length;
  }
  let [end, to] = [file.length, text.length];
  for (let i = stated.length - 1; i >= 0; i--) {
    const { length } = stated[i]!.text;
    if (end - length < start || to - length < start) break;
    if (!text.endsWith(stated[i]!.text, to)) break;
    [end, to] = [end - length, to - length];
  }
  return editFile(file, start, end, text.slice(start, to));
}

/** The same file under another path. */
export const atPath = (path: string, file: FileSnapshot): FileSnapshot =>
  file.path === path ? file : file.under(path);

/** Index of the block that holds an offset; the last one for the end of the file. */
export const blockAt = ({ starts }: FileSnapshot, offset: number): number => lastAtMost(starts, offset);

/** The fact of the block that holds an offset. */
export const factAt = (file: FileSnapshot, offset: number): PlacedFact | undefined =>
  file.placed(blockAt(file, offset));

/** The file with `put` in place of what stands from `start` to `end`. Only the blocks around are read again. */
export function editFile(file: FileSnapshot, start: number, end: number, put: string): FileSnapshot {
  const { path, stated, starts, firstLines } = file;
  let from = blockAt(file, start);
  let after = blockAt(file, end);
  // A block that begins where the edit ends is left alone, if what comes to stand before it allows.
  if (starts[after]! < end) after++;
  // The block above may grow; and a block that opens with a damaged head was read with the one above.
  do from--;
  while (from > 0 && !opensSoundly(stated[from]!));
  from = Math.max(from, 0);

  const textOf = (first: number, next: number) =>
    stated
      .slice(first, next)
      .map(({ text: own }) => own)
      .join('');
  const before = textOf(from, after);
  const base = starts[from]!;
  let text = before.slice(0, start - base) + put + before.slice(end - base);
  // What follows must still begin a line, and with a head that opens a block whatever stands above.
  while (after < stated.length && !(opensSoundly(stated[after]!) && endsLine(text))) {
    text += stated[after++]!.text;
  }

  // Nothing is left between where the edit took whole blocks away; an empty file is still one block.
  const isAll = from === 0 && after === stated.length;
  const edited = text.length > 0 || isAll ? statedIn(text) : { stated: [], starts: [], firstLines: [] };
  const firstLine = firstLines[from]!;
  // A block that ends in a line end has an empty last line, which is the first of what follows.
  const lines =
    edited.stated.length > 0 ? edited.firstLines.at(-1)! + edited.stated.at(-1)!.lineCount - 1 : 0;
  const shift = base + text.length - (after < stated.length ? starts[after]! : 0);
  const lineShift = firstLine + lines - (after < stated.length ? firstLines[after]! : 0);
  const now = stated.slice(0, from).concat(edited.stated, stated.slice(after));
  const startsNow = edited.starts.map(start => base + start);
  const linesNow = edited.firstLines.map(line => firstLine + line);
  const change = { since: file.state, from, oldEnd: after, newEnd: from + edited.stated.length };
  return new Snapshot(
    path,
    now,
    spliced(starts, from, startsNow, after, shift),
    spliced(firstLines, from, linesNow, after, lineShift),
    othersAfter(file.otherPlaces, now, change),
    undefined,
    {},
    change,
  );
}

/** The list with `put` in place of `from` to `after`, and `shift` added to all that follows. */
function spliced(
  list: Int32Array,
  from: number,
  put: readonly number[],
  after: number,
  shift: number,
): Int32Array {
  const next = from + put.length;
  const result = new Int32Array(next + list.length - after);
  result.set(list.subarray(0, from));
  result.set(put, from);
  result.set(list.subarray(after), next);
  if (shift !== 0) for (let i = next; i < result.length; i++) result[i]! += shift;
  return result;
}

const opensSoundly = ({ text }: Stated): boolean => opensBlock(text);

const endsLine = (text: string): boolean => text === '' || text.endsWith('\n') || text.endsWith('\r');
