/**
 * A crown's silhouette from the side: half an ellipse above and half an ellipse below the level of its
 * greatest width, and of these what cuts at top and base have left. Metres.
 */

import type { Interval } from '../base/interval.ts';

/** Heights above ground and greatest width, m. */
export interface Crown<Q = number> {
  readonly base: Q;
  readonly top: Q;
  /** Of the whole ellipse. */
  readonly spread: Q;
  /** Height of the greatest width; half way up the whole ellipse without it. */
  readonly widest?: Q;
  /** Ends of the whole ellipse, where cuts have taken some of it; base and top without it. */
  readonly uncut?: { readonly base: Q; readonly top: Q };
}

/** Base and top of the whole ellipse. */
export const uncutOf = ({ base, top, uncut }: Crown): { readonly base: number; readonly top: number } =>
  uncut ?? { base, top };

/**
 * @throws RangeError unless 0 ≤ base < top, both within the whole ellipse, its widest level too, and the spread
 * is more than nothing.
 */
export function requireCrown(crown: Crown): void {
  const { base, top, spread, widest } = crown;
  if (!(base >= 0 && base < top && top < Number.POSITIVE_INFINITY))
    throw new RangeError(`a crown from ${base} m up to ${top} m`);
  if (!(spread > 0 && spread < Number.POSITIVE_INFINITY))
    throw new RangeError(`a crown with a spread of ${spread} m`);
  const whole = uncutOf(crown);
  if (!(whole.base <= base && top <= whole.top))
    throw new RangeError(`a crown from ${base} m to ${top} m cut from ${whole.base} m to ${whole.top} m`);
  if (widest !== undefined && !(whole.base <= widest && widest <= whole.top))
    throw new RangeError(`a crown from ${whole.base} m to ${whole.top} m that is widest at ${widest} m`);
}

export function widestOf(crown: Crown): number {
  const { base, top } = uncutOf(crown);
  return crown.widest ?? (base + top) / 2;
}

/** Width of the silhouette at a height, m; nothing outside the crown. @throws RangeError for no crown. */
export function silhouetteWidth(crown: Crown, height: number): number {
  requireCrown(crown);
  const widest = widestOf(crown);
  if (height < crown.base || height > crown.top) return 0;
  const whole = uncutOf(crown);
  const half = height < widest ? widest - whole.base : whole.top - widest;
  // At a widest level on the base or the top itself there is nothing to descend to.
  return half === 0
    ? crown.spread
    : crown.spread * Math.sqrt(Math.max(0, 1 - ((height - widest) / half) ** 2));
}

/** Shares of a whole crown below a level. */
export interface SharesBelow {
  /** Of the silhouette. */
  readonly silhouette: number;
  /** Of the volume, round seen from above. */
  readonly volume: number;
}

/** The shares below a level, of the whole ellipse. @throws RangeError for no crown. */
export function sharesBelow(crown: Crown, level: number): SharesBelow {
  requireCrown(crown);
  const whole = uncutOf(crown);
  const widest = widestOf(crown);
  const length = whole.top - whole.base;
  const half = level < widest ? widest - whole.base : whole.top - widest;
  /** Share of its half at which the level lies, down from the widest level or up from it. */
  const s = half === 0 ? Math.sign(level - widest) : Math.min(1, Math.max(-1, (level - widest) / half));
  const lower = (widest - whole.base) / length;
  const rise = half / length;
  // ∫√(1 − s²) and ∫(1 − s²) from the widest level, over those of a whole half.
  const area = (Math.asin(s) + s * Math.sqrt(1 - s * s)) / (Math.PI / 2);
  const bulk = (3 * s - s ** 3) / 2;
  return { silhouette: lower + rise * area, volume: lower + rise * bulk };
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
