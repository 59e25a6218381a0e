/** The clock, for those who start the server or the command line: the one place that says what day it is. */

const MILLISECONDS_PER_DAY = 86_400_000;

/** Day number of today, in local time. */
export function localToday(): number {
  const now = new Date();
  return Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / MILLISECONDS_PER_DAY;
}
