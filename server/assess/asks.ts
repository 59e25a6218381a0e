/** Requirements of law, season and surroundings before cutting. */

import { formatDate, formatMonthDay } from '../base/dates.ts';
import { showCount } from './days.ts';
import { EMERGENCY_ASK, isEmergency, KEEP_OUT } from './emergency.ts';
import { lastCheckBy, nestingSeasons } from './nesting.ts';
import { type PruningWeeks, showWeeks } from './pest-windows.ts';
import { roostFeatures } from './roosts.ts';
import type { SignContext } from './standing.ts';

/** Sentences in lower case without full stops. */
export function asksOfCutting(context: SignContext, today: number): readonly string[] {
  const { tree, settings } = context;
  const asks: string[] = isEmergency(context) ? [`${lower(KEEP_OUT)}; ${EMERGENCY_ASK}`] : [];
  for (const { name, season } of nestingSeasons(tree, settings)) {
    const { from, to } = season.window;
    const validity = Math.floor(settings.limit('nest-check-validity', today).value);
    asks.push(
      `keep out of the ${name} ${formatMonthDay(from)}..${formatMonthDay(to)}, or have a nest check made ${showCount(validity)} before the work at the most`,
    );
  }
  const check = lastCheckBy(tree, today);
  if (check?.found.some(({ use }) => use === 'active'))
    asks.push(
      `the nest found active on ${formatDate(check.date.value)} keeps the work away until a check finds it free`,
    );
  if (tree.protection) {
    const { permit, until } = tree.protection;
    const end = until === undefined ? '' : ` until ${formatDate(until)}`;
    asks.push(
      permit && permit.value !== 'none'
        ? `permit ${permit.value} holds${end}: see that it covers this work`
        : 'the tree is protected: a permit for this work',
    );
  }
  if (tree.conductors.length > 0)
    asks.push('an electric line is near: people qualified for line clearance, and a word with the utility');
  if (roostFeatures(tree).length > 0) asks.push('have a bat check made: the hollows may be roosts');
  return asks;
}

const lower = (text: string): string => text[0]!.toLowerCase() + text.slice(1);

/** Additional requirements of pruning, in the same form. */
export const asksOfPruning = (weeks: readonly PruningWeeks[]): readonly string[] =>
  weeks.map(one => `keep out of ${showWeeks(one)}`);
