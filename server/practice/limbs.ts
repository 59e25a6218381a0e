/** What is known of the mass and the strength of limbs at their unions. */

import type { Interval } from '../base/interval.ts';
import { type Citation, cite } from './citation.ts';

/** Mass of twigs and leaves of a limb over that of its wood (from memory, weak). */
export const FOLIAGE_MASS: Interval = { low: 0.3, high: 1 };
/** Center of gravity of twigs and leaves over the length of the limb (from memory, weak). */
export const FOLIAGE_CENTER: Interval = { low: 0.5, high: 0.7 };
/** The same where the inner branches were removed (judged). */
export const END_CENTER: Interval = { low: 0.7, high: 0.9 };

/** Range of length over diameter, and least diameter in m, for which a limb is computed (judged). */
export const LIMB_SLENDERNESS: Interval = { low: 15, high: 60 };
export const THINNEST_LIMB = 0.05;

/** Scatter of the breaking stress of winched stems and forks around its mean (judged, after Kane and Clouston 2008). */
export const LIMB_SCATTER: Interval = { low: 0.5, high: 1.5 };

/** Limb over stem diameter, and the strength of the attachment over that at 0.5. */
type AspectRow = readonly [ratio: number, low: number, median: number, high: number];

/**
 * Own computation from the ten regressions of table 1 of Gilman 2003 (red maple, 5 to 20 mm thick). At 1.0 they are
 * extrapolated, and the range of `EQUAL` is used from 0.83 on.
 */
const ASPECTS: readonly AspectRow[] = [
  [0.5, 1, 1, 1],
  [0.6, 0.82, 0.85, 0.91],
  [0.7, 0.63, 0.71, 0.81],
  [0.83, 0.39, 0.51, 0.69],
];
const EQUAL: Interval = { low: 0.25, high: 0.55 };
const CODOMINANT = 0.83;

export const aspectCitation: Citation = cite('gilman-2003');

function aspectAt(ratio: number, end: 1 | 3): number {
  if (ratio >= CODOMINANT) return end === 1 ? EQUAL.low : EQUAL.high;
  const next = ASPECTS.findIndex(([at]) => at >= ratio);
  if (next <= 0) return 1;
  const [below, above] = [ASPECTS[next - 1]!, ASPECTS[next]!];
  const share = (ratio - below[0]) / (above[0] - below[0]);
  return below[end] + share * (above[end] - below[end]);
}

/** Strength of the attachment over that of a limb half as thick as its stem. */
export const aspectFactor = ({ low, high }: Interval): Interval => ({
  low: aspectAt(high, 1),
  high: aspectAt(low, 3),
});
