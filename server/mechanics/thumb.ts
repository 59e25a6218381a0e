/**
 * The trade's rules of thumb for a hollow stem, beside what its section says. Each holds for one closed,
 * centred, round hollow; they are shown for comparison, with their sources, and decide nothing.
 *
 * D is the diameter of the wood under the bark, the mean of both where two were taken. d is D less twice the
 * mean wall, or the void's own diameter where only a depth is known, which may be its mouth's where that is wider; nothing to the whole of D where neither
 * was seen. t is the thinnest wall, R the radius where it was read, or the largest. Walls read on bearings no more
 * than a quarter of a turn apart count as they are, as the trade takes them; in a wider gap the wall is what it may be
 * there (unread.ts). Losses and ratios are shares from 0 to 1.
 */

import { clip, exact, type Interval, interval } from '../base/interval.ts';
import { endOf, radiusAt } from './section-readings.ts';
import { wallsAround, woodEdge } from './section-shape.ts';
import type { Cavity, OuterEdge, WallReading } from './section-types.ts';
import { QUARTER, wallsAllAround } from './unread.ts';

export interface Thumb {
  readonly value: Interval;
  readonly source: string;
}

export type WallRatio =
  | (Thumb & { readonly applies: true })
  | { readonly applies: false; readonly because: string; readonly source: string };

export interface Thumbs {
  /** Thinnest sound wall over the radius: closed hollows only. */
  readonly wallRatio: WallRatio;
  /** Void diameter over stem diameter. */
  readonly diameterRatio: Interval;
  readonly cubic: Thumb;
  readonly quartic: Thumb;
  readonly withOpening: Thumb;
}

const WAGENER = 'Wagener 1963';
const CODER = 'Coder 1989';
const SMILEY_FRAEDRICH = 'Smiley and Fraedrich 1992';
const MATTHECK_BRELOER = 'Mattheck and Breloer 1994';
/** 120° of the circumference: beyond it not even the rules for open cavities speak (Mattheck and Breloer 1994). */
const WIDEST_OPENING_SHARE = 120 / 360;

const SHARE = interval(0, 1);

/** Loss by d³/D³ (Wagener 1963). */
export const cubicLoss = (diameterRatio: number): number => diameterRatio ** 3;
/** Loss by d⁴/D⁴ (Coder 1989): the exact loss of a concentric hollow circle. */
export const quarticLoss = (diameterRatio: number): number => diameterRatio ** 4;
/** Loss by (d³ + Ro(D³ − d³)) / D³, Ro the opening over the circumference (Smiley and Fraedrich 1992). */
export const openHollowLoss = (diameterRatio: number, openingShare: number): number =>
  cubicLoss(diameterRatio) + openingShare * (1 - cubicLoss(diameterRatio));

/** For a function that rises over the interval. */
const rising = (figure: (value: number) => number, over: Interval): Interval =>
  interval(figure(over.low), figure(over.high));

/** Of the wood under the bark, the mean of both diameters, m. @throws RangeError when there may be none. */
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

/** Mean over the circle of a wall that varies linearly with bearing between its readings. */
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

/** d/D as it follows from a stem diameter, low and high: the least hollow allowed, and the greatest. */
interface Hollow {
  readonly least: (diameter: number) => number;
  readonly greatest: (diameter: number) => number;
}

/** Every wall that there is, or may be where nobody read. */
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
): Hollow {
  const share = (value: number) => Math.min(1, Math.max(0, value));
  if (walls.length > 0) {
    const mean = (end: 'low' | 'high') =>
      meanWall(walls.map(r => ({ bearing: r.bearing, wall: r.wall[end] })));
    const thin = mean('low');
    const thick = mean('high');
    return { least: d => share(1 - (2 * thick) / d), greatest: d => share(1 - (2 * thin) / d) };
  }
  // A void is at least as wide as its mouth: which of the two the rules mean, nobody says.
  if (depth)
    return {
      least: d => share(depth.low / d),
      greatest: d => share(Math.max(depth.high, opening.high) / d),
    };
  return { least: () => 0, greatest: () => 1 };
}

/** Lowest value of a function with a single valley. */
function valley(figure: (at: number) => number, { low, high }: Interval): number {
  if (low === high) return figure(low);
  let [from, to] = [low, high];
  // 60 thirds leave (2/3)⁶⁰ of the range: beyond what a double tells apart in a diameter.
  for (let round = 0; round < 60; round++) {
    const third = (to - from) / 3;
    if (figure(from + third) <= figure(to - third)) to -= third;
    else from += third;
  }
  return Math.min(figure(low), figure((from + to) / 2), figure(high));
}

/**
 * A larger stem with the same walls has a relatively larger hollow and a relatively smaller opening. What
 * remains, (1 − d³/D³)(1 − Ro), is log-concave in 1/D: the loss is highest at an end of D, and has one valley.
 */
function openingLoss(diameter: Interval, hollow: Hollow, opening: Interval): Interval {
  const openShare = (width: number, d: number) => Math.min(1, width / (Math.PI * d));
  const least = (d: number) => openHollowLoss(hollow.least(d), openShare(opening.low, d));
  const greatest = (d: number) => openHollowLoss(hollow.greatest(d), openShare(opening.high, d));
  const most = Math.max(greatest(diameter.low), greatest(diameter.high));
  return interval(Math.min(most, valley(least, diameter)), most);
}

/** From the pith to the surface of the wood, where an oval stem is widest, m. */
export function widestRadius(outer: OuterEdge<Interval>): number {
  const { along, across } = woodEdge(endOf(outer, 'high'));
  return Math.max(along, across);
}

/** From the pith to the surface: at a bearing, or anywhere where nobody wrote how an oval stem lies. */
function radiusWhere(outer: OuterEdge<Interval>, bearing: number, isAnywhere: boolean): Interval {
  if (!isAnywhere) return radiusAt(outer, bearing);
  const { along: least, across: narrow } = woodEdge(endOf(outer, 'low'));
  const { along: most, across: wide } = woodEdge(endOf(outer, 'high'));
  return interval(Math.min(least, narrow), Math.max(most, wide));
}

/** The thinnest wall over the radius where it stands. */
function thinnestRatio(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Interval {
  const isOval = outer.crossDiameter !== undefined;
  const ratios = wallsOf(outer, cavity).map(({ bearing, wall }) => {
    const radius = radiusWhere(outer, bearing, isOval && outer.bearing === undefined);
    return interval(wall.low / radius.high, wall.high / radius.low);
  });
  if (isOval && cavity.allRound) {
    // The same wall all round is thinnest for its stem where that is widest.
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
 * Every rule of thumb for one cavity in a stem section.
 *
 * @throws RangeError when there may be no wood under the bark.
 */
export function rulesOfThumb(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Thumbs {
  const diameter = woodDiameter(outer);
  const opening = cavity.opening ?? exact(0);
  const hollow = hollowOf(wallsOf(outer, cavity), cavity.depth, opening);
  const ends = (ratio: (d: number) => number) => [ratio(diameter.low), ratio(diameter.high)];
  const diameterRatio = interval(Math.min(...ends(hollow.least)), Math.max(...ends(hollow.greatest)));
  return {
    wallRatio: wallRatio(outer, cavity, opening),
    diameterRatio,
    cubic: { value: rising(cubicLoss, diameterRatio), source: WAGENER },
    quartic: { value: rising(quarticLoss, diameterRatio), source: CODER },
    withOpening: { value: openingLoss(diameter, hollow, opening), source: SMILEY_FRAEDRICH },
  };
}
