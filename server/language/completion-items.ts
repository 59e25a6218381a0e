/** Proposals for one thing that may stand at a place. */

import { COMPASS_POINTS } from '../../grammar/bearing.ts';
import type { NameKind } from '../../grammar/entries.ts';
import { HEADS } from '../../grammar/fields.ts';
import { DIMENSIONS, REFERENCES } from '../../grammar/forms.ts';
import type { ExpectedNext } from '../../grammar/match.ts';
import { formatDate } from '../base/dates.ts';
import { type Dimension, unitsFor } from '../base/quantity.ts';
import { asWritten, namesGiven, TRUNK } from '../facts/references.ts';
import type { Tree } from '../facts/types.ts';
import type { DatedWorkspace } from '../facts/workspace.ts';
import { limits } from '../practice/limits.ts';
import { genusNames, speciesTable } from '../practice/species.ts';
import { RULES } from '../rules/registry.ts';
import type { Cursor } from './cursor.ts';
import { limitText } from './figures.ts';
import { escapeMarkdown } from './markdown.ts';
import { ruleText } from './rule-text.ts';
import { settingsOf } from './snapshot.ts';
import { speciesText } from './species-text.ts';

export type CompletionKind =
  | 'head'
  | 'field'
  | 'word'
  | 'unit'
  | 'species'
  | 'name'
  | 'rule'
  | 'limit'
  | 'date';

export interface CompletionItem {
  readonly label: string;
  readonly kind: CompletionKind;
  /** What is written; the label where it is absent. */
  readonly text?: string;
  /** Written in its place where the editor has snippets. */
  readonly snippet?: string;
  readonly detail?: string;
  /** Markdown. */
  readonly documentation?: string;
}

export interface CompletionContext {
  readonly snapshot: DatedWorkspace;
  readonly cursor: Cursor;
  /** Head or field of the line. */
  readonly word: string;
  /** The head it belongs to. */
  readonly head: string;
  /** The part of the word before the cursor. */
  readonly typed: string;
}

export function completionItemsFor(
  expected: ExpectedNext,
  context: CompletionContext,
): readonly CompletionItem[] {
  switch (expected.kind) {
    case 'comma':
      return [];
    case 'word':
      return [{ label: expected.words, kind: 'word' }];
    case 'unit':
      return units(expected.type as Dimension, '');
    case 'value':
      return values(expected, context);
  }
}

/** @param number what they follow, where it is part of the word before the cursor */
const units = (dimension: Dimension, number: string): readonly CompletionItem[] =>
  unitsFor(dimension).map(({ symbol, name }) => ({
    label: number === '' ? symbol : `${number} ${symbol}`,
    kind: 'unit',
    detail: name,
  }));

function values(
  { type, name }: Extract<ExpectedNext, { kind: 'value' }>,
  context: CompletionContext,
): readonly CompletionItem[] {
  const { snapshot, cursor, typed } = context;
  switch (type) {
    case 'date':
      return [{ label: formatDate(snapshot.today), kind: 'date', detail: 'today' }];
    case 'window':
      return [
        {
          label: `${formatDate(snapshot.today)}..`,
          kind: 'date',
          detail: 'from today; the last day follows',
        },
      ];
    case 'bearing':
      return COMPASS_POINTS.map(point => ({ label: point, kind: 'word' }));
    case 'species':
      return species();
    case 'rule':
      return RULES.filter(rule => context.word === 'severity' || rule.acceptable).map(rule => ({
        label: rule.name,
        kind: 'rule',
        detail: rule.summary,
        documentation: ruleText(rule),
      }));
    case 'limit':
      return limits.map(({ name: label, summary, direction }) => ({
        label,
        kind: 'limit',
        detail: summary,
        documentation: limitText(label, summary, direction, settingsOf(snapshot, cursor.file.path)),
      }));
    case 'name':
    case 'text':
      return names(name, context);
    default:
      if (!DIMENSIONS.has(type)) return [];
      if (/^[-+]?\d+(?:\.\d+)?$/.test(typed)) return units(type as Dimension, typed);
      return [{ label: 'unseen', kind: 'word', detail: 'not seen: it may be anything' }];
  }
}

const species = (): readonly CompletionItem[] => [
  ...speciesTable.map(({ botanical, common, genus }) => ({
    label: botanical,
    kind: 'species' as const,
    detail: common,
    documentation: speciesText({ name: botanical, genus, binomial: botanical }),
  })),
  ...genusNames.map(genus => ({ label: genus, kind: 'species' as const, detail: 'genus' })),
];

function names(value: string, context: CompletionContext): readonly CompletionItem[] {
  const { word, head } = context;
  const spec = word === head ? HEADS.get(head) : HEADS.get(head)?.fields.get(word);
  const known = spec?.values.get(value);
  if (known?.kind !== 'value') return [];
  if (known.refers !== undefined)
    return REFERENCES[known.refers].means.flatMap(kind => knownNames(kind, context));
  return word === head && known.type === 'name' ? nextFreeName(context) : [];
}

function knownNames(kind: NameKind, { snapshot, cursor }: CompletionContext): readonly CompletionItem[] {
  const { workspace } = snapshot;
  if (kind === 'person')
    return [...workspace.persons.values()].map(({ fact }) => ({
      label: fact.id.value,
      kind: 'name',
      detail: fact.name.value,
      documentation: escapeMarkdown(fact.qualifications.map(({ value }) => value).join(', ')),
    }));
  if (kind === 'crew')
    return [...workspace.crews.values()].map(({ fact }) => ({
      label: fact.id.value,
      kind: 'name',
      detail: fact.name.value,
    }));
  const tree = cursor.fact?.fact;
  if (tree?.kind !== 'tree') return [];
  const given = namesGiven(tree).filter(named => named.kind === kind);
  const offers = given.map(
    ({ name }): CompletionItem => ({
      label: asWritten(kind, name),
      kind: 'name',
      detail: detailOf(tree, kind, name),
    }),
  );
  return kind === 'part' ? [{ label: TRUNK, kind: 'name', detail: 'the main stem' }, ...offers] : offers;
}

function detailOf(tree: Tree, kind: NameKind, name: string): string {
  if (kind === 'defect') return tree.defects.find(({ id }) => id.value === name)?.kind.value ?? kind;
  if (kind === 'prescription')
    return tree.prescriptions.find(({ id }) => id.value === name)?.kind.value ?? kind;
  return kind;
}

/** The next name of its kind that the tree has not given yet, after the example of the head: `C`, `R2`, `F1`. */
function nextFreeName({ cursor, word }: CompletionContext): readonly CompletionItem[] {
  const tree = cursor.fact?.fact;
  const head = HEADS.get(word)!;
  const [, letter, number] = /^\S+ ([A-Z])(\d*)(?= |$)/.exec(head.example) ?? [];
  if (tree?.kind !== 'tree' || letter === undefined) return [];
  const taken = new Set(namesGiven(tree).flatMap(({ kind, name }) => (kind === head.declares ? [name] : [])));
  for (const label of number === '' ? 'ABCDEFGHIJKLMNOPQRSTUVWXYZ' : numbered(letter))
    if (!taken.has(label)) return [{ label, kind: 'name', detail: 'next free name' }];
  return [];
}

function* numbered(letter: string): Iterable<string> {
  for (let i = 1; ; i++) yield `${letter}${i}`;
}
