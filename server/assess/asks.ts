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
      `avoid the ${name} ${formatMonthDay(from)}..${formatMonthDay(to)}, or have a nest check made at most ${showCount(validity)} before the work`,
    );
  }
  const check = lastCheckBy(tree, today);
  if (check?.found.some(({ use }) => use === 'active'))
    asks.push(
      `the nest found active on ${formatDate(check.date.value)} closes the work until a check finds it free`,
    );
  if (tree.protection) {
    const { permit, until } = tree.protection;
    const end = until === undefined ? '' : ` until ${formatDate(until)}`;
    asks.push(
      permit && permit.value !== 'none'
        ? `permit ${permit.value} is valid${end}: check that it covers this work`
        : 'the tree is protected: obtain a permit for this work',
    );
  }
  if (tree.conductors.length > 0)
    asks.push('an overhead power line is near: use a line-clearance crew and contact the utility');
  if (roostFeatures(tree).length > 0) asks.push('have a bat check made: the cavities may be roosts');
  return asks;
}

const lower = (text: string): string => text[0]!.toLowerCase() + text.slice(1);

/** Additional requirements of pruning, in the same form. */
export const asksOfPruning = (weeks: readonly PruningWeeks[]): readonly string[] =>
  weeks.map(one => `avoid ${showWeeks(one)}`);
