/** How a sign stands to the strictest limit that applies to it. */

import type { Interval } from '../base/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import type { LimitName } from '../practice/limits.ts';
import { judge, showLimit, showNumber, showValue } from './judge.ts';
import { lossShare } from './section-words.ts';

/** From the mildest to the gravest; what nobody could judge never ranks below what may exceed. */
export const STANDINGS = ['within', 'may exceed', 'not judged', 'exceeds', 'moving'] as const;
export type SignStanding = (typeof STANDINGS)[number];

/** How a sign stands, and why. */
export interface Verdict {
  readonly standing: SignStanding;
  /** Without a full stop, in lower case: goes into the middle of a sentence. */
  readonly why: string;
  /** What settles it: a sentence. Absent where nothing has to be settled, and of hollows, see `settleOf`. */
  readonly settle?: string;
}

export interface SignContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
}

/** The gravest standing of some signs; `within` of none. */
export const gravest = (signs: readonly Verdict[]): SignStanding =>
  STANDINGS[Math.max(0, ...signs.map(({ standing }) => STANDINGS.indexOf(standing)))]!;

/** The gravest first; alike ones stay in their order. */
export const byStanding = (a: Verdict, b: Verdict): number =>
  STANDINGS.indexOf(b.standing) - STANDINGS.indexOf(a.standing);

export const isMoving = ({ standing }: Verdict): boolean => standing === 'moving';
/** Neither judged nor within. */
export const isBeyond = ({ standing }: Verdict): boolean =>
  standing === 'moving' || standing === 'exceeds' || standing === 'may exceed';

export const within = (why: string): Verdict => ({ standing: 'within', why });
export const notJudged = (why: string, settle: string): Verdict => ({ standing: 'not judged', why, settle });

/** A figure against one limit. */
export function against(value: Interval, name: LimitName, settings: Settings, what: string): Verdict {
  const judged = judge(value, name, settings);
  const { standing, direction } = judged;
  const told = judged.setting.unit === '%' ? lossShare(judged) : showValue(judged);
  if (standing === 'within') return within(`${told} ${what}, within ${showLimit(judged)}`);
  const beyond = direction === 'at most' ? 'over' : 'under';
  return {
    standing,
    why: `${told} ${what}, ${standing === 'exceeds' ? beyond : `perhaps ${beyond}`} ${showLimit(judged)}`,
    ...(standing === 'may exceed'
      ? { settle: `Measure it more closely: ${showNumber(judged.setting.value, judged.setting, 1)} decides.` }
      : {}),
  };
}
