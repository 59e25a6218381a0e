/** Parts that reports of rules about a limit have in common. */

import { type Judged, judge } from '../assess/judge.ts';
import type { Interval } from '../base/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { LimitName } from '../practice/limits.ts';
import type { RuleReport } from './rule.ts';

export type BeyondLimit = Judged & { readonly standing: 'exceeds' | 'may exceed' };

export const isBeyondLimit = (judged: Judged): judged is BeyondLimit => judged.standing !== 'within';

/** The verdict on a figure, as `judge` has it; undefined where the whole interval lies within the limit. */
export function beyondLimit(
  value: Interval,
  name: LimitName,
  settings: Settings,
  on?: number,
): BeyondLimit | undefined {
  const judged = judge(value, name, settings, on);
  return isBeyondLimit(judged) ? judged : undefined;
}

/** A warning where the limit is exceeded, a note where it may be. */
export const graded = ({
  standing,
}: Pick<BeyondLimit, 'standing'>): Required<Pick<RuleReport, 'grade' | 'level'>> => ({
  grade: standing,
  level: standing === 'exceeds' ? 'warning' : 'note',
});
