/** Stretches of days that yearly windows close, what they leave, and their words. */

import { formatDate } from '../base/dates.ts';
import { counted } from '../base/words.ts';
import { type DaySpan, overlap, type YearlyWindow } from '../base/yearly-window.ts';

/** Days of a span that lie in any of the windows, as stretches in order; those that meet are one. */
export function closedDays(days: DaySpan, windows: readonly YearlyWindow[]): readonly DaySpan[] {
  const stretches = windows
    .flatMap(window => overlap(days.from, days.to, window))
    .sort((a, b) => a.from - b.from);
  return stretches.reduce<DaySpan[]>((merged, next) => {
    const last = merged.at(-1);
    if (last && next.from <= last.to + 1)
      merged[merged.length - 1] = { from: last.from, to: Math.max(last.to, next.to) };
    else merged.push(next);
    return merged;
  }, []);
}

/** Spans without those taken out of them; both in order of their first days. */
export const without = (spans: readonly DaySpan[], taken: readonly DaySpan[]): readonly DaySpan[] =>
  taken.reduce(
    (left, { from: first, to: last }) =>
      left.flatMap(({ from, to }) =>
        [
          { from, to: Math.min(to, first - 1) },
          { from: Math.max(from, last + 1), to },
        ].filter(rest => rest.from <= rest.to),
      ),
    spans,
  );

/** Whether the whole of a job lies in the closed days, or only some of the days it may be done on. */
export const seasonStanding = (
  days: DaySpan,
  closed: readonly DaySpan[],
): 'exceeds' | 'may exceed' | 'within' =>
  closed.length === 0
    ? 'within'
    : closed.length === 1 && closed[0]!.from === days.from && closed[0]!.to === days.to
      ? 'exceeds'
      : 'may exceed';

/** `2026-06-08`, or `2026-06-08..2026-07-03`. */
export const showDays = ({ from, to }: DaySpan): string =>
  from === to ? formatDate(from) : `${formatDate(from)}..${formatDate(to)}`;

export const showCount = (days: number): string => counted(days, 'day');
