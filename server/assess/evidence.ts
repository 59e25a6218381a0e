/** What was seen of a tree, how long ago, and what is still to be looked at. */

import type { Span } from '../../grammar/text.ts';
import type { Defect, FollowUp, Inspection, Placed, Tree } from '../facts/types.ts';
import { areAbout } from './causes.ts';
import { whicheverIsChosen } from './jobs.ts';
import { fellsTree, openPrescriptionsOfAnyKind } from './prescriptions.ts';

const NO_DEFECTS: readonly Defect[] = [];

/** Defects that still matter: neither closed nor healed; none on a felled tree. */
export const openDefects = ({ defects, felled }: Tree): readonly Defect[] =>
  felled || defects.length === 0
    ? NO_DEFECTS
    : defects.filter(({ closed, state }) => !closed && state?.value !== 'healed');

/** For the middle of a sentence: `cavity A`. */
export const defectName = ({ kind, id }: Defect): string => `${kind.value} ${id.value}`;

export interface Look extends Span {
  readonly day: number;
}

/** Follow-ups that are a look at the tree as such. */
const LOOKS: ReadonlySet<FollowUp['kind']['value']> = new Set(['re-inspection', 'climbing inspection']);

/** The last inspection by a day, or the last follow-up that was one; undefined where nobody looked. */
export function lastLook({ inspections, followUps }: Tree, today: number): Look | undefined {
  let day = Number.NEGATIVE_INFINITY;
  let place: Span | undefined;
  for (const { date, at } of inspections) {
    if (date.value > today || date.value < day) continue;
    day = date.value;
    place = at;
  }
  for (const { kind, done, at } of followUps) {
    if (!done || done.value > today || done.value < day || !LOOKS.has(kind.value)) continue;
    day = done.value;
    place = at;
  }
  return place && { day, start: place.start, end: place.end };
}

/** The inspections that could see a defect: that in which it was seen and those after it. */
export const inspectionsOf = ({ inspections }: Tree, { seen }: Defect): readonly Inspection[] =>
  seen === undefined ? inspections : inspections.filter(({ date }) => date.value >= seen);

/** Follow-ups that are still to be made. */
export const openFollowUps = ({ followUps, felled }: Tree): readonly FollowUp[] =>
  felled ? [] : followUps.filter(({ done }) => !done);

/** Whether a prescription still open takes the defect away: the tree comes down, or the part that has it. */
const isTakenAway = (tree: Tree, { part }: Defect): boolean =>
  whicheverIsChosen(
    tree,
    openPrescriptionsOfAnyKind(tree),
    prescription => fellsTree(prescription) || prescription.remove.some(({ value }) => value === part?.value),
  );

/** Whether somebody is to investigate a defect, by a follow-up of it or a prescription. */
const isLookedInto = (tree: Tree, defect: Defect): boolean =>
  openFollowUps(tree).some(({ of }) => areAbout(of, defect)) ||
  whicheverIsChosen(
    tree,
    openPrescriptionsOfAnyKind(tree),
    ({ kind, for: causes }) =>
      kind.value === 'investigate' && (causes.length === 0 || areAbout(causes, defect)),
  );

/** Whether nobody needs to be told to look closer: it is going to be looked into, or to be taken away. */
export const isAnswered = (tree: Tree, defect: Defect): boolean =>
  isLookedInto(tree, defect) || isTakenAway(tree, defect);

/** The next name for a follow-up that the tree has not given yet. */
export function freeFollowUp({ followUps, prescriptions, defects }: Tree): string {
  const taken = new Set([...followUps, ...prescriptions, ...defects].map(({ id }) => id.value));
  for (let i = 1; ; i++) if (!taken.has(`F${i}`)) return `F${i}`;
}

/** How a follow-up is written, for people: `follow-up F2 probe, and below it "of A" and "due" with its day`. */
export function followUpWords(
  tree: Tree,
  kind: string,
  ...about: readonly { readonly id: Placed<string> }[]
): string {
  const of = about.length > 0 ? `"of ${about.map(({ id }) => id.value).join(', ')}" and ` : '';
  return `follow-up ${freeFollowUp(tree)} ${kind}, and below it ${of}"due" with its day`;
}
