/**
 * The table of heads and fields, compiled. Parser, formatter, facts, names, completion, exports, reference and
 * highlighting read it; nothing else knows which words the notation has.
 */

import type { FieldEntry, HeadEntry } from './entries.ts';
import { PRACTICE_HEADS, TOP_HEADS } from './fields-top.ts';
import { TREE_HEADS } from './fields-tree.ts';
import { compileForm, eachLeaf, type FormNode, type FormValue, shownForm } from './forms.ts';

export interface FieldSpec extends FieldEntry {
  readonly node: FormNode;
  /** The form for people. */
  readonly shown: string;
  /** Its values by name; of one that has several types (the value of a limit) the first. */
  readonly values: ReadonlyMap<string, FormValue>;
}

export interface HeadSpec extends Omit<HeadEntry, 'fields' | 'under'>, FieldSpec {
  readonly under: 'tree' | 'practice' | undefined;
  readonly fields: ReadonlyMap<string, FieldSpec>;
}

function compileField(entry: FieldEntry): FieldSpec {
  const node = compileForm(entry.form);
  const values = new Map<string, FormValue>();
  eachLeaf(node, leaf => {
    if (leaf.kind !== 'value' && leaf.kind !== 'choice') return;
    const known = values.get(leaf.name);
    if (!known) values.set(leaf.name, leaf);
    else if (known.kind === 'choice' && leaf.kind === 'choice')
      values.set(leaf.name, { ...known, words: [...new Set([...known.words, ...leaf.words])] });
  });
  return { ...entry, node, shown: shownForm(entry.form), values };
}

const compileHead = (entry: HeadEntry): HeadSpec => ({
  ...entry,
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

/** Fields that end a record and keep it. */
export const ENDING_FIELDS: ReadonlySet<string> = new Set(
  [...HEADS.values()].flatMap(({ fields }) =>
    [...fields.values()].filter(({ ends }) => ends).map(({ word }) => word),
  ),
);

/** Words that stand for themselves in a form. */
export const FORM_WORDS: ReadonlySet<string> = new Set(
  [...HEADS.values()].flatMap(head => [head, ...head.fields.values()].flatMap(({ node }) => literals(node))),
);

function literals(node: FormNode): readonly string[] {
  const words: string[] = [];
  eachLeaf(node, leaf => {
    if (leaf.kind === 'literal') words.push(leaf.word);
  });
  return words;
}
