/** Verdicts on signs by the strictest applicable limit. */

import type { Interval } from '../base/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import type { LimitName } from '../practice/limits.ts';
import { judge, shareOf, showLimit, showNumber, showShare, showValue } from './judge.ts';

/** In ascending severity; `not judged` ranks above `may exceed`. */
export const STANDINGS = ['within', 'may exceed', 'not judged', 'exceeds', 'moving'] as const;
export type SignStanding = (typeof STANDINGS)[number];

export interface Verdict {
  readonly standing: SignStanding;
  /** In lower case without a full stop, for the middle of a sentence. */
  readonly why: string;
  /** What would decide it, a sentence; not for hollows, see `settleOf`. */
  readonly settle?: string;
}

export interface SignContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
}

/** The most severe; `within` for none. */
export const gravest = (signs: readonly Pick<Verdict, 'standing'>[]): SignStanding =>
  STANDINGS[Math.max(0, ...signs.map(({ standing }) => STANDINGS.indexOf(standing)))]!;

/** In descending severity. */
export const byStanding = (a: Pick<Verdict, 'standing'>, b: Pick<Verdict, 'standing'>): number =>
  STANDINGS.indexOf(b.standing) - STANDINGS.indexOf(a.standing);

export const isMoving = ({ standing }: Verdict): boolean => standing === 'moving';
export const isBeyond = ({ standing }: Verdict): boolean =>
  standing === 'moving' || standing === 'exceeds' || standing === 'may exceed';

export const within = (why: string): Verdict => ({ standing: 'within', why });
export const notJudged = (why: string, settle: string): Verdict => ({ standing: 'not judged', why, settle });

/** The verdict on a figure by one limit. */
export function against(value: Interval, name: LimitName, settings: Settings, what: string): Verdict {
  const judged = judge(value, name, settings);
  const { standing, direction } = judged;
  const shown = judged.setting.unit === '%' ? showShare(judged) : showValue(judged);
  if (standing === 'within') return within(`${shareOf(shown, what)}, within ${showLimit(judged)}`);
  const beyond = direction === 'at most' ? 'over' : 'under';
  return {
    standing,
    why: `${shareOf(shown, what)}, ${standing === 'exceeds' ? beyond : `perhaps ${beyond}`} ${showLimit(judged)}`,
    ...(standing === 'may exceed'
      ? { settle: `Measure it more closely: ${showNumber(judged.setting.value, judged.setting, 1)} decides.` }
      : {}),
  };
}
