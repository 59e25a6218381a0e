/** On which of its days open work keeps clear of everything that is held against them. */

import { capital } from '../base/words.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Prescription } from '../facts/types.ts';
import { closuresOf, type DayContext } from './clear-days.ts';
import { without } from './days.ts';
import { daysLeft } from './prescriptions.ts';

export interface WorkDays {
  /** What remains of the window; undefined where none is stated, or it is past. */
  readonly window: DaySpan | undefined;
  /** Days on which nothing that is written down forbids the work, in order. */
  readonly open: readonly DaySpan[];
  /** Why days of the window are not among them: sentences. */
  readonly because: readonly string[];
}

export function workDays(context: DayContext, prescription: Prescription): WorkDays {
  const window = daysLeft(prescription, context.today);
  if (!window) return { window, open: [], because: [] };
  const because: string[] = [];
  let open: readonly DaySpan[] = [window];
  for (const { days, why } of closuresOf(context, prescription, window)) {
    const left = without(open, days);
    if (daysOf(left) < daysOf(open)) because.push(`${capital(why)}.`);
    open = left;
  }
  return { window, open, because };
}

const daysOf = (spans: readonly DaySpan[]): number =>
  spans.reduce((sum, { from, to }) => sum + to - from + 1, 0);
