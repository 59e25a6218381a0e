/** Clear days within the window of open work. */

import { capital } from '../base/words.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { Prescription } from '../facts/types.ts';
import { type ClosureKind, closuresByKind, type DayContext } from './clear-days.ts';
import { without } from './days.ts';
import { daysLeft } from './prescriptions.ts';

export interface WorkDays {
  /** The rest of the window; undefined if none is stated or it is past. */
  readonly window: DaySpan | undefined;
  /** Days not closed by any record, in order. */
  readonly open: readonly DaySpan[];
  /** Reasons for the other days. */
  readonly because: readonly ClosedDays[];
}

interface ClosedDays {
  readonly kind: ClosureKind;
  readonly days: readonly DaySpan[];
  /** A sentence. */
  readonly why: string;
}

export function workDays(context: DayContext, prescription: Prescription): WorkDays {
  const window = daysLeft(prescription, context.today);
  if (!window) return { window, open: [], because: [] };
  const because: ClosedDays[] = [];
  let open: readonly DaySpan[] = [window];
  for (const [kind, closures] of closuresByKind(context, prescription, window))
    for (const { days, why } of closures) {
      const left = without(open, days);
      if (daysOf(left) < daysOf(open)) because.push({ kind, days, why: `${capital(why)}.` });
      open = left;
    }
  return { window, open, because };
}

const daysOf = (spans: readonly DaySpan[]): number =>
  spans.reduce((sum, { from, to }) => sum + to - from + 1, 0);
