/**
 * A crown's silhouette from the side: half an ellipse above and half an ellipse below the level of its
 * greatest width. Metres.
 */

import type { Interval } from './interval.ts';

/** Heights above ground and greatest width, m. */
export interface Crown<Q = number> {
  readonly base: Q;
  readonly top: Q;
  readonly spread: Q;
  /** Height of the greatest width; half way up the crown without it. */
  readonly widest?: Q;
}

/** @throws RangeError unless 0 ≤ base < top, base ≤ widest ≤ top and the spread is more than nothing. */
export function requireCrown({ base, top, spread, widest }: Crown): void {
  if (!(base >= 0 && base < top && top < Number.POSITIVE_INFINITY))
    throw new RangeError(`a crown from ${base} m up to ${top} m`);
  if (!(spread > 0 && spread < Number.POSITIVE_INFINITY))
    throw new RangeError(`a crown with a spread of ${spread} m`);
  if (widest !== undefined && !(base <= widest && widest <= top))
    throw new RangeError(`a crown from ${base} m to ${top} m that is widest at ${widest} m`);
}

export const widestOf = ({ base, top, widest = (base + top) / 2 }: Crown): number => widest;

/** Width of the silhouette at a height, m; nothing outside the crown. @throws RangeError for no crown. */
export function silhouetteWidth(crown: Crown, height: number): number {
  requireCrown(crown);
  const widest = widestOf(crown);
  if (height < crown.base || height > crown.top) return 0;
  const half = height < widest ? widest - crown.base : crown.top - widest;
  // At a widest level on the base or the top itself there is nothing to descend to.
  return half === 0
    ? crown.spread
    : crown.spread * Math.sqrt(Math.max(0, 1 - ((height - widest) / half) ** 2));
}

/** Readings of one crown as inputs for `bounds`, and back. A base that may lie above the top is cut there. */
export function crownInputs({ base, top, spread, widest }: Crown<Interval>): readonly Interval[] {
  if (!(base.low < top.high)) throw new RangeError(`a crown from ${base.low} m up to ${top.high} m`);
  return [base, top, spread, ...(widest ? [widest] : [])];
}

/** Undefined where these values leave no crown. */
export function crownAt([base, top, spread, widest]: readonly number[]): Crown | undefined {
  if (!(base! < top!)) return undefined;
  const crown = { base: base!, top: top!, spread: spread! };
  return widest === undefined ? crown : { ...crown, widest: Math.min(top!, Math.max(base!, widest)) };
}
