/**
 * Effect of a crown reduction on silhouette, bending moment, stress and foliage. Metres; ratios and doses are shares.
 */

import { clip, endsOf, exact, type Interval, interval, multiply } from '../base/interval.ts';
import { bounds, type Direction, widened } from './bounds.ts';
import { type Crown, requireCrown, sharesBelow, uncutOf } from './crown.ts';
import { momentShape, type WindSite } from './wind.ts';

/** New dimensions of a crown; the others stay. */
export interface CrownChange<Q = number> {
  readonly base?: Q | undefined;
  readonly top?: Q | undefined;
  readonly spread?: Q | undefined;
}

/** Relative rounding error of an unchanged dimension. */
const ROUNDING = 1e-9;

/**
 * The crown after the change: truncated at its new top and base, with its outline between them unchanged but every
 * width scaled by the ratio of the spreads. Leaders are cut back to laterals; the crown is not compressed into a lower
 * one of the same shape.
 *
 * @throws RangeError if the change adds to the crown or leaves none.
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
    widest: crown.widest,
    uncut: isCut ? uncutOf(crown) : undefined,
  };
  requireCrown(after);
  return after;
}

/**
 * Moment before a reduction, without speed, drag and density; see momentShape.
 *
 * @throws RangeError for an impossible crown, or if the height carries no load.
 */
function initialMomentShape(crowns: readonly Crown[], height: number, site: WindSite): number {
  const full = momentShape(crowns, height, site);
  if (!(full > 0)) throw new RangeError(`no crown above ${height} m that the wind could load`);
  return full;
}

/**
 * Bending moment at a height after a reduction over that before, independent of wind speed and drag; 0 if the whole
 * crown above the height is removed.
 *
 * @throws RangeError for an impossible crown, or if the height carried no load before.
 */
export const momentRatio = (
  before: readonly Crown[],
  after: readonly Crown[],
  height: number,
  site: WindSite,
): number => momentShape(after, height, site) / initialMomentShape(before, height, site);

/** Ratio of a dimension after to before, clipped to 1 where the intervals overlap. */
function remainingRatio(what: string, after: Interval | undefined, before: Interval): Interval {
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

/** Allowance for what the search may miss; see bounds.ts. */
const SEARCH_SLACK = 0.005;

/**
 * Monotonicity of the moment ratio in [height, base, top]. Lowering the top removes a greater share of the load above a
 * higher section; and as the base or the top of the whole ellipse rises, its centroid moves up, into what lowering the
 * top removes and out of what raising the base does. If both ends are cut, or intervals overlap, neither is valid.
 */
function directionsOf(
  crown: Crown<Interval>,
  { base, top }: CrownChange<Interval>,
): readonly [height: Direction, base: Direction, top: Direction] {
  const searched = ['unknown', 'unknown', 'unknown'] as const;
  if (crown.widest || crown.base.high >= crown.top.low || (base && top)) return searched;
  return top ? ['falling', 'falling', 'falling'] : ['rising', 'rising', 'rising'];
}

/** Moment ratio of the change of base and top alone. */
function heightRatioBounds(
  crown: Crown<Interval>,
  change: CrownChange<Interval>,
  height: Interval,
  site: WindSite,
): Interval {
  const { base, top } = change;
  // Raising the base changes nothing above it.
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
    // Overlapping readings are clipped to a possible crown.
    if (oldBase >= oldTop) return 0;
    const widest = crown.widest ? Math.min(oldTop, Math.max(oldBase, rest.shift()!)) : undefined;
    const before = { base: oldBase, top: oldTop, spread: 1, widest };
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
  // A reduction never increases the moment.
  return clip(searched ? widened(found, SEARCH_SLACK) : found, interval(0, 1));
}

/**
 * The moment ratio over all values that the readings of one crown, its change and the height allow.
 *
 * @throws RangeError if the change certainly adds to the crown, the height carries no load, or a reading has no upper
 * end.
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
  const byWidth = remainingRatio('spread', change.spread, crown.spread);
  return multiply(byWidth, heightRatioBounds(crown, change, height, site));
}

/**
 * Peak stress under the remaining crown over that of the sound stem under the full crown: moment ratio / (1 − loss).
 * Infinity without wood.
 *
 * @throws RangeError for a negative ratio or a loss above 1.
 */
export function stressRatio(ratio: Interval, strengthLoss: Interval): Interval {
  if (!(ratio.low >= 0 && strengthLoss.high <= 1))
    throw new RangeError(`no stress from a moment ratio of ${ratio.low} and a loss of ${strengthLoss.high}`);
  const stress = (moment: number, left: number) =>
    moment === 0 ? 0 : left === 0 ? Number.POSITIVE_INFINITY : moment / left;
  return interval(stress(ratio.low, 1 - strengthLoss.low), stress(ratio.high, 1 - strengthLoss.high));
}

/** Least share of the computed moment reduction that a cut achieves. */
const LEAST_EFFECT = 0.5;

/**
 * The moment ratio if a cut achieved only half of the reduction computed from the outline. In wind trials the moment
 * correlated with the mass removed and poorly with the share of the crown's area (Pavlis, Kane, Harris and Seiler 2008;
 * Smiley and Kane 2006); one half as the least is an estimate, not measured.
 */
export const atLeastEffect = (ratio: Interval): Interval =>
  interval(1 - LEAST_EFFECT * (1 - ratio.low), 1 - LEAST_EFFECT * (1 - ratio.high));

/** Share of silhouette or volume below a level, at the ends of the readings: it is monotone in each. */
function shareBelowBounds(
  { base, top, widest }: Crown<Interval>,
  level: Interval,
  measure: 'silhouette' | 'volume',
): Interval {
  const shares = endsOf(base).flatMap(b =>
    endsOf(top).flatMap(t =>
      endsOf(widest ?? exact(0)).flatMap(w =>
        endsOf(level).map(at => {
          // No crown at these readings: none of it is below, or all.
          if (b >= t) return at >= t ? 1 : 0;
          const clipped = widest && Math.min(t, Math.max(b, w));
          return sharesBelow({ base: b, top: t, spread: 1, widest: clipped }, at)[measure];
        }),
      ),
    ),
  );
  return interval(Math.min(...shares), Math.max(...shares));
}

/**
 * Share of the foliage that a change removes, over all values that the readings allow. Cuts at top and base remove
 * between the share of the silhouette and that of the volume: foliage is concentrated in an outer shell of unknown
 * depth. Reducing the spread removes 1 − kw of the silhouette and 1 − kw² of the volume, kw being the ratio of the
 * spreads.
 *
 * @throws RangeError if the change certainly adds to the crown or leaves none.
 */
export function doseBounds(crown: Crown<Interval>, change: CrownChange<Interval>): Interval {
  requireChange(crown, change);
  const left = (measure: 'silhouette' | 'volume'): Interval => {
    const below = change.top ? shareBelowBounds(crown, change.top, measure) : exact(1);
    const lost = change.base ? shareBelowBounds(crown, change.base, measure) : exact(0);
    return clip(interval(below.low - lost.high, below.high - lost.low), interval(0, 1));
  };
  const [silhouette, volume] = [left('silhouette'), left('volume')];
  const width = remainingRatio('spread', change.spread, crown.spread);
  return interval(
    1 - Math.max(silhouette.high, volume.high) * width.high,
    1 - Math.min(silhouette.low, volume.low) * width.low ** 2,
  );
}

/**
 * Seasons over which a dose must be spread. The limit applies to the foliage present in each season, so n seasons leave
 * (1 − limit)ⁿ, without regrowth. Infinity for a dose of 1 that exceeds the limit, or a limit of 0.
 *
 * @throws RangeError unless the dose is between 0 and 1.
 */
export function seasonsNeeded(dose: number, seasonLimit: number): number {
  if (!(dose >= 0 && dose <= 1)) throw new RangeError(`a dose of ${dose}`);
  if (dose === 0) return 0;
  if (dose <= seasonLimit) return 1;
  if (!(seasonLimit > 0)) return Number.POSITIVE_INFINITY;
  // Tolerance for rounding: two seasons of a quarter remove exactly 0.4375.
  return Math.ceil(Math.log(1 - dose) / Math.log(1 - seasonLimit) - 1e-9);
}
