/**
 * What other files need to know of a text: the tags of its trees, and the stretches that state something about
 * more than one tree. Costs a small part of reading all of it, so that an inventory of any size can be asked
 * first what holds across its files, and then be read and judged piece by piece.
 */

import { opensBlock, splitBlocks } from '../../grammar/blocks.ts';
import { HEADS, type HeadSpec, headsUnder, TWO_WORD_HEADS } from '../../grammar/fields.ts';
import type { Span } from '../../grammar/text.ts';
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
  for (const stretch of stretchesOf(text)) {
    const { tag, start, end, firstLine } = stretch;
    lineEnds = stretch.lineEnd;
    if (tag === 'nothing') continue;
    if (tag !== undefined) {
      tags.push(tag.text);
      continue;
    }
    let isShared = false;
    const own = text.slice(start, end);
    for (const { block } of splitBlocks(own)) {
      const fact = factOf(block);
      if (fact?.kind === 'tree') {
        tags.push(fact.tag.value);
        for (const { value } of fact.formerly) formerly.push(value);
      } else if (fact) isShared = true;
    }
    if (isShared) shared.push({ start, firstLine, text: own });
  }
  return { tags, formerly, shared, lineEnds };
}

/**
 * The stretches with trees that have one of these tags or had it formerly, and those with facts that are not
 * trees. Among them may be some that have neither.
 */
export function stretchesNaming(text: string, tags: ReadonlySet<string>): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const { tag, start, end, firstLine } of stretchesOf(text)) {
    if (tag === undefined || (tag !== 'nothing' && tags.has(tag.text)))
      found.push({ start, firstLine, text: text.slice(start, end) });
  }
  return found;
}

interface SeenStretch extends Span {
  readonly firstLine: number;
  /** Line ends of the text up to the end of the stretch. */
  readonly lineEnd: number;
  /** A tree with this tag and nothing else that others need; `nothing` for a stretch without facts. */
  readonly tag: { readonly text: string } | 'nothing' | undefined;
}

const TREE = HEADS.get('tree')!;

/** For the tree and each head inside it: the words of fields that may stand there, and say nothing that others need. */
const PLAIN_FIELDS: ReadonlyMap<HeadSpec, ReadonlySet<string>> = new Map(
  [TREE, ...headsUnder('tree')].map(head => [
    head,
    new Set(
      [...head.fields.keys(), ...TREE.fields.keys()].filter(
        word => word !== 'formerly' && !HEADS.has(word) && !TWO_WORD_HEADS.has(word),
      ),
    ),
  ]),
);

const TOP_WORDS = new Set(headsUnder(undefined).map(({ word }) => word));

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
    end,
    firstLine,
    lineEnd: line,
    tag: seen.tag,
  });
  const returns = text.includes('\r') ? loneReturns(text) : 0;
  if (returns > 0) {
    // Line ends of a kind that nobody has written for decades: left to the parser as a whole.
    line = returns + newLines(text);
    yield { start, end: text.length, firstLine, lineEnd: line, tag: undefined };
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
      if (word !== undefined && seen.hasField(word, end - from)) {
        // Nothing that others need.
      } else if (word === undefined ? isOdd(code) && opensBlock(text.slice(at, end)) : TOP_WORDS.has(word)) {
        if (at > 0) yield stretch(at);
        start = at;
        firstLine = line;
        seen = new Plain();
        seen.open(text, from, word);
      } else seen.other(word, text, from, end);
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

/** The head that a word opens, the first one of its line. */
function headOf(word: string, text: string, from: number): HeadSpec | undefined {
  const double = TWO_WORD_HEADS.get(word);
  if (!double) return HEADS.get(word);
  return text.startsWith(`${double.word} `, from) ? double : undefined;
}

/** Whether a stretch is one tree all of whose lines begin with words that can stand there, so that its head says all. */
class Plain {
  /** As far as the lines of the stretch tell so far. */
  tag: SeenStretch['tag'] = 'nothing';
  /** Fields that may stand where the last head is; undefined where the stretch is not such a tree. */
  private fields: ReadonlySet<string> | undefined;

  open(text: string, from: number, word: string | undefined): void {
    PLAIN_TREE.lastIndex = from;
    const opened = word === 'tree' ? PLAIN_TREE.exec(text)?.[1] : undefined;
    this.tag = opened === undefined ? undefined : { text: opened };
    this.fields = this.tag && PLAIN_FIELDS.get(TREE);
  }

  /** Whether a line of this length that begins with this word is one of the fields that stand here. */
  hasField(word: string, length: number): boolean {
    return this.fields !== undefined && length <= LONGEST_PLAIN && this.fields.has(word);
  }

  /** A line that is none of those fields: only a head inside a tree leaves the stretch plain. */
  other(word: string | undefined, text: string, from: number, end: number): void {
    const head = word !== undefined && end - from <= LONGEST_PLAIN ? headOf(word, text, from) : undefined;
    this.fields &&= head && PLAIN_FIELDS.get(head);
    if (!this.fields) this.tag = undefined;
  }
}
