/** Completion at the cursor. */

import { type FieldSpec, HEADS, type HeadSpec, headsUnder } from '../../grammar/fields.ts';
import type { FormNode } from '../../grammar/forms.ts';
import { expectedAfter } from '../../grammar/match.ts';
import { parseLine } from '../../grammar/parser.ts';
import { headNamed } from '../../grammar/read-line.ts';
import type { LineSyntax } from '../../grammar/syntax.ts';
import { sectionAt } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import { type CompletionContext, type CompletionItem, completionItemsFor } from './completion-items.ts';
import { type Cursor, cursorAt } from './cursor.ts';
import { beginsWith, filterText } from './matching.ts';
import { recordContent, recordSnippet } from './record-snippets.ts';
import { escapeSnippet, snippetOf } from './snippet.ts';
import { entryText } from './terms.ts';

/** A completion item with the span it replaces. */
export interface PlacedCompletionItem extends CompletionItem, Span {
  /** What editors compare with the text of the span. */
  readonly filterText: string;
}

export interface Completions {
  /** The best match first. All replace the same span, because some editors ignore the spans of lists that differ. */
  readonly items: readonly PlacedCompletionItem[];
  /** Whether there are no others: if there are, what is typed next may bring them in. */
  readonly isComplete: boolean;
}

/** A longer list is not read, and takes the time of every key. */
const MOST_ITEMS = 60;

/** The word before the cursor, with the mark of a quantity or the quotation mark before it. */
const WORD_BEFORE = /(?:"|[~<>] ?)?[\p{L}\p{N}_./×'-]*$/u;
/** The word before that. */
const EARLIER_WORD = /(?<=^|[\s,])[^\s,#"]+\s+$/;
/** Words before the cursor that may belong to one name: `Quercus garryana var. brew`. */
const MOST_WORDS = 4;

/** @param paths of the files of the workspace that may be named, relative to its root; see wantsPaths */
export function completions(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  offset: number,
  paths: readonly string[] = [],
): Completions {
  const cursor = cursorAt(file, offset);
  const { text } = cursor.line.syntax;
  const before = text.slice(0, cursor.column);
  const found = startsOf(before).flatMap((at, words) => {
    const typed = before.slice(at);
    return offersAt({ snapshot, cursor, paths, typed }, before.slice(0, at)).flatMap(offer => {
      const names = offer.names ?? [offer.label];
      const filter = filterText(names, typed);
      // What was typed before the last word is only replaced by a name that it belongs to.
      if (words > 0 && (filter === undefined || !names.some(name => name.includes(' ')))) return [];
      if (isTypedInFull(offer, typed) || `${names[0]} ` === typed) return [];
      return [{ offer, at, filter, rank: filter === undefined ? 2 : beginsWith(names[0]!, typed) ? 0 : 1 }];
    });
  });
  const labels = new Set<string>();
  const different = found.filter(({ offer: { label } }) => !labels.has(label) && labels.add(label));
  // A short list is left to the editor, which knows more ways to match.
  const kept = (different.length <= MOST_ITEMS ? different : different.filter(({ rank }) => rank < 2)).sort(
    (a, b) => a.rank - b.rank,
  );
  const at = Math.min(...kept.map(one => one.at));
  const start = offset - before.length + at;
  // The quotation mark that an editor closes by itself.
  const end = before[at] === '"' && text[cursor.column] === '"' ? offset + 1 : offset;
  const items = kept.slice(0, MOST_ITEMS).map(({ offer, at: own, filter = offer.label }) => {
    const skipped = before.slice(at, own);
    const item = { ...offer, start, end, filterText: skipped + filter };
    if (skipped === '') return item;
    const { label, text: written = label, snippet } = offer;
    return {
      ...item,
      text: skipped + written,
      ...(snippet === undefined ? {} : { snippet: escapeSnippet(skipped) + snippet }),
    };
  });
  return { items, isComplete: kept.length <= MOST_ITEMS };
}

/** In many editors Enter accepts an offer, even one that adds nothing, instead of ending the line. */
const isTypedInFull = ({ label, text = label, snippet = text }: CompletionItem, typed: string): boolean =>
  snippet === typed;

/** Where what is typed may begin, as columns: at the last word, then at those before it. */
function startsOf(before: string): readonly number[] {
  const { mistake } = parseLine(before);
  if (mistake?.code === 'unclosed-quote') return [mistake.start];
  let at = before.length - WORD_BEFORE.exec(before)![0].length;
  const starts = [at];
  while (starts.length <= MOST_WORDS) {
    const earlier = EARLIER_WORD.exec(before.slice(0, at))?.[0];
    if (earlier === undefined) break;
    at -= earlier.length;
    starts.push(at);
  }
  return starts;
}

type Asked = Pick<CompletionContext, 'snapshot' | 'cursor' | 'paths' | 'typed'>;

function offersAt(asked: Asked, before: string): readonly CompletionItem[] {
  const read = parseLine(before);
  // No completion in comments and quoted texts.
  if (read.comment || read.mistake) return [];
  return read.items.length === 0 ? lineStarts(asked, before) : within(asked, read);
}

/** Whether a path is expected at an offset: files need not be listed for anything else. */
export function wantsPaths(file: FileSnapshot, offset: number): boolean {
  const cursor = cursorAt(file, offset);
  const before = cursor.line.syntax.text.slice(0, cursor.column);
  return startsOf(before).some(at => {
    const read = parseLine(before.slice(0, at));
    const line = read.comment || read.mistake ? undefined : formOf(read, cursor);
    return (
      line &&
      expectedAfter(read, line.firstItem, line.spec.node).some(
        one => one.kind === 'value' && one.type === 'path',
      )
    );
  });
}

/** Fields of the head above, then heads, then whole records. */
function lineStarts({ snapshot: { today }, cursor }: Asked, indent: string): readonly CompletionItem[] {
  const { placed, lineIndex } = cursor;
  const section = sectionAt(placed, lineIndex - 1);
  const head = section && HEADS.get(section.word);
  const { lines } = placed.block;
  const written = new Set(
    (section?.fields ?? []).filter(index => index !== lineIndex).map(index => lines[index]!.word),
  );
  const fields = [...(head?.fields.values() ?? [])].filter(({ word, many }) => many || !written.has(word));
  const top = head?.under ?? head?.word;
  const inner = top === undefined ? [] : headsUnder(top);
  const outer = headsUnder(undefined);
  return [
    ...[...fields, ...inner, ...outer].map(entry => lineItem(entry, today)),
    // The indentation says which kind of record is begun.
    ...(indent === '' ? outer : inner).map(entry => recordItem(entry, today)),
  ];
}

const lineItem = (entry: FieldSpec | HeadSpec, today: number): CompletionItem => ({
  label: entry.word,
  kind: 'fields' in entry ? 'head' : 'field',
  snippet: `${entry.word} ${snippetOf(entry.node, today)}`.trimEnd(),
  detail: entry.summary,
  documentation: () => entryText(entry),
});

const recordItem = (head: HeadSpec, today: number): CompletionItem => ({
  label: `${head.word} with ${recordContent(head)}`,
  kind: 'record',
  names: [head.word],
  snippet: recordSnippet(head, today),
  detail: `${head.summary} With the fields most often needed.`,
  documentation: () => entryText(head),
});

interface LineForm {
  readonly spec: { readonly word: string; readonly node: FormNode };
  readonly firstItem: number;
  /** The head that the line is, or that it belongs to. */
  readonly head: string;
}

/** The form of the line begun. */
function formOf(read: LineSyntax, { placed, lineIndex }: Cursor): LineForm | undefined {
  const named = headNamed(read);
  if (named) return { spec: named.head, firstItem: named.words, head: named.head.word };
  const section = sectionAt(placed, lineIndex - 1);
  const head = section && HEADS.get(section.word);
  const first = read.items[0];
  const field = first?.kind === 'word' ? head?.fields.get(first.text) : undefined;
  return head && field && { spec: field, firstItem: 1, head: head.word };
}

function within(asked: Asked, read: LineSyntax): readonly CompletionItem[] {
  const form = formOf(read, asked.cursor);
  if (!form) return [];
  const { spec, head, firstItem } = form;
  const context: CompletionContext = { ...asked, word: spec.word, head, read, firstItem };
  return expectedAfter(read, firstItem, spec.node).flatMap(one => completionItemsFor(one, context));
}
