/** On which of its days open work keeps clear of nests, pests, bats, seasons and the end of its permit. */

import { formatDate } from '../../grammar/dates.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import { type DaySpan, overlap } from '../practice/index.ts';
import { activeNests, nestDays } from './active-nests.ts';
import { showCount, without } from './days.ts';
import { lastCheckBy, type NestingSeason, nestingDays, nestingSeasons, showSeason } from './nesting.ts';
import { permitFor } from './permits.ts';
import { pruningWeeks, showWeeks } from './pest-windows.ts';
import { capital, daysLeft } from './prescriptions.ts';
import { meetsRoosts, roostFeatures } from './roosts.ts';

export interface WorkDays {
  /** What remains of the window; undefined where none is stated, or it is past. */
  readonly window: DaySpan | undefined;
  /** Days on which nothing that is written down forbids the work, in order. */
  readonly open: readonly DaySpan[];
  /** Why days of the window are not among them: sentences. */
  readonly because: readonly string[];
}

/** Days of a season that a check which found every nest old, or none, does not cover. */
function unchecked(
  closed: readonly DaySpan[],
  tree: Tree,
  last: number,
  validity: number,
): readonly DaySpan[] {
  const check = lastCheckBy(tree, last);
  const clear =
    check && check.found.length > 0 && check.found.every(({ use }) => use === 'none' || use === 'old');
  return clear ? without(closed, [{ from: check.date.value, to: check.date.value + validity }]) : closed;
}

/** @param today day number */
export function workDays(
  tree: Tree,
  prescription: Prescription,
  settings: Settings,
  today: number,
): WorkDays {
  const window = daysLeft(prescription, today);
  if (!window) return { window, open: [], because: [] };
  const seasons: readonly NestingSeason[] = nestingSeasons(tree, settings);
  const because: string[] = [];
  let open: readonly DaySpan[] = [window];
  const take = (taken: readonly DaySpan[], why: string) => {
    const left = without(open, taken);
    if (daysOf(left) < daysOf(open)) because.push(why);
    open = left;
  };

  const closed = nestingDays(window, seasons);
  const validity = Math.floor(settings.limit('nest-check-validity', window.to).value);
  if (closed.length > 0) {
    const why = `Days in ${showSeason(closed, seasons)} need a nest check at most ${showCount(validity)} old.`;
    take(unchecked(closed, tree, window.to, validity), why);
  }
  for (const nest of activeNests(tree)) {
    const days = nestDays(nest, window, seasons);
    const state = nest.use === 'active' ? 'active' : 'unclear, perhaps active,';
    if (days) take([days], `A nest found ${state} on ${formatDate(nest.seen)} keeps the work away.`);
  }
  for (const weeks of pruningWeeks(tree, prescription, settings))
    take(overlap(window.from, window.to, weeks.window), `${capital(showWeeks(weeks))} are left free.`);
  const { batMaternity } = settings;
  if (batMaternity && meetsRoosts(prescription, roostFeatures(tree)))
    take(
      overlap(window.from, window.to, batMaternity.window),
      'Bats may raise their young in the hollows: the maternity season is left free.',
    );
  const permit = tree.protection && permitFor(tree, prescription);
  if (permit?.until !== undefined && permit.until < window.to)
    take(
      [{ from: permit.until + 1, to: window.to }],
      `Permit ${permit.number.value} ends on ${formatDate(permit.until)}.`,
    );
  return { window, open, because };
}

const daysOf = (spans: readonly DaySpan[]): number =>
  spans.reduce((sum, { from, to }) => sum + to - from + 1, 0);
