/** Past and open work on a tree with its days. */

import type { Span } from '../../grammar/text.ts';
import { formatDate } from '../base/dates.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import { stagesLeft } from '../facts/stages.ts';
import type { Prescription, Tree, Work } from '../facts/types.ts';

/** Kinds that cut the living tree or bring it down. */
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

/** Kinds that somebody carries out in or at the crown: cuts, and supports. */
const AT_CROWN: ReadonlySet<Prescription['kind']['value']> = new Set([
  ...CUTTING,
  'cable',
  'brace',
  'prop',
  'guy',
]);

/** Kinds of pruning, restoration included: a crown is retained. */
export const PRUNING_KINDS: ReadonlySet<Prescription['kind']['value']> = new Set([
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
]);

/** Recorded work, or work still open under a prescription. */
export interface Job {
  readonly prescription: Prescription;
  /** Undefined while open. */
  readonly work?: Work | undefined;
  /** Undefined if no window is stated or the window is past. */
  readonly days?: DaySpan | undefined;
  /** Position of its days, else of its head. */
  readonly at: Span;
  /** Date of recorded work, else the prescription's id. */
  readonly subject: string;
}

/** Neither withdrawn, nor replaced by one in force, nor an alternative to a chosen one. */
export function prescriptionsInForce(tree: Tree): readonly Prescription[] {
  const { prescriptions } = tree;
  // Fast path: nothing withdrawn or replaced.
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

/** Whether a prescription replaces itself, directly or through others; then all of them are in force. */
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
 * Alternatives to a prescription: those that it names, those that name it, and theirs, transitively.
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

export const areAlternatives = (tree: Tree, a: Prescription, b: Prescription): boolean =>
  alternativesTo(tree, a).includes(b);

/** Whether a prescription meets the condition together with all its alternatives. */
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

/** Prescriptions of cuts with outstanding work; none on a felled tree. */
export const openPrescriptions = (tree: Tree): readonly Prescription[] => openOf(tree, CUTTING);

function openOf(tree: Tree, kinds: ReadonlySet<string>): readonly Prescription[] {
  if (tree.felled) return [];
  return prescriptionsInForce(tree).filter(
    prescription => kinds.has(prescription.kind.value) && stagesLeft(tree, prescription) > 0,
  );
}

/**
 * Recorded work in the order of the text, then open prescriptions with the rest of their window; none of these on a
 * felled tree.
 * Work under an unknown prescription is a broken reference, not a job.
 */
export function jobs(tree: Tree, today: number, kinds: ReadonlySet<string> = CUTTING): readonly Job[] {
  if (tree.prescriptions.length === 0) return [];
  const byId = new Map(tree.prescriptions.map(prescription => [prescription.id.value, prescription]));
  const done = tree.works.flatMap((work): Job[] => {
    const prescription = byId.get(work.prescription.value);
    if (!prescription || !kinds.has(prescription.kind.value)) return [];
    const day = work.date.value;
    return [{ prescription, work, days: { from: day, to: day }, at: work.at, subject: formatDate(day) }];
  });
  const open = openOf(tree, kinds).map((prescription): Job => {
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

/** Whether the stated windows of two prescriptions are at least so many days apart. */
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

/** Whether two prescribe the same at the same time, so that one is a duplicate. */
export const areTheSame = (a: Prescription, b: Prescription): boolean =>
  a.kind.value === b.kind.value && sameWords(a, b) && !areApart(a, b, 1);

function fromOn(day: number, window: DaySpan): DaySpan | undefined {
  const from = Math.max(window.from, day);
  return from <= window.to ? { from, to: window.to } : undefined;
}

/** Work older than a year is not reported. */
const REPORTED_DAYS = 366;

/** Jobs that are open or were done within a year. */
export const currentJobs = (tree: Tree, today: number): readonly Job[] => current(jobs(tree, today), today);

/** The same with supports that are put in: work that disturbs, whether it cuts or not. */
export const currentJobsAtCrown = (tree: Tree, today: number): readonly Job[] =>
  current(jobs(tree, today, AT_CROWN), today);

const current = (all: readonly Job[], today: number): readonly Job[] =>
  all.filter(({ work }) => !work || today - work.date.value <= REPORTED_DAYS);
