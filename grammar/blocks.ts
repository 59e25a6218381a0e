/** Text → blocks. Where blocks begin, and what each consists of. */

import { HEADS, type HeadSpec, headsUnder } from './fields.ts';
import { contextOf, firstWord, readHead, readLine } from './read-line.ts';
import { guess } from './recovery.ts';
import type { Block, BlockLine, PlacedBlock, Section } from './syntax.ts';
import { splitLines, type TextLine } from './text.ts';

const TOP_WORD = new RegExp(
  `^[ \\t\\u00A0\\uFEFF]*(?:${headsUnder(undefined)
    .map(head => head.word)
    .join('|')})(?=[ \\t\\u00A0]|$)`,
);

/** Does a line open a block, as far as its first word tells? */
export const opensBlock = (line: string): boolean => TOP_WORD.test(line);

/** The blocks of a text, in order; together they hold every character of it. */
export function splitBlocks(text: string, parse: (text: string) => ParsedPiece = parsePiece): PlacedBlock[] {
  const placed: PlacedBlock[] = [];
  const lines = splitLines(text);
  let first = 0;
  const add = (from: number, to: number) => {
    const start = lines[from]!.start;
    const end = to < lines.length ? lines[to]!.start : text.length;
    const { block, nextBlockAt } = parse(text.slice(start, end));
    placed.push({ start, firstLine: from, block });
    // A damaged head was recognised inside: it opens a block of its own.
    if (nextBlockAt !== undefined) add(from + nextBlockAt, to);
  };
  for (let i = 1; i <= lines.length; i++) {
    if (i < lines.length && !opensBlock(lines[i]!.text)) continue;
    add(first, i);
    first = i;
  }
  return placed;
}

export interface ParsedPiece {
  /** The part before `nextBlockAt`. */
  readonly block: Block;
  /** Line of a damaged head of the file that was found further down. */
  readonly nextBlockAt: number | undefined;
}

/** The block that a text begins with; ends early where a damaged head opens another one. */
export function parsePiece(text: string): ParsedPiece {
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
        this.lines.push({ start, ...read });
        return;
      case 'head':
        return this.head(i, HEADS.get(read.word!)!, { start, ...read });
      case 'field':
        this.field(i, { start, ...read });
        return;
      case 'bad':
        return this.recover(i, { start, ...read });
    }
  }

  private head(i: number, spec: HeadSpec, line: BlockLine): 'next block' | undefined {
    if (spec.under === undefined) {
      if (i > 0 && (this.top !== undefined || this.lines.some(l => l.role === 'bad'))) return 'next block';
      this.top = spec;
    }
    let placed = line;
    if (spec.under !== undefined && spec.under !== this.top?.word && !line.mistake) {
      const word = firstWord(line.syntax);
      placed = {
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
    this.lines.push(placed);
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
