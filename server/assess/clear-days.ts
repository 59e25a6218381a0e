/** Where work goes so that nothing closes its days: no nest, no pest, no bats, no weeks of the office. */

import { formatDate } from '../../grammar/dates.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Tree } from '../facts/types.ts';
import { type DaySpan, nextLawfulWindow, type YearlyWindow } from '../practice/index.ts';
import { closedDays, showDays, without } from './days.ts';
import { nestingSeasons } from './nesting.ts';
import { pruningWeeks } from './pest-windows.ts';
import { meetsRoosts, roostFeatures } from './roosts.ts';

/** Every stretch of the year that is closed to this work. */
export function closedWindows(
  tree: Tree,
  prescription: Prescription,
  settings: Settings,
): readonly YearlyWindow[] {
  const { batMaternity } = settings;
  const bats = batMaternity && meetsRoosts(prescription, roostFeatures(tree)) ? [batMaternity] : [];
  return [
    ...nestingSeasons(tree, settings).map(({ season }) => season),
    ...pruningWeeks(tree, prescription, settings),
    ...bats,
  ].map(({ window }) => window);
}

/** Days of a span that no window closes, as stretches in order. */
export const clearDays = (days: DaySpan, windows: readonly YearlyWindow[]): readonly DaySpan[] =>
  without([days], closedDays(days, windows));

/**
 * The next window as long as the days, or where none is as long the first clear day, as the rest of `Move the
 * work to`.
 */
export function clearWindow(days: DaySpan, windows: readonly YearlyWindow[]): string {
  const whole = nextLawfulWindow(days.from, days.to, windows);
  if (whole) return showDays(whole);
  const day = nextLawfulWindow(days.from, days.from, windows);
  return day ? `a shorter window from ${formatDate(day.from)} on` : 'a day that a local permit allows';
}

/**
 * How the work keeps clear, as the beginning of a remedy: `Keep the work to 2026-09-01..2026-10-10` where its
 * days have clear ones among them, else `Move the work to` the next ones.
 */
export function keepClear(days: DaySpan, windows: readonly YearlyWindow[]): string {
  const clear = clearDays(days, windows);
  return clear.length > 0
    ? `Keep the work to ${clear.map(showDays).join(' or ')}`
    : `Move the work to ${clearWindow(days, windows)}`;
}
