/** Names that facts give and names that they refer to: for unknown names, definitions, renaming. */

import type { Span } from '../../grammar/text.ts';
import { UNREAD } from './lines.ts';
import type { Fact, Placed, Tree } from './types.ts';

/** Persons and crews hold for the whole workspace, tags for their site, the others for their tree. */
export type NameKind =
  | 'person'
  | 'crew'
  | 'tag'
  | 'defect'
  /** What may be a defect, or a stem or limb, and is neither. */
  | 'cause'
  | 'prescription'
  | 'part'
  | 'target'
  | 'follow-up'
  | 'conductor'
  | 'view';

/** A name where it is given or used; the span is relative to the block. */
export interface Named extends Span {
  readonly kind: NameKind;
  readonly name: string;
}

/** The part that every tree has without naming it. */
export const TRUNK = 'trunk';

/** The names that a fact gives. */
export function namesGiven(fact: Fact): readonly Named[] {
  switch (fact.kind) {
    case 'person':
    case 'crew':
      return [named(fact.kind, fact.id)];
    case 'tree':
      return [
        named('tag', fact.tag),
        ...fact.defects.map(defect => named('defect', defect.id)),
        ...fact.prescriptions.map(prescription => named('prescription', prescription.id)),
        ...fact.parts.map(part => named('part', part.name)),
        ...fact.targets.map(target => named('target', target.name)),
        ...fact.followUps.map(followUp => named('follow-up', followUp.id)),
        ...fact.conductors.map(conductor => named('conductor', conductor.name)),
        ...fact.views.map(view => named('view', view.name)),
      ].filter(({ name }) => name !== UNREAD);
    default:
      return [];
  }
}

/** What is done with a name that a fact refers to. */
export type TakeName = (kind: NameKind, word: Placed<string>) => void;

/** The names that a fact refers to, sorted by kind of holder, not by place. */
export function namesUsed(fact: Fact): readonly Named[] {
  const used: Named[] = [];
  eachNameUsed(fact, (kind, word) => used.push(named(kind, word)));
  return used;
}

/** The same without a list of them, for who asks of every tree. */
export function eachNameUsed(fact: Fact, take: TakeName): void {
  if (fact.kind === 'crew') all('person', fact.members, take);
  else if (fact.kind === 'tree') {
    usedInEvidence(fact, take);
    usedInWork(fact, take);
  }
}

function usedInEvidence(tree: Tree, take: TakeName): void {
  for (const { by } of tree.inspections) one('person', by, take);
  for (const { unionWith } of tree.parts) one('part', unionWith, take);
  for (const { part } of tree.defects) one('part', part, take);
  for (const { defects } of tree.joined) all('defect', defects, take);
  for (const { closed } of tree.targets) one('person', closed?.by, take);
  for (const { target, defect, by } of tree.risks) {
    one('target', target, take);
    cause(tree, defect, take);
    one('person', by, take);
  }
  for (const { by } of tree.nestChecks) one('person', by, take);
  for (const { by, found } of tree.batChecks) {
    one('person', by, take);
    for (const { defect } of found) one('defect', defect, take);
  }
}

function usedInWork(tree: Tree, take: TakeName): void {
  for (const prescription of tree.prescriptions) {
    for (const word of prescription.for) cause(tree, word, take);
    all('part', prescription.remove, take);
    one('person', prescription.by, take);
    one('crew', prescription.crew, take);
    one('prescription', prescription.replaces, take);
    all('prescription', prescription.alternatives, take);
  }
  for (const work of tree.works) {
    one('prescription', work.prescription, take);
    one('person', work.by, take);
    one('crew', work.crew, take);
  }
  for (const { of, by } of tree.followUps) {
    for (const word of of) cause(tree, word, take);
    one('person', by, take);
  }
  for (const { by } of tree.accepts) one('person', by, take);
}

export const named = (kind: NameKind, { value, start, end }: Placed<string>): Named => ({
  kind,
  name: value,
  start,
  end,
});

function one(kind: NameKind, word: Placed<string> | undefined, take: TakeName): void {
  if (word !== undefined && word.value !== UNREAD) take(kind, word);
}

/** A defect by its name; where there is none, a part. */
function cause({ defects, parts }: Tree, word: Placed<string> | undefined, take: TakeName): void {
  if (word === undefined) return;
  const isDefect = defects.some(({ id }) => id.value === word.value);
  const isPart = word.value === TRUNK || parts.some(({ name }) => name.value === word.value);
  one(isDefect ? 'defect' : isPart ? 'part' : 'cause', word, take);
}

function all(kind: NameKind, words: readonly Placed<string>[], take: TakeName): void {
  for (const word of words) one(kind, word, take);
}
