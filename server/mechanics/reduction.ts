/**
 * What a reduction of the crown takes off: silhouette, bending moment, foliage; and how much would have to
 * come off for weak sections to be stressed no more than sound ones were. Metres; ratios and doses are shares.
 */

import { bounds, type Direction, widened } from './bounds.ts';
import { type Crown, requireCrown, widestOf } from './crown.ts';
import { clip, exact, type Interval, interval, multiply } from './interval.ts';
import { momentShape, type WindSite } from './wind.ts';

/** What a prescription makes of a crown; what it does not name stays. */
export interface CrownChange<Q = number> {
  readonly base?: Q;
  readonly top?: Q;
  readonly spread?: Q;
}

/**
 * The crown after the change; its widest level keeps its place in proportion.
 *
 * @throws RangeError when the change adds to the crown or leaves none.
 */
export function reducedCrown(crown: Crown, change: CrownChange): Crown {
  requireCrown(crown);
  const { base = crown.base, top = crown.top, spread = crown.spread } = change;
  if (top > crown.top || base < crown.base || spread > crown.spread)
    throw new RangeError(
      `a reduction adds nothing: from ${crown.base}–${crown.top} m, ${crown.spread} m wide, to ${base}–${top} m, ${spread} m wide`,
    );
  const share = (widestOf(crown) - crown.base) / (crown.top - crown.base);
  const reduced = { base, top, spread };
  // Held within the crown against the last bit of rounding.
  const widest = Math.min(top, Math.max(base, base + share * (top - base)));
  const after = crown.widest === undefined ? reduced : { ...reduced, widest };
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

/** Moment ratio for the change of base and top alone. */
function heightRatioBounds(
  crown: Crown<Interval>,
  { base, top }: CrownChange<Interval>,
  height: Interval,
  site: WindSite,
): Interval {
  if (!base && !top) return exact(1);
  const inputs: [Interval, Direction][] = [
    // A lower top takes more from what stands above a higher section; so long as only the top moves, and the
    // widest level with it, the ratio of the widths falls all the way up.
    [height, crown.widest || base ? 'unknown' : 'falling'],
    [crown.base, 'unknown'],
    [crown.top, top && top.high <= crown.top.low ? 'falling' : 'unknown'],
    ...(crown.widest ? [[crown.widest, 'unknown'] as [Interval, Direction]] : []),
    ...(base ? [[base, 'unknown'] as [Interval, Direction]] : []),
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
    if (newBase >= newTop || h >= newTop) return 0;
    return momentRatio([before], [reducedCrown(before, { base: newBase, top: newTop })], h, site);
  };
  const found = bounds(
    ratio,
    inputs.map(([input]) => input),
    inputs.map(([, direction]) => direction),
  );
  const searched = inputs.some(([input, how]) => how === 'unknown' && input.low < input.high);
  const { low, high } = searched ? widened(found, SEARCH_SLACK) : found;
  // Raising the base of a crown can leave a greater moment: its shape is stretched over the greater heights.
  return interval(Math.max(0, low), high);
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

/** Share of the foliage taken, from the ratios of crown length and width: by silhouette to by volume. */
const dose = (least: readonly [number, number], most: readonly [number, number]): Interval =>
  interval(1 - most[0] * most[1], 1 - least[0] * least[1] ** 2);

/**
 * Share of the foliage that a change takes away: from 1 − kh·kw (as the silhouette shrinks) to 1 − kh·kw² (as
 * the volume does), kh and kw the ratios of crown length and width, over everything that the readings allow.
 *
 * @throws RangeError when the change adds to the crown for certain or leaves none.
 */
export function doseBounds(crown: Crown<Interval>, change: CrownChange<Interval>): Interval {
  requireChange(crown, change);
  const { base, top } = crown;
  const length = (oldBase: number, oldTop: number, newBase: number, newTop: number) =>
    Math.max(0, Math.min(newTop, oldTop) - Math.max(newBase, oldBase)) / (oldTop - oldBase);
  // Where an end is not changed, more of the old crown beyond the other end means that less of it goes.
  const shortest = {
    base: change.base ? base.low : base.high,
    top: change.top ? top.high : top.low,
  };
  const longest = {
    base: change.base ? clip(change.base, base).low : base.low,
    top: change.top ? clip(change.top, top).high : top.high,
  };
  const { base: b0, top: t0 } = shortest;
  const { base: b1, top: t1 } = longest;
  const least = b0 < t0 ? length(b0, t0, change.base?.high ?? b0, change.top?.low ?? t0) : 0;
  const most = b1 < t1 ? length(b1, t1, change.base?.low ?? b1, change.top?.high ?? t1) : 1;
  const width = remaining('spread', change.spread, crown.spread);
  return dose([least, width.low], [most, width.high]);
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
