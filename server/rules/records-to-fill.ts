/** Records that a remedy calls for: a follow-up, a nest check or a bat check, to be filled in by the user. */

import { isEmergency } from '../assess/emergency.ts';
import { freeFollowUp } from '../assess/evidence.ts';
import type { SignContext } from '../assess/standing.ts';
import { formatDate } from '../base/dates.ts';
import type { WrittenTree } from '../facts/types.ts';
import type { Advice } from './rule.ts';

const toFillIn = ({ at }: WrittenTree, head: string, lines: readonly string[], title: string): Advice => ({
  kind: 'to fill in',
  under: { start: at.start, end: at.end },
  head,
  lines,
  title,
});

/** @param about defects, stems or limbs by name; none for the whole tree */
export function followUp(tree: WrittenTree, kind: string, about: readonly string[], due?: number): Advice {
  const of = about.join(', ');
  const what = about.length > 0 ? `${kind} of ${of}` : kind;
  return toFillIn(
    tree,
    `follow-up ${freeFollowUp(tree)} ${kind}`,
    [
      ...(about.length > 0 ? [`of        ${of}`] : []),
      due === undefined ? 'due' : `due       ${formatDate(due)}`,
    ],
    due === undefined
      ? `Add a follow-up to fill in: ${what}`
      : `Add a follow-up: ${what}, due ${formatDate(due)}`,
  );
}

/** The work that was done under a prescription on a day, by whom is left open. */
export const workDone = (tree: WrittenTree, prescription: string, day: string): Advice =>
  toFillIn(tree, `work ${prescription} ${day}`, ['by'], `Add the work of ${day} to fill in`);

/** The days that need a check, and its validity in days. */
interface CheckNeeded {
  readonly from: number;
  readonly to: number;
  readonly validity: number;
  readonly today: number;
  /** All of the days are closed without a check, so one that is valid only on the first of them helps as well. */
  readonly grave: boolean;
  /** The finding is a note already, which a planned check would not change. */
  readonly isNote?: boolean;
}

/** A nest or bat check: today's, if it is still valid then; a planned one, if today's would expire before the last day. */
export function wildlifeCheck(
  context: SignContext,
  animal: 'nest' | 'bat',
  { from, to, validity, today, grave, isNote = false }: CheckNeeded,
): readonly Advice[] {
  const { tree } = context;
  const last = today + validity;
  const head = `${animal} check ${formatDate(today)} from`;
  return [
    ...(to <= last || (grave && from <= last)
      ? [toFillIn(tree, head, ['by', 'found'], `Add a ${animal} check to fill in`)]
      : []),
    // A failing tree cannot wait for a planned check.
    ...(to <= last || isNote || isEmergency(context)
      ? []
      : [followUp(tree, `${animal} check`, [], Math.max(today, from))]),
  ];
}
