/**
 * What a reduction of the crown takes off: silhouette, bending moment, foliage; and how much would have to
 * come off for weak sections to be stressed no more than sound ones were. Metres; ratios and doses are shares.
 */

import { clip, endsOf, exact, type Interval, interval, multiply } from '../base/interval.ts';
import { bounds, type Direction, widened } from './bounds.ts';
import { type Crown, requireCrown, sharesBelow, uncutOf, widestOf } from './crown.ts';
import { momentShape, type WindSite } from './wind.ts';

/** What a prescription makes of a crown; what it does not name stays. */
export interface CrownChange<Q = number> {
  readonly base?: Q;
  readonly top?: Q;
  readonly spread?: Q;
}

/** Share by which computing alone may make an unchanged end look like more: far below any reading. */
const ROUNDING = 1e-9;

/**
 * The crown after the change: cut off level at its new top and base, its outline between them as it was, and
 * every width drawn in by the ratio of the spreads. Leaders are cut back to laterals where they stand; nothing
 * squeezes a crown into a lower one of the same shape.
 *
 * @throws RangeError when the change adds to the crown or leaves none.
 */
export function reducedCrown(crown: Crown, change: CrownChange): Crown {
  requireCrown(crown);
  const { base = crown.base, top = crown.top, spread = crown.spread } = change;
  const slack = ROUNDING * crown.top;
  if (top > crown.top + slack || base < crown.base - slack || spread > crown.spread + ROUNDING * crown.spread)
    throw new RangeError(
      `a reduction adds nothing: from ${crown.base}–${crown.top} m, ${crown.spread} m wide, to ${base}–${top} m, ${spread} m wide`,
    );
  const left = {
    base: Math.max(base, crown.base),
    top: Math.min(top, crown.top),
    spread: Math.min(spread, crown.spread),
  };
  const isCut = left.base > crown.base || left.top < crown.top || crown.uncut !== undefined;
  const after: Crown = {
    ...left,
    ...(crown.widest === undefined ? {} : { widest: widestOf(crown) }),
    ...(isCut ? { uncut: uncutOf(crown) } : {}),
  };
  requireCrown(after);
  return after;
}

/**
 * What is left of the moment before a reduction; see momentShape. Every ratio to it rests on this one.
 *
 * @throws RangeError for a crown that is none, or where nothing bears on the height.
 */
export function loadingShape(crowns: readonly Crown[], height: number, site: WindSite): number {
  const full = momentShape(crowns, height, site);
  if (!(full > 0)) throw new RangeError(`no crown above ${height} m that the wind could load`);
  return full;
}

/**
 * Bending moment at a height after over before, whatever the wind and the drag; nothing where the whole crown
 * above the height is gone.
 *
 * @throws RangeError for a crown that is none, or where nothing bore on the height before.
 */
export const momentRatio = (
  before: readonly Crown[],
  after: readonly Crown[],
  height: number,
  site: WindSite,
): number => momentShape(after, height, site) / loadingShape(before, height, site);

/** Ratio of what is left to what was, for readings that may cross: at most 1. */
function remaining(what: string, after: Interval | undefined, before: Interval): Interval {
  if (!(before.low > 0)) throw new RangeError(`a crown with a ${what} of ${before.low} m`);
  if (!after) return exact(1);
  if (!(after.low >= 0 && after.low <= before.high))
    throw new RangeError(`a reduction adds nothing: ${what} from ${before.high} m to ${after.low} m`);
  return clip(interval(after.low / before.high, after.high / before.low), interval(0, 1));
}

function requireChange(crown: Crown<Interval>, change: CrownChange<Interval>): void {
  const { base = crown.base, top = crown.top } = change;
  if (!(crown.base.low < crown.top.high && base.low < top.high))
    throw new RangeError(`no crown from ${base.low} m up to ${top.high} m`);
  if (top.low > crown.top.high || base.high < crown.base.low)
    throw new RangeError(`a reduction adds nothing: to ${base.high}–${top.low} m`);
}

/** What the search may miss; see bounds.ts. */
const SEARCH_SLACK = 0.005;

/**
 * How the ratio of moments follows [height, base, top] and the new base and top. A lower top takes more from what
 * stands above a higher section; and as the base or the top of the whole ellipse rises, its weight moves up, into what
 * a lower top takes and out of what a higher base does. Where both ends are cut, or readings may cross, neither holds.
 */
function directionsOf(
  crown: Crown<Interval>,
  { base, top }: CrownChange<Interval>,
): readonly [height: Direction, base: Direction, top: Direction] {
  const searched = ['unknown', 'unknown', 'unknown'] as const;
  if (crown.widest || crown.base.high >= crown.top.low || (base && top)) return searched;
  return top ? ['falling', 'falling', 'falling'] : ['rising', 'rising', 'rising'];
}

/** Moment ratio for the change of base and top alone. */
function heightRatioBounds(
  crown: Crown<Interval>,
  change: CrownChange<Interval>,
  height: Interval,
  site: WindSite,
): Interval {
  const { base, top } = change;
  // Above a raised base nothing has changed.
  if (!top && (!base || height.low >= base.high)) return exact(1);
  const [byHeight, byBase, byTop] = directionsOf(crown, change);
  const inputs: [Interval, Direction][] = [
    [height, byHeight],
    [crown.base, byBase],
    [crown.top, byTop],
    ...(crown.widest ? [[crown.widest, 'unknown'] as [Interval, Direction]] : []),
    ...(base ? [[base, 'falling'] as [Interval, Direction]] : []),
    ...(top ? [[top, 'rising'] as [Interval, Direction]] : []),
  ];
  const ratio = (values: readonly number[]): number => {
    const rest = [...values];
    const [h, oldBase, oldTop] = rest.splice(0, 3) as [number, number, number];
    // Readings that cross are cut to a crown that can be; where there is none, nothing is left of it.
    if (oldBase >= oldTop) return 0;
    const widest = crown.widest ? Math.min(oldTop, Math.max(oldBase, rest.shift()!)) : undefined;
    const before = { base: oldBase, top: oldTop, spread: 1, ...(widest === undefined ? {} : { widest }) };
    const newBase = base ? Math.max(oldBase, rest.shift()!) : oldBase;
    const newTop = top ? Math.min(oldTop, rest.shift()!) : oldTop;
    if (newBase >= newTop) return 0;
    if (h >= newTop) return newTop < oldTop ? 0 : 1;
    return momentRatio([before], [reducedCrown(before, { base: newBase, top: newTop })], h, site);
  };
  const found = bounds(
    ratio,
    inputs.map(([input]) => input),
    inputs.map(([, direction]) => direction),
  );
  const searched = inputs.some(([input, how]) => how === 'unknown' && input.low < input.high);
  // What is left of a crown is part of it: its moment is never more.
  return clip(searched ? widened(found, SEARCH_SLACK) : found, interval(0, 1));
}

/**
 * The moment ratio over everything that the readings of one crown, of its change and of the height allow.
 *
 * @throws RangeError when the change adds to the crown for certain, when nothing bears on the height, or when
 * a reading has no upper end.
 */
export function momentRatioBounds(
  crown: Crown<Interval>,
  change: CrownChange<Interval>,
  height: Interval,
  site: WindSite,
): Interval {
  requireChange(crown, change);
  if (!(height.low >= 0 && height.low < crown.top.high))
    throw new RangeError(`no crown above ${height.low} m that the wind could load`);
  const byWidth = remaining('spread', change.spread, crown.spread);
  return multiply(byWidth, heightRatioBounds(crown, change, height, site));
}

/**
 * Peak stress under the crown that is left, over that of the sound stem under the full crown:
 * moment ratio / (1 − loss). Without wood there is no upper end.
 *
 * @throws RangeError for a negative ratio or a loss over 1.
 */
export function stressRatio(ratio: Interval, strengthLoss: Interval): Interval {
  if (!(ratio.low >= 0 && strengthLoss.high <= 1))
    throw new RangeError(`no stress from a moment ratio of ${ratio.low} and a loss of ${strengthLoss.high}`);
  const stress = (moment: number, left: number) =>
    moment === 0 ? 0 : left === 0 ? Number.POSITIVE_INFINITY : moment / left;
  return interval(stress(ratio.low, 1 - strengthLoss.low), stress(ratio.high, 1 - strengthLoss.high));
}

/** Share that stays of the moment where a cut takes off only this part of what its outline says. */
const LEAST_EFFECT = 0.5;

/**
 * The moment ratio if a cut did only half of what the outline says. In wind trials the moment followed the mass
 * taken off, and the share of the crown's area told it badly (Pavlis, Kane, Harris and Seiler 2008; Smiley and Kane
 * 2006); that a half is the least is judged, not measured.
 */
export const atLeastEffect = (ratio: Interval): Interval =>
  interval(1 - LEAST_EFFECT * (1 - ratio.low), 1 - LEAST_EFFECT * (1 - ratio.high));

/** Share of silhouette or volume below a level, over all that the readings allow: it is monotone in each. */
function shareBelowBounds(
  { base, top, widest }: Crown<Interval>,
  level: Interval,
  measure: 'silhouette' | 'volume',
): Interval {
  const shares = endsOf(base).flatMap(b =>
    endsOf(top).flatMap(t =>
      endsOf(widest ?? exact(0)).flatMap(w =>
        endsOf(level).map(at => {
          // No crown at these readings: nothing of it is below, or all.
          if (b >= t) return at >= t ? 1 : 0;
          const whole = { base: b, top: t, spread: 1 };
          const one = widest ? { ...whole, widest: Math.min(t, Math.max(b, w)) } : whole;
          return sharesBelow(one, at)[measure];
        }),
      ),
    ),
  );
  return interval(Math.min(...shares), Math.max(...shares));
}

/**
 * Share of the foliage that a change takes away, over everything that the readings allow. Cuts at top and base take
 * between what the silhouette loses and what the volume does: leaves sit outside, and no measure tells how far
 * outside. Drawing in the spread takes 1 − kw of the silhouette and 1 − kw² of the volume, kw the ratio of the spreads.
 *
 * @throws RangeError when the change adds to the crown for certain or leaves none.
 */
export function doseBounds(crown: Crown<Interval>, change: CrownChange<Interval>): Interval {
  requireChange(crown, change);
  const left = (measure: 'silhouette' | 'volume'): Interval => {
    const below = change.top ? shareBelowBounds(crown, change.top, measure) : exact(1);
    const lost = change.base ? shareBelowBounds(crown, change.base, measure) : exact(0);
    return clip(interval(below.low - lost.high, below.high - lost.low), interval(0, 1));
  };
  const [silhouette, volume] = [left('silhouette'), left('volume')];
  const width = remaining('spread', change.spread, crown.spread);
  return interval(
    1 - Math.max(silhouette.high, volume.high) * width.high,
    1 - Math.min(silhouette.low, volume.low) * width.low ** 2,
  );
}

/**
 * Seasons over which a dose must be spread. The limit counts anew on what each season finds, so that n
 * seasons leave (1 − limit)ⁿ; regrowth between them is not counted. Infinity when everything is to go, or where
 * a season allows nothing; a limit of all and more is spent in one season.
 *
 * @throws RangeError unless the dose is a share.
 */
export function seasonsNeeded(dose: number, seasonLimit: number): number {
  if (!(dose >= 0 && dose <= 1)) throw new RangeError(`a dose of ${dose}`);
  if (dose === 0) return 0;
  if (dose <= seasonLimit) return 1;
  if (!(seasonLimit > 0)) return Number.POSITIVE_INFINITY;
  // Slack for the last bit: two seasons of a quarter take 0.4375, no matter how the logarithms round.
  return Math.ceil(Math.log(1 - dose) / Math.log(1 - seasonLimit) - 1e-9);
}
