/** What is still to be done to a tree and what was done, as days on which somebody cuts. */

import type { Span } from '../../grammar/text.ts';
import { formatDate } from '../base/dates.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Prescription, Tree, Work } from '../facts/types.ts';

/** Prescriptions that cut the living tree or bring it down; the others leave it as it stands. */
const CUTTING: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
  'pollard',
  'monolith',
  'fell',
]);

/** Of these the ones after which a crown is left. */
export const KEEPS_A_CROWN: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
]);

/** A piece of work: recorded, or still open under a prescription. */
export interface Job {
  readonly prescription: Prescription;
  /** Where it was done. */
  readonly work?: Work | undefined;
  /** Days on which it is, or was, done; undefined where no window is stated or the window is past. */
  readonly days?: DaySpan | undefined;
  /** Where its days stand, else its head. */
  readonly at: Span;
  /** The day of recorded work, else the prescription's id. */
  readonly subject: string;
}

/** Seasons over which a prescription is spread; one unless it says otherwise. */
export const stagesOf = ({ stages }: Prescription): number =>
  stages === undefined || !(stages.value.low > 1) ? 1 : Math.floor(stages.value.low);

/** Neither withdrawn, nor overtaken by one that stands, nor an alternative to one that was chosen. */
export function standingPrescriptions(tree: Tree): readonly Prescription[] {
  const { prescriptions } = tree;
  // As nearly all are: a list that stays as it is needs not be made anew for each of the rules that ask.
  if (
    !prescriptions.some(
      ({ withdrawn, replaces, alternatives }) => withdrawn || replaces || alternatives.length > 0,
    )
  )
    return prescriptions;
  const overtaken = new Set(
    prescriptions
      .filter(({ id, withdrawn }) => !withdrawn && !isInCircle(prescriptions, id.value))
      .map(({ replaces }) => replaces?.value),
  );
  return prescriptions.filter(
    prescription =>
      !prescription.withdrawn &&
      !overtaken.has(prescription.id.value) &&
      (isBegun(tree, prescription) || !alternativesTo(tree, prescription).some(one => isBegun(tree, one))),
  );
}

/** Whether a prescription replaces, perhaps by way of others, itself: then nobody knows which one holds, and all do. */
export const replacesItself = ({ prescriptions }: Tree, id: string): boolean => isInCircle(prescriptions, id);

function isInCircle(prescriptions: readonly Prescription[], id: string): boolean {
  const seen = new Set<string>();
  const next = (name: string): readonly string[] =>
    prescriptions.flatMap(one =>
      one.id.value === name && !one.withdrawn && one.replaces ? [one.replaces.value] : [],
    );
  const ahead = [...next(id)];
  for (let name = ahead.pop(); name !== undefined; name = ahead.pop()) {
    if (name === id) return true;
    if (!seen.has(name)) ahead.push(...next(name));
    seen.add(name);
  }
  return false;
}

const isBegun = ({ works }: Tree, { id }: Prescription): boolean =>
  works.some(({ prescription }) => prescription.value === id.value);

/**
 * The prescriptions of which only one, this or another of them, will be done: those that it names as alternatives,
 * those that name it, and theirs.
 */
export function alternativesTo({ prescriptions }: Tree, prescription: Prescription): readonly Prescription[] {
  if (!prescriptions.some(({ alternatives }) => alternatives.length > 0)) return [];
  const found = new Set([prescription]);
  for (const one of found)
    for (const other of prescriptions) if (isLinked(one, other) || isLinked(other, one)) found.add(other);
  found.delete(prescription);
  return [...found];
}

const isLinked = ({ alternatives }: Prescription, { id }: Prescription): boolean =>
  alternatives.some(({ value }) => value === id.value);

/** Whether only one of the two will be done. */
export const areAlternatives = (tree: Tree, a: Prescription, b: Prescription): boolean =>
  alternativesTo(tree, a).includes(b);

/** Whether one of these prescriptions does what is asked, and so does each that may be done in its place. */
export const whicheverIsChosen = (
  tree: Tree,
  prescriptions: readonly Prescription[],
  does: (prescription: Prescription) => boolean,
): boolean =>
  prescriptions.some(
    one =>
      does(one) &&
      alternativesTo(tree, one)
        .filter(other => prescriptions.includes(other))
        .every(does),
  );

/** Stages of a prescription that no work is recorded for. */
export const stagesLeft = ({ works }: Tree, prescription: Prescription): number =>
  Math.max(
    0,
    stagesOf(prescription) - works.filter(work => work.prescription.value === prescription.id.value).length,
  );

/** Prescriptions of cuts that still wait for work, in their order; none on a felled tree. */
export function openPrescriptions(tree: Tree): readonly Prescription[] {
  if (tree.felled) return [];
  return standingPrescriptions(tree).filter(
    prescription => CUTTING.has(prescription.kind.value) && stagesLeft(tree, prescription) > 0,
  );
}

/**
 * Recorded work by its day, then open prescriptions with what remains of their window from `today` on; none on
 * a felled tree. Work under a prescription that the tree does not have is a broken reference, not a job.
 */
export function jobs(tree: Tree, today: number): readonly Job[] {
  if (tree.felled || tree.prescriptions.length === 0) return [];
  const byId = new Map(tree.prescriptions.map(prescription => [prescription.id.value, prescription]));
  const done = tree.works.flatMap((work): Job[] => {
    const prescription = byId.get(work.prescription.value);
    if (!prescription || !CUTTING.has(prescription.kind.value)) return [];
    const day = work.date.value;
    return [{ prescription, work, days: { from: day, to: day }, at: work.at, subject: formatDate(day) }];
  });
  const open = openPrescriptions(tree).map((prescription): Job => {
    const { between, id } = prescription;
    return {
      prescription,
      work: undefined,
      days: between && fromOn(today, between),
      at: between ?? prescription.at,
      subject: id.value,
    };
  });
  return [...done, ...open];
}

/** Whether so many days lie between two prescriptions, as far as their windows are stated. */
export const areApart = (a: Prescription, b: Prescription, days: number): boolean =>
  a.between !== undefined &&
  b.between !== undefined &&
  (a.between.from - b.between.to >= days || b.between.from - a.between.to >= days);

const sameWords = (a: Prescription, b: Prescription): boolean => {
  const words = ({ for: answers, remove }: Prescription) =>
    [...answers, ...remove]
      .map(({ value }) => value)
      .sort()
      .join(' ');
  return words(a) === words(b);
};

/** Whether two ask for the same at the same time: only one of them is meant. */
export const areTheSame = (a: Prescription, b: Prescription): boolean =>
  a.kind.value === b.kind.value && sameWords(a, b) && !areApart(a, b, 1);

/** What is left of a window from a day on. */
function fromOn(day: number, window: DaySpan): DaySpan | undefined {
  const from = Math.max(window.from, day);
  return from <= window.to ? { from, to: window.to } : undefined;
}

/** Findings are for what somebody can still answer for: older work is history, and nothing will change it. */
const ANSWERABLE_DAYS = 366;

/** The jobs that are open, or were done within a year. */
export const currentJobs = (tree: Tree, today: number): readonly Job[] =>
  jobs(tree, today).filter(({ work }) => !work || today - work.date.value <= ANSWERABLE_DAYS);
