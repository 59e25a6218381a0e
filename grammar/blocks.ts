/** Text → blocks. Where blocks begin, and what each consists of. */

import { HEADS, type HeadSpec, headsUnder } from './fields.ts';
import { type Evidence, type ParsedAhead, parseAhead } from './lookahead.ts';
import { contextsOf, firstWord, linesBelow, readHead, readLine } from './read-line.ts';
import { guess } from './recovery.ts';
import type { Block, Line, LineSyntax, PlacedBlock } from './syntax.ts';
import { splitLines, type TextLines } from './text.ts';

const patternOf = (heads: readonly HeadSpec[]): string =>
  `[ \\t\\u00A0\\uFEFF]*(?:${heads.map(({ word }) => word).join('|')})(?=[ \\t\\u00A0\\r\\n]|$)`;
/** Matches only the line end, so the head begins at lastIndex. */
const beforeHead = (heads: readonly HeadSpec[]): RegExp => new RegExp(`[\\r\\n](?=${patternOf(heads)})`, 'g');

const HEADS_OF_FILE = [...headsUnder(undefined)];
const AT_START = new RegExp(`^${patternOf(HEADS_OF_FILE)}`);
const BEFORE_HEAD = beforeHead(HEADS_OF_FILE);
const OTHERS = HEADS_OF_FILE.filter(({ word }) => word !== 'tree');
const OTHER_AT_START = new RegExp(`^${patternOf(OTHERS)}`);
const BEFORE_OTHER = beforeHead(OTHERS);

/** Whether a line's first word opens a block. */
export const opensBlock = (line: string): boolean => AT_START.test(line);

/** The blocks of a text, in order; together they cover all of it. */
export const splitBlocks = (text: string): PlacedBlock[] => [...blocksOf(text)];

/** Yields the blocks one by one, so that the syntax of a large file need not be in memory at once. */
export function* blocksOf(text: string): Iterable<PlacedBlock> {
  let start = 0;
  let firstLine = 0;
  // One regular expression over the whole text is much faster than testing every line.
  for (const end of endsOf(text)) {
    const piece = pieceOf(text.slice(start, end));
    for (let from: number | undefined = 0; from !== undefined; ) {
      const { block, nextBlockAt }: ParsedPiece = parsePiece(piece, from);
      yield { start, firstLine, block };
      start += block.text.length;
      // The empty line after the last line end is the first line of the next block.
      firstLine += nextBlockAt === undefined ? block.lines.length - 1 : nextBlockAt - from;
      // A damaged head inside opens a block of its own.
      from = nextBlockAt;
    }
  }
}

/** Offsets at which undamaged heads begin, and the end of the text. */
function* endsOf(text: string): Iterable<number> {
  // The consumer may use the same regular expression between two results.
  for (let at = 0; ; ) {
    BEFORE_HEAD.lastIndex = at;
    if (!BEFORE_HEAD.test(text)) break;
    at = BEFORE_HEAD.lastIndex;
    yield at;
  }
  yield text.length;
}

/**
 * The stretches of a text in which other things than trees are stated, from their undamaged heads up to the next head of
 * the file: much faster to find than to read everything.
 */
export function* stretchesWithoutTrees(
  text: string,
): Iterable<{ readonly start: number; readonly text: string }> {
  for (
    let start: number | undefined = OTHER_AT_START.test(text) ? 0 : nextOther(text, 0);
    start !== undefined;
  ) {
    BEFORE_HEAD.lastIndex = start;
    const end = BEFORE_HEAD.test(text) ? BEFORE_HEAD.lastIndex : text.length;
    yield { start, text: text.slice(start, end) };
    start = end === text.length ? undefined : nextOther(text, end - 1);
  }
}

/** @param from may be the line break before the head */
function nextOther(text: string, from: number): number | undefined {
  BEFORE_OTHER.lastIndex = from;
  return BEFORE_OTHER.test(text) ? BEFORE_OTHER.lastIndex : undefined;
}

/** A text that is parsed block by block. */
interface TextPiece {
  readonly text: string;
  readonly lines: TextLines;
  /** Undefined until a line is damaged. */
  ahead: Ahead | undefined;
}

/** The lookahead of recovery; each line is parsed once, however many damaged lines precede it. */
interface Ahead {
  /** The first line that was not parsed yet. */
  next: number;
  /** Lines that were parsed ahead and not reached yet, in order. */
  readonly parsed: { readonly line: number; readonly at: ParsedAhead }[];
}

const pieceOf = (text: string): TextPiece => ({
  text,
  lines: splitLines(text),
  ahead: undefined,
});

interface ParsedPiece {
  /** The part before `nextBlockAt`. */
  readonly block: Block;
  /** Line of a damaged head of the file found further down. */
  readonly nextBlockAt: number | undefined;
}

/** Parses the block that begins at a line; ends early if a damaged head opens another block. */
function parsePiece(piece: TextPiece, from: number): ParsedPiece {
  const { text, lines } = piece;
  const reading = new BlockReading(piece, from);
  let end = from;
  while (end < lines.texts.length && reading.take(end - from) !== 'next block') end++;
  const isLast = end === lines.texts.length;
  const start = lines.starts[from]!;
  const block = {
    text: text.slice(start, lines.starts[end]),
    lines: reading.lines,
    starts: start === 0 && isLast ? lines.starts : lines.starts.slice(from, end).map(at => at - start),
    sections: reading.sections,
  };
  return { block, nextBlockAt: isLast ? undefined : end };
}

/** Parses the text of one block. */
export const parseBlock = (text: string): Block => parsePiece(pieceOf(text), 0).block;

/** How many lines below a damaged one are used to recover it. */
const LINES_AHEAD = 39;

const NO_EVIDENCE: readonly Evidence[] = [];

/** A section whose lines are being read. */
interface OpenSection {
  readonly word: string;
  readonly head: number;
  readonly fields: number[];
}

class BlockReading {
  readonly lines: Line[] = [];
  readonly sections: OpenSection[] = [];
  private below = linesBelow(undefined);
  private top: HeadSpec | undefined;
  /** Below a head that could not be recovered, lines are not reported one by one. */
  private suppressCascade = false;
  /** Field words that the current head already has; computed when first needed. */
  private seen: Set<string> | undefined;

  /** @param from first line of the block in the piece; the block's lines are counted from it */
  constructor(
    private readonly piece: TextPiece,
    private readonly from: number,
  ) {}

  take(i: number): 'next block' | undefined {
    const line = this.from + i;
    const read = readLine(this.piece.lines.texts[line]!, this.below, this.parsedAt(line));
    switch (read.role) {
      case 'blank':
      case 'comment':
        this.lines.push(read);
        return;
      case 'head':
        return this.head(i, HEADS.get(read.word!)!, read);
      case 'field':
        this.field(i, read);
        return;
      case 'bad':
        return this.recover(i, read);
    }
  }

  private head(i: number, spec: HeadSpec, line: Line): 'next block' | undefined {
    if (spec.under === undefined) {
      if (i > 0 && (this.top !== undefined || this.lines.some(l => l.role === 'bad'))) return 'next block';
      this.top = spec;
    }
    let kept = line;
    if (spec.under !== undefined && spec.under !== this.top?.word && !line.mistake) {
      const word = firstWord(line.syntax);
      kept = {
        ...line,
        mistake: {
          code: 'out-of-place',
          message: `There is no ${spec.under} above this ${spec.word}.`,
          remedy: `Move it below its ${spec.under}.`,
          start: word?.start ?? 0,
          end: word?.end ?? 0,
        },
      };
    }
    this.below = linesBelow(spec);
    this.seen = undefined;
    this.suppressCascade = false;
    this.lines.push(kept);
    this.sections.push({ word: spec.word, head: i, fields: [] });
    return;
  }

  private field(i: number, line: Line): void {
    this.lines.push(line);
    if (line.mistake?.code === 'out-of-place') return;
    this.sections[this.sections.length - 1]!.fields.push(i);
    this.seen?.add(line.word!);
  }

  /** The evidence in the lines below a damaged one. */
  private ahead(first: number): readonly Evidence[] {
    const ahead = (this.piece.ahead ??= { next: 0, parsed: [] });
    const { texts } = this.piece.lines;
    const { parsed } = ahead;
    const end = Math.min(first + LINES_AHEAD, texts.length);
    for (let line = Math.max(ahead.next, first); line < end; line++) {
      const at = parseAhead(texts[line]!);
      if (at) parsed.push({ line, at });
    }
    ahead.next = Math.max(ahead.next, end);
    let evidence: Evidence[] | undefined;
    for (const { line, at } of parsed) {
      if (line >= first && at.evidence) (evidence ??= []).push(at.evidence);
    }
    return evidence ?? NO_EVIDENCE;
  }

  /** The syntax of a line that was already parsed by the lookahead. */
  private parsedAt(line: number): LineSyntax | undefined {
    const { ahead } = this.piece;
    if (!ahead) return undefined;
    const { parsed } = ahead;
    while (parsed.length > 0 && parsed[0]!.line < line) parsed.shift();
    const next = parsed[0];
    return next?.line === line ? next.at.syntax : undefined;
  }

  private recover(i: number, bad: Line): 'next block' | undefined {
    const { syntax } = bad;
    const { current } = this.below;
    this.seen ??= new Set(this.sections.at(-1)?.fields.map(field => this.lines[field]!.word!));
    const around = { current, top: this.top, seen: this.seen };
    const { head, argumentsFrom, mistake } = guess(syntax, around, this.ahead(this.from + i + 1));
    if (head) {
      const read = readHead(syntax, head, argumentsFrom);
      return this.head(i, head, { ...read, mistake });
    }
    const silent = this.suppressCascade && contextsOf(syntax).length > 0;
    if (current === undefined) this.suppressCascade = true;
    const { role, word, values } = bad;
    this.lines.push({ syntax, role, word, values, mistake: silent ? undefined : mistake });
    return;
  }
}

export type { Block, PlacedBlock };
