/**
 * Windows that recur every year, such as a nesting season, and their overlap with a span of dates (day numbers, see
 * dates.ts). Windows and spans include both ends.
 */

import { calendarDate, MILLISECONDS_PER_DAY, type MonthDay } from './dates.ts';

/**
 * Crosses the end of the year if `to` is before `from`. A window that ends on 28 or 29 February ends on the last day of
 * February in every year; one that begins on 29 February begins on 1 March in a common year.
 */
export interface YearlyWindow {
  readonly from: MonthDay;
  readonly to: MonthDay;
}

/** Day numbers, both included. */
export interface DaySpan {
  readonly from: number;
  readonly to: number;
}

/** Like `dayNumber`, but carries days that the calendar lacks over to the next month. */
const carriedDay = (year: number, month: number, day: number): number =>
  Date.UTC(year, month - 1, day) / MILLISECONDS_PER_DAY;

const order = ({ month, day }: MonthDay): number => month * 100 + day;

/** Order of the last day within the year; the end of February counts as 29 February. */
const lastOf = ({ to }: YearlyWindow): number => (order(to) === 228 ? 229 : order(to));
const crossesYearEnd = (window: YearlyWindow): boolean => lastOf(window) < order(window.from);

/** Whether a day number lies in the window. */
export function inWindow(day: number, window: YearlyWindow): boolean {
  const place = order(calendarDate(day));
  const afterStart = place >= order(window.from);
  const beforeEnd = place <= lastOf(window);
  return crossesYearEnd(window) ? afterStart || beforeEnd : afterStart && beforeEnd;
}

/** The occurrence that begins in a year; undefined if there is none (a window of 29 February alone). */
function inYear(window: YearlyWindow, year: number): DaySpan | undefined {
  const endYear = crossesYearEnd(window) ? year + 1 : year;
  const from = carriedDay(year, window.from.month, window.from.day);
  const to =
    lastOf(window) === 229
      ? carriedDay(endYear, 3, 1) - 1
      : carriedDay(endYear, window.to.month, window.to.day);
  return to < from ? undefined : { from, to };
}

const LEAP_YEAR = 2024;

/** The window's days in a leap year. */
function leapDays(window: YearlyWindow): readonly number[] {
  const first = carriedDay(LEAP_YEAR, 1, 1);
  return Array.from({ length: 366 }, (_, i) => first + i).filter(day => inWindow(day, window));
}

/** Length of the window in a leap year, days. */
export const daysIn = (window: YearlyWindow): number => leapDays(window).length;

/** Whether `window` contains every day of `other`. */
export const covers = (window: YearlyWindow, other: YearlyWindow): boolean =>
  leapDays(other).every(day => inWindow(day, window));

/** Complete occurrences of the window that overlap the span, in order. */
function occurrences(fromDay: number, toDay: number, window: YearlyWindow): readonly DaySpan[] {
  const merged: DaySpan[] = [];
  for (let year = calendarDate(fromDay).year - 1; year <= calendarDate(toDay).year; year++) {
    const span = inYear(window, year);
    if (!span || span.to < fromDay || span.from > toDay) continue;
    const last = merged.at(-1);
    // Consecutive occurrences of a whole-year window adjoin: merge them.
    if (last && span.from <= last.to + 1) merged[merged.length - 1] = { from: last.from, to: span.to };
    else merged.push(span);
  }
  return merged;
}

/** The parts of the span that lie in the window, in order. */
export function overlap(fromDay: number, toDay: number, window: YearlyWindow): readonly DaySpan[] {
  return occurrences(fromDay, toDay, window).map(span => ({
    from: Math.max(span.from, fromDay),
    to: Math.min(span.to, toDay),
  }));
}
