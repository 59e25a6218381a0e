/**
 * What one line of text consists of, with no meaning attached. A line's syntax is a pure function of its text,
 * positions are relative to the line, and nothing in it is ever changed: equal lines share one syntax.
 */

import type { MonthDay } from '../server/base/dates.ts';
import type { Quantity } from '../server/base/quantity.ts';
import type { SpeciesName } from './species.ts';
import type { Span } from './text.ts';

export interface WordItem extends Span {
  readonly kind: 'word' | 'cultivar' | 'path' | 'text';
  readonly text: string;
}

export type Item =
  | WordItem
  | ({ readonly kind: 'comma' } & Span)
  /** With or without unit; `unit` undefined means that the writer gave none. */
  | ({ readonly kind: 'quantity'; readonly quantity: Quantity } & Span)
  | ({ readonly kind: 'date'; readonly from: number; readonly to: number; readonly window: boolean } & Span)
  | ({ readonly kind: 'monthDays'; readonly from: MonthDay; readonly to: MonthDay } & Span);

/** A value that a line has under a name of its form. */
export type Value = (
  | { readonly type: 'quantity'; readonly quantity: Quantity }
  | { readonly type: 'dates'; readonly from: number; readonly to: number }
  | { readonly type: 'monthDays'; readonly from: MonthDay; readonly to: MonthDay }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'bearing'; readonly degrees: number }
  | { readonly type: 'species'; readonly species: SpeciesName }
) &
  Span & { readonly name: string };

/** A mistake in a line: where, what, and how to fix it. */
export interface Mistake extends Span {
  readonly code: MistakeCode;
  readonly message: string;
  readonly remedy: string;
  /** A replacement for the marked stretch that would fix it, where one is likely. */
  readonly fix?: string;
  /** The fix is what the writer meant, whatever else the line says: all such fixes can be made at once. */
  readonly sure?: true;
  /** Replacements among which only the writer can choose. */
  readonly choices?: readonly string[];
}

/** Names of the mistakes of the notation: they read like rules in a finding, but are none. */
export const MISTAKE_CODES = [
  'unclosed-quote',
  'stray-mark',
  'bad-date',
  'bad-range',
  'unknown-unit',
  'missing-unit',
  'wrong-unit',
  'unknown-word',
  'unexpected',
  'incomplete',
  'out-of-place',
  'merge-conflict',
  'not-text',
  'line-too-long',
] as const;

export type MistakeCode = (typeof MISTAKE_CODES)[number];

export interface LineSyntax {
  readonly text: string;
  readonly items: readonly Item[];
  /** From the # to the end of the line. */
  readonly comment: Span | undefined;
  /** A mistake in the words themselves; the line then has no items that can be trusted. */
  readonly mistake: Mistake | undefined;
}

type LineRole = 'blank' | 'comment' | 'head' | 'field' | 'bad';

/** What a line says below a head, wherever it stands: equal lines share one. */
export interface Line {
  readonly syntax: LineSyntax;
  readonly role: LineRole;
  /** Head or field word as the tables have it (`nest check`, `dbh`); undefined for blank, comment and bad lines. */
  readonly word: string | undefined;
  /** Values by name, spans relative to the line. Empty where the line has a mistake and is a field. */
  readonly values: readonly Value[];
  readonly mistake: Mistake | undefined;
}

/** A line in its block. */
export interface BlockLine extends Line {
  /** Offset of the line in its block. */
  readonly start: number;
}

/** A head with the lines that belong to it. */
export interface BlockSection {
  /** `tree`, `defect`, `nest check`… */
  readonly word: string;
  /** Index of the head line in the block. A head that was only guessed has a mistake in its line. */
  readonly head: number;
  /** Indices of the field lines, in order. */
  readonly fields: readonly number[];
}

/**
 * From one head of the file to the next: the unit that is parsed, kept and thrown away. A pure function of its
 * own text; offsets are relative to its start.
 */
export interface Block {
  readonly text: string;
  readonly lines: readonly Line[];
  /** Offset of each of them in the block. */
  readonly starts: readonly number[];
  /** The head of the file first (absent in text before the first head), then the heads inside it. */
  readonly sections: readonly BlockSection[];
}

/**
 * One of a block's lines with its place. Spelled out, since a spread costs several times as much and nearly every line
 * passes here.
 */
export function placedLine({ lines, starts }: Block, index: number): BlockLine {
  const { syntax, role, word, values, mistake } = lines[index]!;
  return { start: starts[index]!, syntax, role, word, values, mistake };
}

/** Where a block stands in its file. */
export interface PlacedBlock {
  readonly start: number;
  readonly firstLine: number;
  readonly block: Block;
}

/** The last section whose head is the line or stands above it. */
export const sectionAt = ({ block }: PlacedBlock, lineIndex: number): BlockSection | undefined =>
  block.sections.findLast(({ head }) => head <= lineIndex);
