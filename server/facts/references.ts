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

/** The names that a fact refers to, sorted by kind of holder, not by place. */
export function namesUsed(fact: Fact): readonly Named[] {
  const used: Named[] = [];
  if (fact.kind === 'crew') addAll(used, 'person', fact.members);
  else if (fact.kind === 'tree') {
    usedInEvidence(used, fact);
    usedInWork(used, fact);
  }
  return used;
}

function usedInEvidence(used: Named[], tree: Tree): void {
  for (const { by } of tree.inspections) add(used, 'person', by);
  for (const { unionWith } of tree.parts) add(used, 'part', unionWith);
  for (const { part } of tree.defects) add(used, 'part', part);
  for (const { defects } of tree.joined) addAll(used, 'defect', defects);
  for (const { target, defect } of tree.risks) {
    add(used, 'target', target);
    add(used, 'defect', defect);
  }
  for (const { by } of tree.nestChecks) add(used, 'person', by);
  for (const { by, found } of tree.batChecks) {
    add(used, 'person', by);
    for (const { defect } of found) add(used, 'defect', defect);
  }
}

function usedInWork(used: Named[], tree: Tree): void {
  for (const prescription of tree.prescriptions) {
    addAll(used, 'defect', prescription.for);
    addAll(used, 'part', prescription.remove);
    add(used, 'person', prescription.by);
    add(used, 'crew', prescription.crew);
    add(used, 'prescription', prescription.replaces);
  }
  for (const work of tree.works) {
    add(used, 'prescription', work.prescription);
    add(used, 'person', work.by);
    add(used, 'crew', work.crew);
  }
  for (const { of, by } of tree.followUps) {
    addAll(used, 'defect', of);
    add(used, 'person', by);
  }
  for (const { by } of tree.accepts) add(used, 'person', by);
}

const named = (kind: NameKind, { value, start, end }: Placed<string>): Named => ({
  kind,
  name: value,
  start,
  end,
});

function add(used: Named[], kind: NameKind, word: Placed<string> | undefined): void {
  if (word !== undefined && word.value !== UNREAD) used.push(named(kind, word));
}

function addAll(used: Named[], kind: NameKind, words: readonly Placed<string>[]): void {
  for (const word of words) add(used, kind, word);
}
