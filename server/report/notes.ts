/**
 * Notes, the free text of a record. Notes of a tree are for all readers of the report, those of a site for the crew and
 * the office. Comments (`#`) are not reported.
 */

import { formatDate } from '../base/dates.ts';
import { capital, quoted } from '../base/words.ts';
import type { Placed, Tree } from '../facts/types.ts';
import type { ReportData } from './data.ts';
import { groupBySite } from './parts.ts';
import { sentence } from './words.ts';

export interface Noted {
  readonly notes?: readonly Placed<string>[];
}

/** The notes as sentences; empty without notes. */
export const noteWords = ({ notes = [] }: Noted): string =>
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

/** The notes of a tree and of its records: subject and note. */
function notesOf(tree: Tree): readonly (readonly [string, string])[] {
  const of = <T extends Noted>(facts: readonly T[], name: (fact: T) => string) =>
    facts.flatMap(fact => {
      const words = noteWords(fact);
      return words === '' ? [] : [[name(fact), words] as const];
    });
  return [
    ...of([tree], () => 'the tree'),
    ...of(tree.inspections, ({ date }) => `inspection ${formatDate(date.value)}`),
    ...of(tree.parts, ({ kind, name }) => `${kind} ${name.value}`),
    ...of(tree.defects, ({ kind, id }) => `${kind.value} ${id.value}`),
    ...of(tree.joined, ({ defects }) => `${defects.map(({ value }) => value).join(' and ')}, joined`),
    ...of(tree.targets, ({ name }) => `target ${quoted(name.value)}`),
    ...of(tree.risks, ({ target }) => `risk to ${quoted(target.value)}`),
    ...of(tree.conductors, ({ name }) => `electric line ${quoted(name.value)}`),
    ...of(tree.nestChecks, ({ date }) => `nest check ${formatDate(date.value)}`),
    ...of(tree.batChecks, ({ date }) => `bat check ${formatDate(date.value)}`),
    ...of(tree.views, ({ name }) => `view ${quoted(name.value)}`),
    ...of(tree.prescriptions, ({ kind, id }) => `${kind.value} ${id.value}`),
    ...of(tree.works, ({ prescription, date }) => `work ${prescription.value} of ${formatDate(date.value)}`),
    ...of(tree.followUps, ({ kind, id }) => `${kind.value} ${id.value}`),
  ];
}

/** Tag or site, subject, note. */
export const allNotes = ({ trees }: ReportData): readonly (readonly [string, string, string])[] => [
  ...groupBySite(trees).flatMap(({ site, name }) => {
    const words = site ? noteWords(site) : '';
    return words === '' ? [] : [[name, 'the site', words] as const];
  }),
  ...trees.flatMap(({ tree }) => notesOf(tree).map(([of, words]) => [tree.tag.value, of, words] as const)),
];
