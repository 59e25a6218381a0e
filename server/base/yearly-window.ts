/**
 * Yearly windows of days, and what they do to a span of plain dates. A plain date is a day number: whole
 * days since 1970-01-01 in the proleptic Gregorian calendar, without time or zone. Both ends of every
 * window and span belong to it.
 */

export interface MonthDay {
  readonly month: number;
  readonly day: number;
}

/**
 * A window of every year, `from` and `to` included; it crosses the year's end where `to` comes before
 * `from`. The ends are days of the calendar, not counts: a window to 28 or 29 February ends on the last day of
 * that month in every year, and one that begins on 29 February begins on 1 March of a common year.
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

const MILLISECONDS_PER_DAY = 86_400_000;

/** The day number of a day that the calendar has, from the year 100 on; earlier ones are not written. */
const dayOf = (year: number, month: number, day: number): number =>
  Date.UTC(year, month - 1, day) / MILLISECONDS_PER_DAY;

/** The calendar's name for a day number. */
export function calendarDate(day: number): {
  readonly year: number;
  readonly month: number;
  readonly day: number;
} {
  const date = new Date(day * MILLISECONDS_PER_DAY);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

const order = ({ month, day }: MonthDay): number => month * 100 + day;

/** Place in the year of the last day; the end of February is that of a leap year, whichever of the two is written. */
const lastOf = ({ to }: YearlyWindow): number => (order(to) === 228 ? 229 : order(to));
const crossesYearEnd = (window: YearlyWindow): boolean => lastOf(window) < order(window.from);

/** Whether a day number lies in the window. */
export function inWindow(day: number, window: YearlyWindow): boolean {
  const place = order(calendarDate(day));
  const afterStart = place >= order(window.from);
  const beforeEnd = place <= lastOf(window);
  return crossesYearEnd(window) ? afterStart || beforeEnd : afterStart && beforeEnd;
}

/** The window as it begins in a given year; undefined where that year has no day of it (29 February alone). */
function inYear(window: YearlyWindow, year: number): DaySpan | undefined {
  const endYear = crossesYearEnd(window) ? year + 1 : year;
  // The calendar carries 29 February of a common year on to 1 March.
  const from = dayOf(year, window.from.month, window.from.day);
  const to =
    lastOf(window) === 229 ? dayOf(endYear, 3, 1) - 1 : dayOf(endYear, window.to.month, window.to.day);
  return to < from ? undefined : { from, to };
}

const LEAP_YEAR = 2024;

/** The window's days in a year that has every day. */
function leapDays(window: YearlyWindow): readonly number[] {
  const first = dayOf(LEAP_YEAR, 1, 1);
  return Array.from({ length: 366 }, (_, i) => first + i).filter(day => inWindow(day, window));
}

/** How many days a window has in a leap year. */
export const daysIn = (window: YearlyWindow): number => leapDays(window).length;

/** Whether every day of one window lies in the other. */
export const covers = (window: YearlyWindow, other: YearlyWindow): boolean =>
  leapDays(other).every(day => inWindow(day, window));

/** Every occurrence of the window, whole, that has a day in common with the span, in order. */
function occurrences(fromDay: number, toDay: number, window: YearlyWindow): readonly DaySpan[] {
  const found: DaySpan[] = [];
  for (let year = calendarDate(fromDay).year - 1; year <= calendarDate(toDay).year; year++) {
    const span = inYear(window, year);
    if (!span || span.to < fromDay || span.from > toDay) continue;
    const last = found.at(-1);
    // A window of the whole year meets itself: one stretch, not two.
    if (last && span.from <= last.to + 1) found[found.length - 1] = { from: last.from, to: span.to };
    else found.push(span);
  }
  return found;
}

/** The days of the span, both ends included, that lie in the window: as stretches, in order; none if none do. */
export function overlap(fromDay: number, toDay: number, window: YearlyWindow): readonly DaySpan[] {
  return occurrences(fromDay, toDay, window).map(span => ({
    from: Math.max(span.from, fromDay),
    to: Math.min(span.to, toDay),
  }));
}
