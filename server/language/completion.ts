/** Completion at the cursor. */

import { type FieldSpec, HEADS, type HeadSpec, headsUnder } from '../../grammar/fields.ts';
import type { FormNode } from '../../grammar/forms.ts';
import { type ExpectedNext, expectedAfter } from '../../grammar/match.ts';
import { parseLine } from '../../grammar/parser.ts';
import { headNamed } from '../../grammar/read-line.ts';
import type { LineSyntax } from '../../grammar/syntax.ts';
import { sectionAt } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import { type CompletionContext, type CompletionItem, completionItemsFor } from './completion-items.ts';
import { type Cursor, cursorAt } from './cursor.ts';
import { entryText } from './hover.ts';
import { snippetOf } from './snippet.ts';

/** A completion item with the span it replaces. */
export interface PlacedCompletionItem extends CompletionItem, Span {
  /** Position in the list, best match first. */
  readonly rank: number;
}

/** The word before the cursor. */
const WORD_BEFORE = /"?[\p{L}\p{N}_./×'-]*$/u;

export function completions(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  offset: number,
): readonly PlacedCompletionItem[] {
  const cursor = cursorAt(file, offset);
  const before = cursor.line.syntax.text.slice(0, cursor.column);
  const typed = WORD_BEFORE.exec(before)![0];
  const start = offset - typed.length;
  const read = parseLine(before.slice(0, before.length - typed.length));
  // No completion in comments and quoted texts.
  if (read.comment || read.mistake) return [];
  const offers =
    read.items.length === 0 ? lineStarts(snapshot, cursor) : within(snapshot, cursor, read, typed);
  return offers
    .filter(offer => !isTypedInFull(offer, typed))
    .map((offer, rank) => ({ ...offer, start, end: offset, rank }));
}

/** In many editors Enter accepts an offer, even one that adds nothing, instead of ending the line. */
const isTypedInFull = ({ label, text = label, snippet = text }: CompletionItem, typed: string): boolean =>
  snippet === typed;

/** Fields of the head above, then heads. */
function lineStarts(snapshot: DatedWorkspace, cursor: Cursor): readonly CompletionItem[] {
  const { placed, lineIndex } = cursor;
  const section = sectionAt(placed, lineIndex - 1);
  const head = section && HEADS.get(section.word);
  const { lines } = placed.block;
  const written = new Set(
    (section?.fields ?? []).filter(index => index !== lineIndex).map(index => lines[index]!.word),
  );
  const fields = [...(head?.fields.values() ?? [])].filter(({ word, many }) => many || !written.has(word));
  const top = head?.under ?? head?.word;
  return [
    ...fields.map(field => lineItem(field, snapshot.today)),
    ...(top === undefined ? [] : headsUnder(top)).map(inner => lineItem(inner, snapshot.today)),
    ...headsUnder(undefined).map(outer => lineItem(outer, snapshot.today)),
  ];
}

const lineItem = (entry: FieldSpec | HeadSpec, today: number): CompletionItem => ({
  label: entry.word,
  kind: 'fields' in entry ? 'head' : 'field',
  snippet: `${entry.word} ${snippetOf(entry.node, today)}`.trimEnd(),
  detail: entry.summary,
  documentation: entryText(entry),
});

interface LineForm {
  readonly node: FormNode;
  readonly firstItem: number;
  readonly word: string;
}

/** The form of the line begun. */
function formOf(read: LineSyntax, head: HeadSpec | undefined): LineForm | undefined {
  const named = headNamed(read);
  if (named) return { node: named.head.node, firstItem: named.words, word: named.head.word };
  const first = read.items[0];
  const field = first?.kind === 'word' ? head?.fields.get(first.text) : undefined;
  return field && { node: field.node, firstItem: 1, word: field.word };
}

function within(
  snapshot: DatedWorkspace,
  cursor: Cursor,
  read: LineSyntax,
  typed: string,
): readonly CompletionItem[] {
  const section = sectionAt(cursor.placed, cursor.lineIndex - 1);
  const head = section && HEADS.get(section.word);
  const form = formOf(read, head);
  if (!form) return secondWords(read);
  const isHead = HEADS.has(form.word) && headNamed(read) !== undefined;
  const context: CompletionContext = {
    snapshot,
    cursor,
    word: form.word,
    head: isHead ? form.word : head!.word,
    typed,
  };
  const expected: readonly ExpectedNext[] = expectedAfter(read, form.firstItem, form.node);
  const offers = expected.flatMap(one => completionItemsFor(one, context));
  // Alternatives of a form may propose the same word.
  return offers.filter(
    ({ label, detail }, i) =>
      offers.findIndex(other => other.label === label && other.detail === detail) === i,
  );
}

/** `nest` → `check`. */
function secondWords(read: LineSyntax): readonly CompletionItem[] {
  const first = read.items[0];
  if (read.items.length !== 1 || first?.kind !== 'word') return [];
  return [...HEADS.values()]
    .filter(({ word }) => word.startsWith(`${first.text} `))
    .map(head => ({
      label: head.word.split(' ')[1]!,
      kind: 'head',
      detail: head.summary,
      documentation: entryText(head),
    }));
}
