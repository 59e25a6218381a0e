/**
 * Rules of thumb for a hollow stem. Each is valid for one closed, centered, round hollow; they are shown for comparison
 * with the section analysis, with their sources, and decide nothing.
 *
 * D is the diameter of the wood under the bark, the mean of both if two were measured. d is D less twice the mean wall;
 * or, if only a depth is known, the diameter of the void or the width of its mouth, whichever is greater; or anything
 * from 0 to D if neither was measured. t is the thinnest wall, R the radius at its bearing, or the largest. Walls read
 * on bearings up to a quarter turn apart are taken as they are, following common practice; in a wider gap the wall is
 * what unread.ts allows. Losses and ratios are shares from 0 to 1.
 */

import { clip, exact, type Interval, interval } from '../base/interval.ts';
import { endOf, radiusAt } from './section-readings.ts';
import { wallsAround, woodEdge } from './section-shape.ts';
import type { Cavity, OuterEdge, WallReading } from './section-types.ts';
import { QUARTER, wallsAllAround } from './unread.ts';

interface RuleOfThumb {
  readonly value: Interval;
  readonly source: string;
}

type WallRatio =
  | (RuleOfThumb & { readonly applies: true })
  | { readonly applies: false; readonly because: string; readonly source: string };

export interface RulesOfThumb {
  /** Thinnest sound wall over the radius; closed hollows only. */
  readonly wallRatio: WallRatio;
  /** Void diameter over stem diameter. */
  readonly diameterRatio: Interval;
  readonly cubic: RuleOfThumb;
  readonly quartic: RuleOfThumb;
  readonly withOpening: RuleOfThumb;
}

const WAGENER = 'Wagener 1963';
const CODER = 'Coder 1989';
const SMILEY_FRAEDRICH = 'Smiley and Fraedrich 1992';
const MATTHECK_BRELOER = 'Mattheck and Breloer 1994';
/** 120° of the circumference: limit of the rules for open cavities (Mattheck and Breloer 1994). */
const WIDEST_OPENING_SHARE = 120 / 360;

const SHARE = interval(0, 1);

/** Loss by d³/D³ (Wagener 1963). */
export const cubicLoss = (diameterRatio: number): number => diameterRatio ** 3;
/** Loss by d⁴/D⁴ (Coder 1989): the exact loss of a concentric hollow circle. */
export const quarticLoss = (diameterRatio: number): number => diameterRatio ** 4;
/** Loss by (d³ + Ro(D³ − d³)) / D³, Ro the opening over the circumference (Smiley and Fraedrich 1992). */
export const openHollowLoss = (diameterRatio: number, openingShare: number): number =>
  cubicLoss(diameterRatio) + openingShare * (1 - cubicLoss(diameterRatio));

/** Range of an increasing function. */
const increasing = (figure: (value: number) => number, over: Interval): Interval =>
  interval(figure(over.low), figure(over.high));

/** Mean diameter of the wood under the bark, m. @throws RangeError if there may be none. */
export function woodDiameter({
  diameter,
  crossDiameter = diameter,
  bark = exact(0),
}: OuterEdge<Interval>): Interval {
  const low = (diameter.low + crossDiameter.low) / 2 - 2 * bark.high;
  if (!(low > 0))
    throw new RangeError(`no wood: a diameter of ${diameter.low} m with bark of ${bark.high} m`);
  return interval(low, (diameter.high + crossDiameter.high) / 2 - 2 * bark.low);
}

/** Mean over all bearings of a wall interpolated linearly between its readings. */
function meanWall(readings: readonly { readonly bearing: number; readonly wall: number }[]): number {
  const sorted = readings
    .map(({ bearing, wall }) => ({ bearing: ((bearing % 360) + 360) % 360, wall }))
    .sort((a, b) => a.bearing - b.bearing || a.wall - b.wall)
    .filter(({ bearing }, i, all) => i === 0 || bearing !== all[i - 1]!.bearing);
  const first = sorted[0]!;
  return sorted.reduce((sum, { bearing, wall }, i) => {
    const next = sorted[i + 1] ?? { bearing: first.bearing + 360, wall: first.wall };
    return sum + ((wall + next.wall) / 2) * ((next.bearing - bearing) / 360);
  }, 0);
}

/** d/D as a function of the stem diameter, for the least and the greatest hollow that the readings allow. */
interface HollowRatio {
  readonly least: (diameter: number) => number;
  readonly greatest: (diameter: number) => number;
}

/** Walls as read, and between readings far apart as they may be. */
function wallsOf(
  outer: OuterEdge<Interval>,
  { walls, allRound }: Cavity<Interval>,
): readonly WallReading<Interval>[] {
  if (allRound || !walls?.length) return wallsAround({ walls, allRound });
  return wallsAllAround(walls, bearing => radiusAt(outer, bearing).high, QUARTER);
}

function hollowOf(
  walls: readonly WallReading<Interval>[],
  depth: Interval | undefined,
  opening: Interval,
): HollowRatio {
  const share = (value: number) => Math.min(1, Math.max(0, value));
  if (walls.length > 0) {
    const mean = (end: 'low' | 'high') =>
      meanWall(walls.map(r => ({ bearing: r.bearing, wall: r.wall[end] })));
    const thin = mean('low');
    const thick = mean('high');
    return { least: d => share(1 - (2 * thick) / d), greatest: d => share(1 - (2 * thin) / d) };
  }
  // The rules do not say whether d is the diameter of the void or of its mouth.
  if (depth)
    return {
      least: d => share(depth.low / d),
      greatest: d => share(Math.max(depth.high, opening.high) / d),
    };
  return { least: () => 0, greatest: () => 1 };
}

/** Minimum of a unimodal function, by ternary search. */
function minimum(figure: (at: number) => number, { low, high }: Interval): number {
  if (low === high) return figure(low);
  let [from, to] = [low, high];
  // (2/3)⁶⁰ of the range is below the resolution of a double.
  for (let round = 0; round < 60; round++) {
    const third = (to - from) / 3;
    if (figure(from + third) <= figure(to - third)) to -= third;
    else from += third;
  }
  return Math.min(figure(low), figure((from + to) / 2), figure(high));
}

/**
 * A larger stem with the same walls has a relatively larger hollow and a relatively smaller opening. The remaining
 * strength (1 − d³/D³)(1 − Ro) is log-concave in 1/D, so the loss has its maximum at an end of D and a single minimum.
 */
function openingLoss(diameter: Interval, hollow: HollowRatio, opening: Interval): Interval {
  const openShare = (width: number, d: number) => Math.min(1, width / (Math.PI * d));
  const least = (d: number) => openHollowLoss(hollow.least(d), openShare(opening.low, d));
  const greatest = (d: number) => openHollowLoss(hollow.greatest(d), openShare(opening.high, d));
  const most = Math.max(greatest(diameter.low), greatest(diameter.high));
  return interval(Math.min(most, minimum(least, diameter)), most);
}

/** Greatest distance from the pith to the surface of the wood, m. */
function widestRadius(outer: OuterEdge<Interval>): number {
  const { along, across } = woodEdge(endOf(outer, 'high'));
  return Math.max(along, across);
}

/** Distance from the pith to the surface at a bearing, or at any if the orientation of an ellipse is unknown. */
function radiusWhere(outer: OuterEdge<Interval>, bearing: number, isAnywhere: boolean): Interval {
  if (!isAnywhere) return radiusAt(outer, bearing);
  const { along: least, across: narrow } = woodEdge(endOf(outer, 'low'));
  const { along: most, across: wide } = woodEdge(endOf(outer, 'high'));
  return interval(Math.min(least, narrow), Math.max(most, wide));
}

/** Minimum of wall over radius. */
function thinnestRatio(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Interval {
  const isOval = outer.crossDiameter !== undefined;
  const ratios = wallsOf(outer, cavity).map(({ bearing, wall }) => {
    const radius = radiusWhere(outer, bearing, isOval && outer.bearing === undefined);
    return interval(wall.low / radius.high, wall.high / radius.low);
  });
  if (isOval && cavity.allRound) {
    // The ratio of a constant wall is least at the greatest radius.
    const { along, across } = woodEdge(endOf(outer, 'low'));
    const least = Math.max(along, across);
    ratios.push(interval(cavity.allRound.low / widestRadius(outer), cavity.allRound.high / least));
  }
  return interval(Math.min(...ratios.map(({ low }) => low)), Math.min(...ratios.map(({ high }) => high)));
}

function wallRatio(outer: OuterEdge<Interval>, cavity: Cavity<Interval>, opening: Interval): WallRatio {
  const source = MATTHECK_BRELOER;
  const notApplicable = (because: string): WallRatio => ({ applies: false, because, source });
  if (opening.high > WIDEST_OPENING_SHARE * Math.PI * woodDiameter(outer).low)
    return notApplicable('the opening may take more than 120° of the circumference');
  if (opening.high > 0) return notApplicable('it holds for closed hollows, and this one is open');
  if (!cavity.allRound && !cavity.walls?.length) return notApplicable('no wall was read');
  return { applies: true, value: clip(thinnestRatio(outer, cavity), SHARE), source };
}

/**
 * All rules of thumb for one cavity in a stem section.
 *
 * @throws RangeError if there may be no wood under the bark.
 */
export function rulesOfThumb(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): RulesOfThumb {
  const diameter = woodDiameter(outer);
  const opening = cavity.opening ?? exact(0);
  const hollow = hollowOf(wallsOf(outer, cavity), cavity.depth, opening);
  const ends = (ratio: (d: number) => number) => [ratio(diameter.low), ratio(diameter.high)];
  const diameterRatio = interval(Math.min(...ends(hollow.least)), Math.max(...ends(hollow.greatest)));
  return {
    wallRatio: wallRatio(outer, cavity, opening),
    diameterRatio,
    cubic: { value: increasing(cubicLoss, diameterRatio), source: WAGENER },
    quartic: { value: increasing(quarticLoss, diameterRatio), source: CODER },
    withOpening: { value: openingLoss(diameter, hollow, opening), source: SMILEY_FRAEDRICH },
  };
}
