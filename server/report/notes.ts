/**
 * Notes, the free text of a record. Notes of a tree are for all readers of the report, those of a site for the crew and
 * the office. Comments (`#`) are not reported.
 */

import { formatDate } from '../base/dates.ts';
import { capital, quoted } from '../base/words.ts';
import type { NotedList, Placed, Tree } from '../facts/types.ts';
import { inRegion } from '../show/in-region.ts';
import type { ReportData } from './data.ts';
import { groupBySite } from './parts.ts';
import { sentence } from './words.ts';

export interface Noted {
  readonly notes: readonly Placed<string>[];
}

/** The notes as sentences; empty without notes. */
export const noteWords = ({ notes }: Noted): string =>
  notes
    .filter(({ value }) => value.trim() !== '')
    .map(({ value }) => sentence(capital(value.trim())))
    .join(' ');

/** The same, to be appended to other words. */
export const withNotes = (noted: Noted): string => {
  const words = noteWords(noted);
  return words === '' ? '' : ` ${words}`;
};

/** The same as an item for `pairs`; none without notes. */
export const notesItem = (noted: Noted, name = 'Noted'): readonly (readonly [string, string])[] => {
  const words = noteWords(noted);
  return words === '' ? [] : [[name, words]];
};

/** What a note is of, for the heads inside a tree that may have notes. */
const NOTED: { readonly [List in NotedList]: (fact: Tree[List][number]) => string } = {
  inspections: ({ date }) => `inspection ${formatDate(date.value)}`,
  parts: ({ kind, name }) => `${kind} ${name.value}`,
  defects: ({ kind, id }) => `${kind.value} ${id.value}`,
  supports: ({ kind, id }) => `${kind.value} ${id.value}`,
  drillings: ({ defect, date }) => `drilling of ${defect.value}, ${formatDate(date.value)}`,
  tomograms: ({ defect, date }) => `tomogram of ${defect.value}, ${formatDate(date.value)}`,
  joined: ({ defects }) => `${defects.map(({ value }) => value).join(' and ')}, joined`,
  targets: ({ name }) => `target ${quoted(name.value)}`,
  risks: ({ target }) => `risk to ${quoted(target.value)}`,
  conductors: ({ name }) => `overhead power line ${quoted(name.value)}`,
  nestChecks: ({ date }) => `nest check ${formatDate(date.value)}`,
  batChecks: ({ date }) => `bat check ${formatDate(date.value)}`,
  pullTests: ({ date }) => `pull test ${formatDate(date.value)}`,
  views: ({ name }) => `view ${quoted(name.value)}`,
  prescriptions: ({ kind, id }) => `${kind.value} ${id.value}`,
  works: ({ prescription, date }) => `work ${prescription.value} of ${formatDate(date.value)}`,
  followUps: ({ kind, id }) => `${kind.value} ${id.value}`,
};

/** The notes of a tree and of its records: subject and note. */
function notesOf(tree: Tree): readonly (readonly [string, string])[] {
  const noted = <List extends NotedList>(list: List) =>
    (tree[list] as readonly Tree[List][number][]).map(fact => [NOTED[list](fact), noteWords(fact)] as const);
  const all = [
    ['the tree', noteWords(tree)] as const,
    ...(Object.keys(NOTED) as NotedList[]).flatMap(list => noted(list)),
  ];
  return all.filter(([, words]) => words !== '');
}

/** Tag or site, subject, note. */
export const allNotes = ({ trees }: ReportData): readonly (readonly [string, string, string])[] => [
  ...groupBySite(trees).flatMap(({ site, name }) => {
    const words = site ? noteWords(site) : '';
    return words === '' ? [] : [[name, 'the site', words] as const];
  }),
  ...trees.flatMap(({ tree, settings }) =>
    notesOf(tree).map(([of, words]) => [tree.tag.value, inRegion(of, settings.region), words] as const),
  ),
];
