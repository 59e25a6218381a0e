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
 * `from`. The ends are days of the calendar, not counts: a window to 29 February ends on the 28th of a common
 * year, one that begins on 29 February begins on 1 March there, and one to 28 February leaves out the 29th.
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
const crossesYearEnd = ({ from, to }: YearlyWindow): boolean => order(to) < order(from);
const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/** Whether a day number lies in the window. */
export function inWindow(day: number, window: YearlyWindow): boolean {
  const place = order(calendarDate(day));
  const afterStart = place >= order(window.from);
  const beforeEnd = place <= order(window.to);
  return crossesYearEnd(window) ? afterStart || beforeEnd : afterStart && beforeEnd;
}

/** The window as it begins in a given year; undefined where that year has no day of it (29 February alone). */
function inYear(window: YearlyWindow, year: number): DaySpan | undefined {
  const noLeapDay = (at: MonthDay, inThatYear: number) =>
    at.month === 2 && at.day === 29 && !isLeap(inThatYear);
  const endYear = crossesYearEnd(window) ? year + 1 : year;
  const from = noLeapDay(window.from, year)
    ? dayOf(year, 3, 1)
    : dayOf(year, window.from.month, window.from.day);
  const to = noLeapDay(window.to, endYear)
    ? dayOf(endYear, 2, 28)
    : dayOf(endYear, window.to.month, window.to.day);
  return to < from ? undefined : { from, to };
}

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
