/** The system clock: the only place that reads the current date. */

import { MILLISECONDS_PER_DAY } from '../base/dates.ts';

/** Day number of today, in local time. */
export function localToday(): number {
  const now = new Date();
  return Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / MILLISECONDS_PER_DAY;
}
