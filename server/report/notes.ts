/**
 * Notes: what a writer wanted kept that no field holds. What was noted of a tree and what stands in it is for all who
 * read of it; what was noted of a site is for those who go there. Comments (`#`) stay in the inventory.
 */

import { formatDate } from '../base/dates.ts';
import type { NotedList, Placed, Tree } from '../facts/types.ts';
import type { ReportData } from './data.ts';
import { sites } from './parts.ts';
import { capital, quoted, sentence } from './words.ts';

export interface Noted {
  readonly notes: readonly Placed<string>[];
}

/** The notes as sentences; empty where there are none. */
export const noteWords = ({ notes }: Noted): string =>
  notes
    .filter(({ value }) => value.trim() !== '')
    .map(({ value }) => sentence(capital(value.trim())))
    .join(' ');

/** The same behind other words. */
export const withNotes = (noted: Noted): string => {
  const words = noteWords(noted);
  return words === '' ? '' : ` ${words}`;
};

/** The same as an item of a list of names and values. */
export const notesItem = (noted: Noted, name = 'Noted'): readonly (readonly [string, string])[] => {
  const words = noteWords(noted);
  return words === '' ? [] : [[name, words]];
};

/** What a note is of, for the heads inside a tree that may have notes. */
const NOTED: { readonly [List in NotedList]: (fact: Tree[List][number]) => string } = {
  inspections: ({ date }) => `inspection ${formatDate(date.value)}`,
  parts: ({ kind, name }) => `${kind} ${name.value}`,
  defects: ({ kind, id }) => `${kind.value} ${id.value}`,
  joined: ({ defects }) => `${defects.map(({ value }) => value).join(' and ')}, joined`,
  targets: ({ name }) => `target ${quoted(name.value)}`,
  risks: ({ target }) => `risk to ${quoted(target.value)}`,
  conductors: ({ name }) => `electric line ${quoted(name.value)}`,
  nestChecks: ({ date }) => `nest check ${formatDate(date.value)}`,
  batChecks: ({ date }) => `bat check ${formatDate(date.value)}`,
  views: ({ name }) => `view ${quoted(name.value)}`,
  prescriptions: ({ kind, id }) => `${kind.value} ${id.value}`,
  works: ({ prescription, date }) => `work ${prescription.value} of ${formatDate(date.value)}`,
  followUps: ({ kind, id }) => `${kind.value} ${id.value}`,
};

/** All that was noted of a tree and of what is in it, with what it is of. */
function notesOf(tree: Tree): readonly (readonly [string, string])[] {
  const noted = <List extends NotedList>(list: List) =>
    (tree[list] as readonly Tree[List][number][]).map(fact => [NOTED[list](fact), noteWords(fact)] as const);
  const all = [
    ['the tree', noteWords(tree)] as const,
    ...(Object.keys(NOTED) as NotedList[]).flatMap(list => noted(list)),
  ];
  return all.filter(([, words]) => words !== '');
}

/** Tree or site, what the note is of, the note. */
export const allNotes = ({ trees }: ReportData): readonly (readonly [string, string, string])[] => [
  ...sites(trees).flatMap(({ site, name }) => {
    const words = site ? noteWords(site) : '';
    return words === '' ? [] : [[name, 'the site', words] as const];
  }),
  ...trees.flatMap(({ tree }) => notesOf(tree).map(([of, words]) => [tree.tag.value, of, words] as const)),
];
