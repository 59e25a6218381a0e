/**
 * What other files need to know of a text: the tags of its trees, and the stretches that state something about
 * more than one tree. Costs a small part of reading all of it, so that an inventory of any size can be asked
 * first what holds across its files, and then be read and judged piece by piece.
 */

import { opensBlock, splitBlocks } from '../../grammar/blocks.ts';
import { HEADS, type HeadSpec, headsUnder, TWO_WORD_HEADS } from '../../grammar/fields.ts';
import { factOf } from './build.ts';

/**
 * A part of a text from one sound head of the file to the next, with its place. No line of it bears on what
 * another stretch is read as, so each can be read by itself.
 */
export interface Stretch {
  /** Offset in the file. */
  readonly start: number;
  readonly firstLine: number;
  readonly text: string;
}

export interface Outline {
  /** Of every tree, in the order of the text. */
  readonly tags: readonly string[];
  /** Tags that a tree had formerly. */
  readonly formerly: readonly string[];
  /** The stretches with facts that are not trees. */
  readonly shared: readonly Stretch[];
  readonly lineEnds: number;
}

/** The outline of a text that begins its file. */
export function outlineOf(text: string): Outline {
  const tags: string[] = [];
  const formerly: string[] = [];
  const shared: Stretch[] = [];
  let lineEnds = 0;
  for (const { tag, ...stretch } of stretchesOf(text)) {
    lineEnds = stretch.lineEnd;
    if (tag === 'nothing') continue;
    if (tag !== undefined) {
      tags.push(tag.text);
      continue;
    }
    let isShared = false;
    for (const { block } of splitBlocks(stretch.text)) {
      const fact = factOf(block);
      if (fact?.kind === 'tree') {
        tags.push(fact.tag.value);
        for (const { value } of fact.formerly) formerly.push(value);
      } else if (fact) isShared = true;
    }
    if (isShared) shared.push({ start: stretch.start, firstLine: stretch.firstLine, text: stretch.text });
  }
  return { tags, formerly, shared, lineEnds };
}

/**
 * The stretches with trees that have one of these tags or had it formerly, and those with facts that are not
 * trees. Among them may be some that have neither.
 */
export function stretchesNaming(text: string, tags: ReadonlySet<string>): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const { tag, start, firstLine, text: own } of stretchesOf(text)) {
    if (tag === undefined || (tag !== 'nothing' && tags.has(tag.text)))
      found.push({ start, firstLine, text: own });
  }
  return found;
}

interface SeenStretch extends Stretch {
  /** Line ends of the text up to the end of the stretch. */
  readonly lineEnd: number;
  /** A tree with this tag and nothing else that others need; `nothing` for a stretch without facts. */
  readonly tag: { readonly text: string } | 'nothing' | undefined;
}

const TOP_WORDS = new Set(headsUnder(undefined).map(({ word }) => word));
const TREE = HEADS.get('tree')!;

/** Longer lines may be too long for the parser, which then makes out something else in them. */
const LONGEST_PLAIN = 1000;

/** The head of a tree as nearly every one is written; whatever else there is goes to the parser. */
const PLAIN_TREE = /tree[ \t]+([A-Z]{0,3}-?[1-9]\d{0,8})(?:[ \t]+"[ !#-~\u00C0-\u024F]*")?[ \t]*\r?(?:\n|$)/y;

/** Cuts a text before every line that begins with a head of the file, as the parser does. */
function* stretchesOf(text: string): Iterable<SeenStretch> {
  let start = 0;
  let firstLine = 0;
  let line = 0;
  let seen = new Plain();
  const stretch = (end: number): SeenStretch => ({
    start,
    firstLine,
    text: text.slice(start, end),
    lineEnd: line,
    tag: seen.tag(),
  });
  const returns = text.includes('\r') ? loneReturns(text) : 0;
  if (returns > 0) {
    // Line ends of a kind that nobody has written for decades: left to the parser as a whole.
    line = returns + newLines(text);
    yield { start, firstLine, text, lineEnd: line, tag: undefined };
    return;
  }
  for (let at = 0; at < text.length; ) {
    const next = text.indexOf('\n', at);
    const end = next < 0 ? text.length : next;
    let from = at;
    let code = text.charCodeAt(from);
    while (from < end && (code === 32 || code === 9)) code = text.charCodeAt(++from);
    if (from < end && code !== 13 && code !== 35) {
      const word = wordAt(text, from, end);
      const opens = word === undefined ? isOdd(code) && opensBlock(text.slice(at, end)) : TOP_WORDS.has(word);
      if (opens) {
        if (at > 0) yield stretch(at);
        start = at;
        firstLine = line;
        seen = new Plain();
        seen.open(text, from, word);
      } else seen.line(text, from, end, word);
    }
    if (next < 0) break;
    line++;
    at = next + 1;
  }
  yield stretch(text.length);
}

/** Blanks other than space and tab may stand before a head of the file. */
const isOdd = (code: number): boolean => code > 126;

const newLines = (text: string): number => text.split('\n').length - 1;
const loneReturns = (text: string): number => text.match(/\r(?!\n)/g)?.length ?? 0;

/** The word in small letters that begins at an offset, if a blank or the end of the line follows it. */
function wordAt(text: string, from: number, end: number): string | undefined {
  let to = from;
  for (; to < end; to++) {
    const code = text.charCodeAt(to);
    if (code >= 97 && code <= 122) continue;
    if (code === 45 && to > from) continue;
    if (code === 32 || code === 9 || (code === 13 && to + 1 === end)) break;
    return undefined;
  }
  return to === from ? undefined : text.slice(from, to);
}

/** Whether a stretch is one tree all of whose lines begin with words that can stand there, so that its head says all. */
class Plain {
  private isPlain = true;
  private opened: string | undefined;
  private current: HeadSpec | undefined;

  open(text: string, from: number, word: string | undefined): void {
    PLAIN_TREE.lastIndex = from;
    this.opened = word === 'tree' ? PLAIN_TREE.exec(text)?.[1] : undefined;
    this.isPlain = this.opened !== undefined;
    this.current = TREE;
  }

  line(text: string, from: number, end: number, word: string | undefined): void {
    if (!this.isPlain) return;
    this.isPlain =
      word !== undefined &&
      word !== 'formerly' &&
      this.opened !== undefined &&
      end - from <= LONGEST_PLAIN &&
      this.canStand(word, text, from, end);
  }

  private canStand(word: string, text: string, from: number, end: number): boolean {
    const double = TWO_WORD_HEADS.get(word);
    if (double && !text.slice(from, end).startsWith(`${double.word} `)) return false;
    const head = double ?? HEADS.get(word);
    if (head) {
      this.current = head;
      return head.under === 'tree';
    }
    return this.current!.fields.has(word) || TREE.fields.has(word);
  }

  tag(): SeenStretch['tag'] {
    if (!this.isPlain) return undefined;
    return this.opened === undefined ? 'nothing' : { text: this.opened };
  }
}
