/** Spans of days closed by yearly windows. */

import { formatDate } from '../base/dates.ts';
import { counted } from '../base/words.ts';
import { type DaySpan, overlap, type YearlyWindow } from '../base/yearly-window.ts';

/** Parts of a span that lie in any of the windows, in order, adjacent ones merged. */
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

/** Set difference; both arguments in order. */
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

/** `exceeds` if all days of a job are closed, `may exceed` if some are. */
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
