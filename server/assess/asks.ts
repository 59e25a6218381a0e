/** Requirements of law, season and surroundings before cutting. */

import { formatDate, formatMonthDay } from '../base/dates.ts';
import { showCount } from './days.ts';
import { EMERGENCY_ASK, isEmergency, KEEP_OUT } from './emergency.ts';
import { lastCheckBy, nestingSeasons } from './nesting.ts';
import { type PruningWeeks, showWeeks } from './pest-windows.ts';
import { roostFeatures } from './roosts.ts';
import type { SignContext } from './standing.ts';

export interface Ask {
  readonly kind: 'emergency' | 'season' | 'nest' | 'permit' | 'line' | 'bats' | 'weeks';
  /** A sentence in lower case without a full stop. */
  readonly words: string;
}

export function asksOfCutting(context: SignContext, today: number): readonly Ask[] {
  const { tree, settings } = context;
  const asks: Ask[] = [];
  const ask = (kind: Ask['kind'], words: string) => asks.push({ kind, words });
  if (isEmergency(context)) ask('emergency', `${lower(KEEP_OUT)}; ${EMERGENCY_ASK}`);
  for (const { name, season } of nestingSeasons(tree, settings)) {
    const { from, to } = season.window;
    const validity = Math.floor(settings.limit('nest-check-validity', today).value);
    ask(
      'season',
      `avoid the ${name} ${formatMonthDay(from)}..${formatMonthDay(to)}, or have a nest check made at most ${showCount(validity)} before the work`,
    );
  }
  const check = lastCheckBy(tree, today);
  const nest = (['active', 'unclear'] as const).find(one => check?.found.some(({ use }) => use === one));
  if (check && nest)
    ask(
      'nest',
      `the nest found ${nest === 'active' ? nest : 'unclear, perhaps active,'} on ${formatDate(check.date.value)} closes the work until a check finds it free`,
    );
  if (tree.protection) {
    const { permit, until } = tree.protection;
    const end = until === undefined ? '' : ` until ${formatDate(until)}`;
    ask(
      'permit',
      !permit || permit.value === 'none'
        ? 'the tree is protected: obtain a permit for this work'
        : until !== undefined && until < today
          ? `permit ${permit.value} ended on ${formatDate(until)}: obtain a new one for this work`
          : `permit ${permit.value} is valid${end}: check that it covers this work`,
    );
  }
  if (tree.conductors.length > 0)
    ask('line', 'an overhead power line is near: use a line-clearance crew and contact the utility');
  if (roostFeatures(tree).length > 0) ask('bats', 'have a bat check made: the cavities may be roosts');
  return asks;
}

const lower = (text: string): string => text[0]!.toLowerCase() + text.slice(1);

/** Additional requirements of pruning. */
export const asksOfPruning = (weeks: readonly PruningWeeks[]): readonly Ask[] =>
  weeks.map(one => ({ kind: 'weeks', words: `avoid ${showWeeks(one)}` }));
