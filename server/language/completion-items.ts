/** Proposals for one thing that may stand at a place. */

import { COMPASS_POINTS } from '../../grammar/bearing.ts';
import type { NameKind } from '../../grammar/entries.ts';
import { type FieldSpec, HEADS } from '../../grammar/fields.ts';
import { DIMENSIONS, REFERENCES } from '../../grammar/forms.ts';
import type { ExpectedNext } from '../../grammar/match.ts';
import type { LineSyntax } from '../../grammar/syntax.ts';
import { openDefects } from '../assess/evidence.ts';
import { formatDate } from '../base/dates.ts';
import { type Dimension, inUnit, plainNumber, unitOf, unitsFor, withUnit } from '../base/quantity.ts';
import { folderOf } from '../facts/paths.ts';
import { isPhotoPath } from '../facts/photos.ts';
import { asWritten, namesGiven, TRUNK } from '../facts/references.ts';
import { type Settings, writtenDimension } from '../facts/settings.ts';
import { treeOn } from '../facts/state.ts';
import type { WrittenTree } from '../facts/types.ts';
import type { DatedWorkspace } from '../facts/workspace.ts';
import { findLimit, limits } from '../practice/limits.ts';
import type { ClosedSeason } from '../practice/region-pack.ts';
import { regionPacks } from '../practice/regions.ts';
import { RULES } from '../rules/registry.ts';
import { type Cursor, headStart } from './cursor.ts';
import { escapeMarkdown } from './markdown.ts';
import { inspectionDays, workWindows } from './offered-days.ts';
import { knownOrganisms, organismsAt, organismsIn, organismText } from './organisms.ts';
import { pathAsWritten, relativeTo } from './photos.ts';
import { ruleText } from './rule-text.ts';
import { settingsOf } from './snapshot.ts';
import { limitText } from './terms.ts';

export type CompletionKind =
  | 'head'
  | 'field'
  | 'record'
  | 'word'
  | 'unit'
  | 'species'
  | 'name'
  | 'rule'
  | 'limit'
  | 'date'
  | 'region'
  | 'file';

export interface CompletionItem {
  readonly label: string;
  readonly kind: CompletionKind;
  /** What it is found by, its own name first; the label where they are absent. */
  readonly names?: readonly string[];
  /** What is written; the label where it is absent. */
  readonly text?: string;
  /** Written in its place where the editor has snippets. */
  readonly snippet?: string;
  readonly detail?: string;
  /** Markdown; only made of the item that somebody looks at. */
  readonly documentation?: () => string;
}

export interface CompletionContext {
  readonly snapshot: DatedWorkspace;
  readonly cursor: Cursor;
  /** Head or field of the line. */
  readonly word: string;
  /** The head it belongs to. */
  readonly head: string;
  /** The line before what is typed, and its first item after the word of the head or field. */
  readonly read: LineSyntax;
  readonly firstItem: number;
  /** What the proposals take the place of. */
  readonly typed: string;
  /** Paths of files that may be named, relative to the root. */
  readonly paths: readonly string[];
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
      return units(expected.type as Dimension, lastWord(context)).map(({ label, ...unit }) => ({
        ...unit,
        label: label.slice(lastWord(context).length + 1),
      }));
    case 'value':
      return values(expected, context);
  }
}

/** A number with each of its units. */
const units = (dimension: Dimension, number: string): readonly CompletionItem[] =>
  unitsFor(dimension).map(unit => ({ label: withUnit(number, unit), kind: 'unit', detail: unit.name }));

const lastWord = ({ read: { text } }: CompletionContext): string => text.trim().split(/\s/).at(-1)!;

/** A quantity that lacks its unit: `41`, `~5`, `2..4`. */
const NUMBER = /^(?:[~<>] ?)?[-+]?\d+(?:\.\d+)?(?:\.\.\d+(?:\.\d+)?)?$/;

const specOf = ({ word, head }: CompletionContext): FieldSpec | undefined =>
  word === head ? HEADS.get(head) : HEADS.get(head)?.fields.get(word);

/** The words of the line after that of its head or field. */
const wordsBefore = ({ read: { text, items }, firstItem }: CompletionContext): string =>
  text.slice(items[firstItem]?.start ?? text.length).trim();

function values(
  { type, name }: Extract<ExpectedNext, { kind: 'value' }>,
  context: CompletionContext,
): readonly CompletionItem[] {
  const { snapshot, cursor, typed } = context;
  const settings = () => settingsOf(snapshot, cursor.file.path);
  switch (type) {
    case 'date':
      return days(context);
    case 'window':
      return windows(context);
    case 'monthDays':
      return seasonDays(wordsBefore(context), settings());
    case 'bearing':
      return COMPASS_POINTS.map(point => ({ label: point, kind: 'word' }));
    case 'species':
      return species(context);
    case 'region':
      return regionPacks.map(({ code, name: region }) => ({
        label: code,
        kind: 'region',
        names: [code, region],
        detail: region,
      }));
    case 'path':
      return paths(context);
    case 'rule':
      return RULES.filter(rule => context.word === 'severity' || rule.acceptable).map(rule => ({
        label: rule.name,
        kind: 'rule',
        detail: rule.summary,
        documentation: () => ruleText(rule),
      }));
    case 'limit':
      return limits.map(({ name: label, summary, direction }) => ({
        label,
        kind: 'limit',
        detail: summary,
        documentation: () => limitText(label, summary, direction, settings()),
      }));
    case 'name':
    case 'text':
      return names(name, context);
    default: {
      if (context.word === 'limit') return limitValues(type as Dimension, context);
      if (!DIMENSIONS.has(type)) return [];
      if (NUMBER.test(typed)) return units(type as Dimension, typed);
      return [{ label: 'unseen', kind: 'word', detail: 'not examined: any possible value' }];
    }
  }
}

/** Today, and for what an inspection saw the days of inspections. */
function days(context: CompletionContext): readonly CompletionItem[] {
  const { snapshot, cursor } = context;
  const tree = cursor.fact?.fact;
  const inspected = specOf(context)?.inspected && tree?.kind === 'tree' ? inspectionDays(tree) : [];
  return [...inspected, { text: formatDate(snapshot.today), detail: 'today' }].map(({ text, detail }) => ({
    label: text,
    kind: 'date',
    detail,
  }));
}

/** For work the first days that are clear for it, for anything else what begins today. */
function windows({ snapshot, cursor, head, typed }: CompletionContext): readonly CompletionItem[] {
  const tree = cursor.fact?.fact;
  if (head !== 'prescription' || tree?.kind !== 'tree')
    return [
      {
        label: `${formatDate(snapshot.today)}..`,
        kind: 'date',
        detail: 'from today; then write the last day',
      },
    ];
  const start = headStart(cursor);
  const prescription = tree.prescriptions.find(({ at }) => at.start === start);
  if (!prescription) return [];
  return workWindows(snapshot, cursor.file.path, treeOn(tree, snapshot.today), prescription, typed).map(
    ({ text, detail }) => ({
      label: text,
      kind: 'date',
      detail,
    }),
  );
}

const inForce = (source: string, confidence: string): string =>
  `value here now (${source === confidence ? source : `${source}, ${confidence}`})`;

function seasonDays(season: string, settings: Settings): readonly CompletionItem[] {
  const found: Readonly<Record<string, ClosedSeason | undefined>> = {
    nesting: settings.nesting,
    'raptor nesting': settings.raptorNesting,
    'bat maternity': settings.batMaternity,
    pruning: settings.pruning,
  };
  const { window, citation, confidence } = found[season] ?? {};
  if (!window) return [];
  const show = ({ month, day }: { readonly month: number; readonly day: number }) =>
    [month, day].map(part => String(part).padStart(2, '0')).join('-');
  return [
    {
      label: `${show(window.from)}..${show(window.to)}`,
      kind: 'date',
      detail: inForce(citation!.short, confidence!),
    },
  ];
}

/** The value in force, or the units of what is typed; a limit has one dimension, and can't be unseen. */
function limitValues(dimension: Dimension, context: CompletionContext): readonly CompletionItem[] {
  const limit = findLimit(wordsBefore(context));
  if (!limit || writtenDimension(limit.dimension) !== dimension) return [];
  const { snapshot, cursor, typed } = context;
  if (NUMBER.test(typed)) return dimension === 'number' ? [] : units(dimension, typed);
  const { value, unit, citation } = settingsOf(snapshot, cursor.file.path).limit(limit.name);
  const written = unitOf(unit);
  return [
    {
      label: written ? inUnit(value, written, 2) : plainNumber(value, 2),
      kind: 'word',
      detail: inForce(citation.short, citation.confidence),
    },
  ];
}

/** The names that the file has already, before those of the tables. */
function species({ snapshot, cursor, head, word }: CompletionContext): readonly CompletionItem[] {
  const kinds = organismsAt(head, word);
  const settings = settingsOf(snapshot, cursor.file.path);
  // What is being typed is no name yet.
  const others = cursor.file.trees.filter(({ start }) => start !== cursor.fact?.start);
  return [...organismsIn(kinds, others), ...knownOrganisms(kinds)].map(({ species: one, detail }) => ({
    label: one.name,
    kind: 'species',
    ...(detail === undefined ? {} : { names: [one.name, detail], detail }),
    documentation: () => organismText(kinds, one, settings),
  }));
}

/** Photographs, or files of an instrument: those that the file does not name yet, then the others. */
function paths({ cursor, word, paths: all }: CompletionContext): readonly CompletionItem[] {
  const folder = folderOf(cursor.file.path);
  const fitting = all.filter(path => isPhotoPath(path) === (word === 'photo'));
  const offers = fitting.map((path): CompletionItem & { readonly isNamed: boolean } => {
    const plain = relativeTo(folder, path);
    return {
      label: pathAsWritten(plain),
      kind: 'file',
      names: [pathAsWritten(plain), plain],
      isNamed: cursor.file.text.includes(plain),
    };
  });
  return offers
    .sort((a, b) => Number(a.isNamed) - Number(b.isNamed) || (a.label < b.label ? -1 : 1))
    .map(({ isNamed, ...offer }) => ({
      ...offer,
      detail: isNamed ? 'named in this file' : 'not named in this file',
    }));
}

function names(value: string, context: CompletionContext): readonly CompletionItem[] {
  const { word, head } = context;
  const known = specOf(context)?.values.get(value);
  if (known?.kind !== 'value') return [];
  if (known.refers !== undefined)
    return REFERENCES[known.refers].means.flatMap(kind => knownNames(kind, context));
  if (word !== head) return [];
  return [...namesToReadAgain(context), ...(known.type === 'name' ? nextFreeName(context) : [])];
}

function knownNames(kind: NameKind, { snapshot, cursor }: CompletionContext): readonly CompletionItem[] {
  const { workspace } = snapshot;
  if (kind === 'person')
    return [...workspace.persons.values()].map(({ fact }) => ({
      label: fact.id.value,
      kind: 'name',
      names: [fact.id.value, fact.name.value],
      detail: fact.name.value,
      documentation: () => escapeMarkdown(fact.qualifications.map(({ value }) => value).join(', ')),
    }));
  if (kind === 'crew')
    return [...workspace.crews.values()].map(({ fact }) => ({
      label: fact.id.value,
      kind: 'name',
      names: [fact.id.value, fact.name.value],
      detail: fact.name.value,
    }));
  const tree = cursor.fact?.fact;
  if (tree?.kind !== 'tree') return [];
  const offers = givenOnce(tree, kind).map((name): CompletionItem => {
    const detail = detailOf(tree, kind, name);
    const label = asWritten(kind, name);
    return { label, kind: 'name', names: [label, name, detail], detail };
  });
  return kind === 'part' ? [{ label: TRUNK, kind: 'name', detail: 'the main stem' }, ...offers] : offers;
}

/** What is read again is named several times. */
const givenOnce = (tree: WrittenTree, kind: NameKind): readonly string[] => [
  ...new Set(namesGiven(tree).flatMap(named => (named.kind === kind ? [named.name] : []))),
];

/** Below a later inspection the names of what was read before and is still there. */
function namesToReadAgain({ cursor, snapshot, word }: CompletionContext): readonly CompletionItem[] {
  const tree = cursor.fact?.fact;
  const { declares, readAgain, values } = HEADS.get(word)!;
  if (tree?.kind !== 'tree' || !readAgain || !declares || tree.inspections.length < 2) return [];
  const state = treeOn(tree, snapshot.today);
  const open = new Set(openDefects(state).map(({ id }) => id.value));
  return givenOnce(tree, declares).flatMap((name): readonly CompletionItem[] => {
    if (declares === 'defect' && !open.has(name)) return [];
    const detail = detailOf(tree, declares, name);
    const label = values.has('kind') ? `${name} ${detail}` : asWritten(declares, name);
    return [{ label, kind: 'name', names: [label, name], detail: 'new reading' }];
  });
}

function detailOf(tree: WrittenTree, kind: NameKind, name: string): string {
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
