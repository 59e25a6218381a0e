/** What is known of the safety of one part of a tree, whatever way of failing was computed. */

import type { Interval } from '../base/interval.ts';
import type { WeakGround } from '../practice/weak-ground.ts';
import type { TreePart } from './sign-kinds.ts';

export interface PartSafety {
  readonly part: TreePart;
  /** Stable across edits, as of a sign: the defect, the stem or limb, else the field. */
  readonly subject: string;
  /** Resistance over load in the design wind, or over the load named by `judgedBy`. */
  readonly factor: Interval | undefined;
  /** Gust in open terrain at which it comes to its limit, m/s; undefined where wind is not what decides. */
  readonly criticalWind: Interval | undefined;
  /** What it was judged by, for the middle of a sentence: `the stem in the design wind`. */
  readonly judgedBy: string;
  /** Estimates on weak ground that could change the verdict. */
  readonly weak: readonly WeakGround[];
  /** Why there is no figure, for the middle of a sentence. */
  readonly notJudged?: string;
}
