/**
 * The table of heads and fields. Parser, formatter, completion, hover, reference and highlighting read it;
 * nothing else knows which words the notation has.
 */

import { PRACTICE_HEADS, TOP_HEADS } from './fields-top.ts';
import { TREE_HEADS } from './fields-tree.ts';
import { compileForm, type FormNode } from './forms.ts';

/** One field as the tables write it. */
export interface FieldEntry {
  readonly word: string;
  /** What follows the word; see forms.ts. */
  readonly form: string;
  readonly summary: string;
  /** A whole line, as a writer would write it. */
  readonly example: string;
  /** May the field stand several times in one block? */
  readonly many?: boolean;
  /** Does hardly any block say the same as another? Then its lines are not kept for reuse. */
  readonly distinct?: boolean;
}

export interface HeadEntry extends FieldEntry {
  /** The head under which it stands; undefined for the four heads of the file itself. */
  readonly under?: 'tree' | 'practice';
  readonly fields: readonly FieldEntry[];
}

export interface FieldSpec extends FieldEntry {
  readonly node: FormNode;
}

export interface HeadSpec extends FieldSpec {
  readonly under: 'tree' | 'practice' | undefined;
  readonly fields: ReadonlyMap<string, FieldSpec>;
}

const compileField = (entry: FieldEntry): FieldSpec => ({ ...entry, node: compileForm(entry.form) });

const compileHead = (entry: HeadEntry): HeadSpec => ({
  ...compileField(entry),
  under: entry.under,
  fields: new Map(entry.fields.map(field => [field.word, compileField(field)])),
});

/** All heads by their word (`tree`, `nest check`). */
export const HEADS: ReadonlyMap<string, HeadSpec> = new Map(
  [...TOP_HEADS, ...PRACTICE_HEADS, ...TREE_HEADS].map(entry => [entry.word, compileHead(entry)]),
);

export const headsUnder = (word: string | undefined): readonly HeadSpec[] => byParent.get(word) ?? [];

const byParent = new Map<string | undefined, HeadSpec[]>();
for (const head of HEADS.values()) {
  const list = byParent.get(head.under) ?? [];
  list.push(head);
  byParent.set(head.under, list);
}

/** Heads of two words, by their first one: `nest` → `nest check`. */
export const TWO_WORD_HEADS: ReadonlyMap<string, HeadSpec> = new Map(
  [...HEADS.values()].filter(head => head.word.includes(' ')).map(head => [head.word.split(' ')[0]!, head]),
);
