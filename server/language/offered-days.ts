/** Days and windows to propose: never one that a season, a nest, a roost or a permit closes to the work. */

import { contextIn } from '../assess/assessment.ts';
import { clearDays, closuresOf, type DayContext } from '../assess/clear-days.ts';
import { showDays } from '../assess/days.ts';
import { ASK_NOW, isEmergency } from '../assess/emergency.ts';
import { formatDate, parseDate } from '../base/dates.ts';
import { listed } from '../base/words.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Prescription, Tree, WrittenTree } from '../facts/types.ts';
import type { DatedWorkspace } from '../facts/workspace.ts';

export interface OfferedDays {
  readonly text: string;
  readonly detail: string;
}

/** Days of inspections on record, the latest first. */
export const inspectionDays = ({ inspections }: WrittenTree): readonly OfferedDays[] =>
  [...inspections]
    .sort((a, b) => b.date.value - a.date.value)
    .map(({ date, from }) => ({
      text: formatDate(date.value),
      detail: from ? `inspection from ${from.value}` : 'inspection',
    }));

/** Days ahead that are looked at, and how many windows are proposed: a list to choose from, no plan. */
const AHEAD = 365;
const MOST_WINDOWS = 3;

/**
 * The first windows clear for the work, with what closes the days before and after them.
 * @param typed as far as it is written: of a window with its first day, the last day is proposed
 */
export function workWindows(
  snapshot: DatedWorkspace,
  path: string,
  tree: Tree,
  prescription: Prescription,
  typed: string,
): readonly OfferedDays[] {
  const context: DayContext = {
    ...contextIn(snapshot, path, tree),
    crew: id => snapshot.workspace.crews.get(id)?.fact,
  };
  const { today } = snapshot;
  const show = ({ from, to }: DaySpan) => `${formatDate(from)}..${formatDate(to)}`;
  // A later day is never proposed for a tree that is failing now.
  if (isEmergency(context)) return [{ text: show({ from: today, to: today }), detail: ASK_NOW }];
  const begun = parseDate(/^(.*)\.\./.exec(typed)?.[1] ?? '');
  const sight = { from: begun ?? today, to: today + AHEAD };
  const windows = stretches(context, prescription, sight);
  return (begun === undefined ? windows : windows.filter(({ from }) => from === begun))
    .slice(0, MOST_WINDOWS)
    .map(window => ({ text: show(window), detail: reasonFor(context, prescription, sight, window) }));
}

/** Clear stretches; each is looked at once more as the window of the work, on which its order to other work depends. */
const stretches = (context: DayContext, prescription: Prescription, sight: DaySpan): readonly DaySpan[] =>
  clearDays(context, prescription, sight).flatMap(stretch =>
    clearDays(context, { ...prescription, between: { ...prescription.at, ...stretch } }, stretch),
  );

function reasonFor(
  context: DayContext,
  prescription: Prescription,
  sight: DaySpan,
  { from, to }: DaySpan,
): string {
  const planned = { ...prescription, between: { ...prescription.at, from, to } };
  const closures = closuresOf(context, planned, { from: sight.from, to: to + 1 });
  const closing = (first: number, last: number) => [
    ...new Set(
      closures
        .filter(({ days }) => days.some(day => day.from <= last && day.to >= first))
        .map(({ why }) => why),
    ),
  ];
  const before = from > sight.from ? closing(sight.from, from - 1) : [];
  const after = to < sight.to ? closing(to + 1, to + 1) : [];
  return [
    `clear for this work on ${showDays({ from, to })}`,
    ...(before.length > 0 ? [`before: ${listed(before)}`] : []),
    ...(after.length > 0 ? [`after: ${listed(after)}`] : []),
  ].join('; ');
}
