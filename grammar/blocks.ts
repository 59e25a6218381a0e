/** Text → blocks. Where blocks begin, and what each consists of. */

import { HEADS, type HeadSpec, headsUnder } from './fields.ts';
import { contextOf, firstWord, type ReadLine, readHead, readLine } from './read-line.ts';
import { guess } from './recovery.ts';
import type { Block, BlockLine, PlacedBlock, Section } from './syntax.ts';
import { splitLines, type TextLine } from './text.ts';

const HEAD_OF_FILE = `[ \\t\\u00A0\\uFEFF]*(?:${headsUnder(undefined)
  .map(head => head.word)
  .join('|')})(?=[ \\t\\u00A0\\r\\n]|$)`;
const AT_START = new RegExp(`^${HEAD_OF_FILE}`);
const AFTER_LINE_END = new RegExp(`[\\r\\n]${HEAD_OF_FILE}`, 'g');

/** Does a line open a block, as far as its first word tells? */
export const opensBlock = (line: string): boolean => AT_START.test(line);

/** The blocks of a text, in order; together they hold every character of it. */
export function splitBlocks(text: string): PlacedBlock[] {
  const placed: PlacedBlock[] = [];
  let start = 0;
  let firstLine = 0;
  const addUntil = (end: number) => {
    for (;;) {
      const { block, nextBlockAt } = parsePiece(text.slice(start, end));
      placed.push({ start, firstLine, block });
      start += block.text.length;
      // The empty line behind the last line end is the first one of what follows.
      firstLine += nextBlockAt ?? block.lines.length - 1;
      if (nextBlockAt === undefined) return;
      // A damaged head was recognised inside: it opens a block of its own.
    }
  };
  // One pass over the whole text costs a fraction of a look at every line.
  for (const { index } of text.matchAll(AFTER_LINE_END)) addUntil(index + 1);
  addUntil(text.length);
  return placed;
}

interface ParsedPiece {
  /** The part before `nextBlockAt`. */
  readonly block: Block;
  /** Line of a damaged head of the file that was found further down. */
  readonly nextBlockAt: number | undefined;
}

/** The block that a text begins with; ends early where a damaged head opens another one. */
function parsePiece(text: string): ParsedPiece {
  const lines = splitLines(text);
  const reading = new Reading(lines);
  for (let i = 0; i < lines.length; i++) {
    if (reading.take(i) === 'next block') {
      const block = {
        text: text.slice(0, lines[i]!.start),
        lines: reading.lines,
        sections: reading.sections,
      };
      return { block, nextBlockAt: i };
    }
  }
  return { block: { text, lines: reading.lines, sections: reading.sections }, nextBlockAt: undefined };
}

/** A block from its text alone. */
export const parseBlock = (text: string): Block => parsePiece(text).block;

/** A section while its lines are being read. */
interface OpenSection {
  readonly word: string;
  readonly head: number;
  readonly fields: number[];
}

/** Spelled out, since a spread costs several times as much and every line passes here. */
const placedLine = ({ syntax, role, word, values, mistake }: ReadLine, start: number): BlockLine => ({
  start,
  syntax,
  role,
  word,
  values,
  mistake,
});

class Reading {
  readonly lines: BlockLine[] = [];
  readonly sections: OpenSection[] = [];
  private current: HeadSpec | undefined;
  private top: HeadSpec | undefined;
  /** Lines that belong to a head nobody could make out are not reported one by one. */
  private lost = false;

  constructor(private readonly texts: readonly TextLine[]) {}

  take(i: number): 'next block' | undefined {
    const { text, start } = this.texts[i]!;
    const read = readLine(text, this.current);
    switch (read.role) {
      case 'blank':
      case 'comment':
        this.lines.push(placedLine(read, start));
        return;
      case 'head':
        return this.head(i, HEADS.get(read.word!)!, placedLine(read, start));
      case 'field':
        this.field(i, placedLine(read, start));
        return;
      case 'bad':
        return this.recover(i, placedLine(read, start));
    }
  }

  private head(i: number, spec: HeadSpec, line: BlockLine): 'next block' | undefined {
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
          message: `${spec.word} stands outside a ${spec.under}.`,
          remedy: `Put it below the ${spec.under} that it belongs to.`,
          start: word?.start ?? 0,
          end: word?.end ?? 0,
        },
      };
    }
    this.current = spec;
    this.lost = false;
    this.lines.push(kept);
    this.sections.push({ word: spec.word, head: i, fields: [] });
    return;
  }

  private field(i: number, line: BlockLine): void {
    this.lines.push(line);
    if (line.mistake?.code !== 'out-of-place') this.sections[this.sections.length - 1]!.fields.push(i);
  }

  private recover(i: number, line: BlockLine): 'next block' | undefined {
    const seen = new Set(
      (this.sections[this.sections.length - 1]?.fields ?? []).map(field => this.lines[field]!.word!),
    );
    const following = this.texts.slice(i + 1, i + 40).map(next => next.text);
    const guessed = guess(line, { current: this.current, top: this.top, seen }, following);
    if (guessed.head) {
      const read = readHead(line.syntax, guessed.head, guessed.argumentsFrom);
      return this.head(i, guessed.head, { start: line.start, ...read, mistake: guessed.mistake });
    }
    const silent = this.lost && contextOf(line.syntax) !== undefined;
    if (this.current === undefined) this.lost = true;
    this.lines.push({ ...line, mistake: silent ? undefined : guessed.mistake });
    return;
  }
}

export type { Block, PlacedBlock, Section };
