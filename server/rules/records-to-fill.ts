/** Records that a remedy asks for: a follow-up, a check for nests or bats. Who fills them in knows the rest. */

import { isEmergency } from '../assess/emergency.ts';
import { freeFollowUp } from '../assess/evidence.ts';
import type { SignContext } from '../assess/standing.ts';
import { formatDate } from '../base/dates.ts';
import type { Tree } from '../facts/types.ts';
import type { Advice } from './rule.ts';

const toFillIn = ({ at }: Tree, head: string, lines: readonly string[], title: string): Advice => ({
  kind: 'to fill in',
  under: { start: at.start, end: at.end },
  head,
  lines,
  title,
});

/** @param about defects, stems or limbs by name; none for the whole tree */
export function followUp(tree: Tree, kind: string, about: readonly string[], due?: number): Advice {
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

/** The days that need a check, and for how long one holds. */
interface CheckNeeded {
  readonly from: number;
  readonly to: number;
  readonly validity: number;
  readonly today: number;
  /** Whether all of the days are closed without one: then one that holds on the first of them helps as well. */
  readonly grave: boolean;
  /** Where what is left is a note already, a plan changes nothing. */
  readonly isNote?: boolean;
}

/** A check for nests or bats: today's to fill in, where it still holds; one that is planned, where it does not to the end. */
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
    // What gives way now waits for no planned look.
    ...(to <= last || isNote || isEmergency(context)
      ? []
      : [followUp(tree, `${animal} check`, [], Math.max(today, from))]),
  ];
}
