/**
 * Side view of a crown: half an ellipse above and half an ellipse below the level of its greatest width, truncated by
 * cuts at top and base. Metres.
 */

import type { Interval } from '../base/interval.ts';

/** Heights above ground and greatest width, m. */
export interface Crown<Q = number> {
  readonly base: Q;
  readonly top: Q;
  /** Of the whole ellipse. */
  readonly spread: Q;
  /** Height of the greatest width; by default half way up the whole ellipse. */
  readonly widest?: Q | undefined;
  /** Ends of the whole ellipse if it was truncated by cuts. */
  readonly uncut?: { readonly base: Q; readonly top: Q } | undefined;
}

/** Base and top of the whole ellipse. */
export const uncutOf = ({ base, top, uncut }: Crown): { readonly base: number; readonly top: number } =>
  uncut ?? { base, top };

/**
 * @throws RangeError unless 0 ≤ base < top, base, top and widest level lie within the whole ellipse, and spread > 0.
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

/** Shares of a whole crown below a level. */
export interface SharesBelow {
  /** Of the silhouette. */
  readonly silhouette: number;
  /** Of the volume, round seen from above. */
  readonly volume: number;
}

/** Shares of the whole ellipse below a level. @throws RangeError for an impossible crown. */
export function sharesBelow(crown: Crown, level: number): SharesBelow {
  requireCrown(crown);
  const whole = uncutOf(crown);
  const widest = widestOf(crown);
  const length = whole.top - whole.base;
  const half = level < widest ? widest - whole.base : whole.top - widest;
  /** Level relative to the widest one, −1 to 1 over the two halves. */
  const s = half === 0 ? Math.sign(level - widest) : Math.min(1, Math.max(-1, (level - widest) / half));
  const lower = (widest - whole.base) / length;
  const rise = half / length;
  // ∫√(1 − s²) and ∫(1 − s²) from the widest level, over those of a whole half.
  const area = (Math.asin(s) + s * Math.sqrt(1 - s * s)) / (Math.PI / 2);
  const bulk = (3 * s - s ** 3) / 2;
  return { silhouette: lower + rise * area, volume: lower + rise * bulk };
}

/** Readings of a crown as inputs of `bounds`; `crownAt` is the inverse. */
export function crownInputs({ base, top, spread, widest }: Crown<Interval>): readonly Interval[] {
  if (!(base.low < top.high)) throw new RangeError(`a crown from ${base.low} m up to ${top.high} m`);
  return [base, top, spread, ...(widest ? [widest] : [])];
}

/** Undefined if the base is not below the top. */
export function crownAt([base, top, spread, widest]: readonly number[]): Crown | undefined {
  if (!(base! < top!)) return undefined;
  const crown = { base: base!, top: top!, spread: spread! };
  return widest === undefined ? crown : { ...crown, widest: Math.min(top!, Math.max(base!, widest)) };
}
