/** Inspections of a tree, and investigations still to be made. */

import type { Span } from '../../grammar/text.ts';
import type { Defect, FollowUp, Inspection, Placed, Site, Tree, WrittenTree } from '../facts/types.ts';
import { areAbout } from './causes.ts';
import { whicheverIsChosen } from './jobs.ts';
import { fellsTree, openPrescriptionsOfAnyKind } from './prescriptions.ts';

const NO_DEFECTS: readonly Defect[] = [];

/** What falls, is pulled off or is filled in. Of a fungus, gone says only that it can no longer be seen. */
const CAN_BE_GONE: ReadonlySet<Defect['kind']['value']> = new Set([
  'dead wood',
  'hanger',
  'loose bark',
  'girdling root',
  'trench',
]);

/** Neither closed, nor healed, nor gone. */
export const isOpen = ({ kind, closed, state }: Defect): boolean =>
  !closed && state?.value !== 'healed' && !(state?.value === 'gone' && CAN_BE_GONE.has(kind.value));

/** Those of a standing tree that are open. */
export const openDefects = ({ defects, felled }: Tree): readonly Defect[] =>
  felled || defects.length === 0 ? NO_DEFECTS : defects.filter(isOpen);

/** `cavity A`. */
export const defectName = ({ kind, id }: Defect): string => `${kind.value} ${id.value}`;

export interface Look extends Span {
  readonly day: number;
}

/** Follow-ups that count as an inspection of the tree. */
const LOOKS: ReadonlySet<FollowUp['kind']['value']> = new Set(['re-inspection', 'climbing inspection']);

export const isLook = ({ kind }: FollowUp): boolean => LOOKS.has(kind.value);

/** By their days, in whatever order they are written. */
export const inspectionsByDay = ({ inspections }: Tree): readonly Inspection[] =>
  [...inspections].sort((a, b) => a.date.value - b.date.value);

export const lastInspectionOf = (tree: Tree): Inspection | undefined => inspectionsByDay(tree).at(-1);

/** Whether its condition is unknown: it stands, and nobody has looked yet. */
export const isUninspected = ({ felled, inspections }: Tree): boolean => !felled && inspections.length === 0;

/** The last inspection up to a day, or the last follow-up that counts as one. */
export function lastLook({ inspections, followUps }: Tree, today: number): Look | undefined {
  let day = Number.NEGATIVE_INFINITY;
  let place: Span | undefined;
  for (const { date, at } of inspections) {
    if (date.value > today || date.value < day) continue;
    day = date.value;
    place = at;
  }
  for (const followUp of followUps) {
    const { done, at } = followUp;
    if (!done || done.value > today || done.value < day || !isLook(followUp)) continue;
    day = done.value;
    place = at;
  }
  return place && { day, start: place.start, end: place.end };
}

/** The latest storm that a tree with open defects has not been inspected since. */
export function missedStorm(
  tree: Tree,
  site: Site | undefined,
  today: number,
): Site['storms'][number] | undefined {
  if (!site || site.storms.length === 0 || openDefects(tree).length === 0) return undefined;
  const last = lastLook(tree, today);
  if (!last) return undefined;
  const missed = site.storms.filter(({ date }) => date > last.day && date <= today);
  return missed.reduce<(typeof missed)[number] | undefined>(
    (a, b) => (a && a.date >= b.date ? a : b),
    undefined,
  );
}

/** The inspection in which a defect was first seen and all later ones. */
export function inspectionsOf({ inspections }: Tree, { seen, earlier }: Defect): readonly Inspection[] {
  const first = earlier.at(-1) ?? { seen };
  return first.seen === undefined ? inspections : inspections.filter(({ date }) => date.value >= first.seen!);
}

const NO_FOLLOW_UPS: readonly FollowUp[] = [];
/** How long before its day a test may have been made to be the one that was planned, days. */
const AHEAD = 365;

/** Whether a planned pull test was made: its record is there. Without a day no test can be told from an earlier one. */
const isPulled = ({ kind, due }: FollowUp, pullTests: Tree['pullTests']): boolean =>
  kind.value === 'pull test' &&
  due !== undefined &&
  pullTests.some(({ date }) => date.value >= due.value - AHEAD);

export const openFollowUps = ({ followUps, felled, pullTests }: Tree): readonly FollowUp[] =>
  felled ? NO_FOLLOW_UPS : followUps.filter(one => !one.done && !isPulled(one, pullTests));

/** Whether an open prescription removes the tree or the part with the defect. */
const isTakenAway = (tree: Tree, { part }: Defect): boolean =>
  whicheverIsChosen(
    tree,
    openPrescriptionsOfAnyKind(tree),
    prescription => fellsTree(prescription) || prescription.remove.some(({ value }) => value === part?.value),
  );

/** Whether a follow-up or a prescription is to investigate the defect. */
const isLookedInto = (tree: Tree, defect: Defect): boolean =>
  openFollowUps(tree).some(({ of }) => areAbout(of, defect)) ||
  whicheverIsChosen(
    tree,
    openPrescriptionsOfAnyKind(tree),
    ({ kind, for: causes }) =>
      kind.value === 'investigate' && (causes.length === 0 || areAbout(causes, defect)),
  );

/** Whether the defect is going to be investigated or removed. */
export const isAnswered = (tree: Tree, defect: Defect): boolean =>
  isLookedInto(tree, defect) || isTakenAway(tree, defect);

/** The next unused id of a follow-up. */
export function freeFollowUp({ followUps, prescriptions, defects }: WrittenTree): string {
  const taken = new Set([...followUps, ...prescriptions, ...defects].map(({ id }) => id.value));
  for (let i = 1; ; i++) if (!taken.has(`F${i}`)) return `F${i}`;
}

/** `add "follow-up F2 probe" and, below it, "of A" and "due" with the date`. */
export function followUpWords(
  tree: Tree,
  kind: string,
  ...about: readonly { readonly id: Placed<string> }[]
): string {
  const of = about.length > 0 ? `"of ${about.map(({ id }) => id.value).join(', ')}" and ` : '';
  return `add "follow-up ${freeFollowUp(tree)} ${kind}" and, below it, ${of}"due" with the date`;
}
