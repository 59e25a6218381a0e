/**
 * Plain calendar dates, without time or zone. A date is a day number: whole days since 1970-01-01 in the
 * proleptic Gregorian calendar (ISO 8601).
 */

export const MILLISECONDS_PER_DAY = 86_400_000;

/** A day of any year, as `02-29`. */
export interface MonthDay {
  readonly month: number;
  readonly day: number;
}

export interface CalendarDate extends MonthDay {
  readonly year: number;
}

/** The day number of a date, or undefined where the calendar has no such day (2026-02-30). */
export function dayNumber(year: number, month: number, day: number): number | undefined {
  const time = Date.UTC(year, month - 1, day);
  const date = new Date(time);
  if (year < 100 || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return undefined;
  return time / MILLISECONDS_PER_DAY;
}

export function calendarDate(day: number): CalendarDate {
  const date = new Date(day * MILLISECONDS_PER_DAY);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

/** Parses `2026-03-14`; undefined for any other form and for a day that does not exist. */
export function parseDate(text: string): number | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  return match ? dayNumber(Number(match[1]), Number(match[2]), Number(match[3])) : undefined;
}

export function formatDate(day: number): string {
  return new Date(day * MILLISECONDS_PER_DAY).toISOString().slice(0, 10);
}

/** Parses `02-01`. 29 February is accepted, 30 February is not. */
export function parseMonthDay(text: string): MonthDay | undefined {
  const match = /^(\d{2})-(\d{2})$/.exec(text);
  if (!match) return undefined;
  const month = Number(match[1]);
  const day = Number(match[2]);
  return dayNumber(2000, month, day) === undefined ? undefined : { month, day };
}

export function formatMonthDay({ month, day }: MonthDay): string {
  return `${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}

/** The same day of the month `months` later, or the last day of a shorter month. */
export function addMonths(day: number, months: number): number {
  const date = calendarDate(day);
  const first = Date.UTC(date.year, date.month - 1 + months, 1);
  const lastDay = Date.UTC(date.year, date.month + months, 0);
  return Math.min(first + (date.day - 1) * MILLISECONDS_PER_DAY, lastDay) / MILLISECONDS_PER_DAY;
}
