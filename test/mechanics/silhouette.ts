import { type Crown, requireCrown, uncutOf, widestOf } from '../../server/mechanics/crown.ts';

/** Width of the silhouette at a height, m; zero outside the crown. */
export function silhouetteWidth(crown: Crown, height: number): number {
  requireCrown(crown);
  const widest = widestOf(crown);
  if (height < crown.base || height > crown.top) return 0;
  const whole = uncutOf(crown);
  const half = height < widest ? widest - whole.base : whole.top - widest;
  // At a widest level on the base or the top itself there is no descent.
  return half === 0
    ? crown.spread
    : crown.spread * Math.sqrt(Math.max(0, 1 - ((height - widest) / half) ** 2));
}
