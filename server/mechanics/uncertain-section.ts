/**
 * Strength of a stem section with uncertain readings.
 *
 * Uses the cheapest of four valid methods. A ring has a closed form. The loss of one probed void in a round stem
 * increases with the void, its mouth and the bark, so its ends are the smallest and the greatest void. With walls read
 * at bearings the ends are the least and the most wood, read or interpolated (unread.ts). Anything else is searched
 * over its readings (bounds.ts), for loss is not monotone in them: the thin horns beside a narrow opening are extreme
 * fibres, and without them the peak stress falls. If that would take too long, the range is that of all sections
 * between the least and the most wood (envelope.ts): wider, and certain to contain the true one. Infinite depths and
 * walls end at what is physically possible for the diameter: the far bark, the pith.
 */

import { clip, exact, hull, type Interval, interval } from '../base/interval.ts';
import { extremes, widened } from './bounds.ts';
import { type Contradiction, contradictionsOf } from './contradictions.ts';
import { lossBetween } from './envelope.ts';
import { extremeSection } from './extreme-sections.ts';
import { jumpyReadings } from './openings.ts';
import { RayBuffers } from './rays.ts';
import { figuresWithPeakLoss, quickLoss, RAYS, sectionFigures } from './section.ts';
import { endOf, possible, radiusAt, type Sampler, sampler } from './section-readings.ts';
import type { Cavity, CrossSection, OuterEdge, UncertainSection } from './section-types.ts';
import { quarticLoss } from './thumb.ts';

export interface UncertainFigures {
  readonly strengthLoss: Interval;
  /** Worst bending direction at the upper end. */
  readonly worstBearing: number;
  /** Exact sections at the ends. */
  readonly best: CrossSection;
  readonly worst: CrossSection;
  readonly contradictions: readonly Contradiction[];
}

/** Rays during the search: losses are within 0.001 of those with all rays. */
const SEARCH_RAYS = 60;
/** Difference of losses between few rays and all that is a discontinuity, not rounding. */
const JUMP = 0.003;
/** Loss of a section without wood. */
const TOTAL = 1;
/** Share by which the range found is widened at either end; tests allow 2 % in total. */
const MARGIN = 0.004;
/** The same where the loss may be discontinuous: only there did the search miss an end by more. */
const MARGIN_WITH_JUMPS = 0.012;
/** Least margin, for voids too small for the search: an immeasurable loss. */
const LEAST_MARGIN = 0.0001;
/**
 * Between the least and the most wood, wood near the neutral axis may raise the peak stress: in 6,000 random voids of
 * one mouth and depth, and in the worst of 400 stems with walls between their bounds, by at most this share of the
 * range and at most these losses.
 */
const BETWEEN = 0.05;
const BETWEEN_MOUTHS = 0.0025;
const BETWEEN_WALLS = 0.01;
/** Mouths wider than this share of the diameter leave horns that may be extreme fibres or vanish. */
const WIDE_MOUTH = 0.8;
/** Default computing budget of one figure, in sections: a tenth of a second. */
export const MAX_SECTIONS = 20_000;
/** Sections of a search per squared number of readings: twice the observed maximum. */
const SEARCH_WORK = 40;

/** Losses closer than this are equal. */
const TIE = 1e-9;

/** Resolves a contradiction between walls and depth in favor of the reading with the greater loss. */
function lessFavourable(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Cavity<Interval> {
  const probed = { ...cavity, walls: undefined, allRound: undefined };
  const walled = { ...cavity, depth: undefined };
  const loss = (one: Cavity<Interval>) => lossRange({ outer, cavities: [one] }, MAX_SECTIONS).strengthLoss;
  const [byWalls, byDepth] = [loss(walled), loss(probed)];
  const worse = byDepth.high > byWalls.high || (byDepth.high === byWalls.high && byDepth.low > byWalls.low);
  return worse ? probed : walled;
}

/** Removes the more favorable of contradicting readings. */
export function withoutContradictions({ outer, cavities }: UncertainSection): {
  readonly section: UncertainSection;
  readonly contradictions: readonly Contradiction[];
} {
  const contradictions = cavities.flatMap((cavity, i) => contradictionsOf(outer, cavity, i));
  const doubted = new Set(
    contradictions.filter(c => c.kind === 'depth beyond the void of the walls').map(c => c.cavity),
  );
  return {
    section: {
      outer,
      cavities: cavities.map((cavity, i) => (doubted.has(i) ? lessFavourable(outer, cavity) : cavity)),
    },
    contradictions,
  };
}

/**
 * The loss with all rays, and at a discontinuity also that with few rays: the two meet it at slightly different
 * readings, so both sides are included.
 */
function lossNear(section: CrossSection, full: number): Interval {
  const coarse = quickLoss(section, SEARCH_RAYS);
  return Math.abs(coarse - full) > JUMP ? hull(exact(coarse), exact(full)) : exact(full);
}

type LossRange = Omit<UncertainFigures, 'contradictions'>;

/**
 * The wall of a closed concentric hollow in a round stem. Its loss, (1 − 2t/D)⁴ in every direction, decreases with wall
 * and bark and increases with the diameter.
 */
function ringOf({ outer, cavities }: UncertainSection): Interval | undefined {
  const [ring] = cavities;
  if (!ring || cavities.length > 1 || outer.crossDiameter || ring.opening || ring.walls?.length)
    return undefined;
  return ring.allRound;
}

function ringLoss(outer: OuterEdge<Interval>, wall: Interval): Interval {
  if (!(wall.low >= 0)) throw new RangeError(`wall of ${wall.low} m`);
  const loss = (radius: number, thickness: number) => quarticLoss(Math.max(0, radius - thickness) / radius);
  const radius = radiusAt(outer, 0);
  const losses = interval(loss(radius.low, wall.high), loss(radius.high, wall.low));
  return losses.low === losses.high ? losses : widenedLoss(losses);
}

function ringRange(outer: OuterEdge<Interval>, wall: Interval): LossRange {
  const at = (end: 'low' | 'high', allRound: number): CrossSection => ({
    outer: endOf(outer, end),
    cavities: [
      {
        bearing: 0,
        walls: undefined,
        allRound,
        depth: undefined,
        smallest: undefined,
        opening: undefined,
      },
    ],
  });
  return {
    strengthLoss: ringLoss(outer, wall),
    worstBearing: 0,
    best: at('low', wall.high),
    worst: at('high', wall.low),
  };
}

/** One void in a round stem, known by its depth, behind a mouth that leaves no horns. */
function isPlainProbe({ outer, cavities }: UncertainSection): boolean {
  const [probe] = cavities;
  if (!probe?.depth || cavities.length > 1 || outer.crossDiameter || probe.walls?.length) return false;
  return (probe.opening?.high ?? 0) <= WIDE_MOUTH * 2 * radiusAt(outer, 0).low;
}

/** The walls were read at bearings: those in between are interpolated, not searched. */
const isReadAtBearings = ({ walls, allRound }: Cavity<Interval>): boolean =>
  !allRound && walls !== undefined && walls.length > 0;

/** From the most wood that the readings allow to the least, with a margin. */
function cornerRange(section: UncertainSection, beyond: number): LossRange {
  const widths = section.cavities[0]!.opening;
  const openings =
    widths && widths.low < widths.high && isReadAtBearings(section.cavities[0]!)
      ? [widths.low, (widths.low + widths.high) / 2, widths.high].map(exact)
      : [widths];
  const corners = openings.map(opening => {
    const one = { ...section, cavities: [{ ...section.cavities[0]!, opening }] };
    return { best: extremeSection(one, 'most'), worst: extremeSection(one, 'least') };
  });
  // Horns beside a mouth may be extreme fibres or vanish, depending on its width.
  const ends = corners.map(({ best, worst }) => ({
    best,
    low: quickLoss(best, RAYS),
    worst,
    ...figuresWithPeakLoss(worst),
  }));
  const least = ends.reduce((one, other) => (other.low < one.low ? other : one));
  const most = ends.reduce((one, other) => (other.loss > one.loss ? other : one));
  const high = Math.max(most.loss, most.figures.strengthLoss);
  const low = Math.min(least.low, high);
  // Horns beside a mouth may be extreme fibres at any width.
  const margin = widths ? beyond : Math.min(beyond, BETWEEN * (high - low));
  return {
    strengthLoss: high - low > TIE ? widenedLoss(interval(low, high), 0, margin) : exactLoss(high),
    worstBearing: most.figures.worstBearing,
    best: least.best,
    worst: most.worst,
  };
}

/** Step of the bearings tried if that of a cavity is unknown, degrees. */
const TURN_STEP = 22.5;

/** Has a mouth or a probe, whose position depends on the bearing. */
const hasBearing = ({ walls, allRound, depth, opening }: Cavity<Interval>): boolean =>
  opening !== undefined || depth !== undefined || !(allRound || walls?.length);

/** Whether the figures depend on a missing bearing of a cavity or of the stem's first diameter. */
const isBearingMissing = ({ outer, cavities }: UncertainSection): boolean =>
  cavities.some(
    cavity =>
      cavity.bearing === undefined &&
      (cavities.length > 1
        ? hasBearing(cavity)
        : cavity.walls?.length && (outer.crossDiameter || hasBearing(cavity))),
  );

/** Walls at bearings, and a mouth at an unknown bearing. */
function turnedRange({ outer, cavities }: UncertainSection): LossRange {
  const ranges = Array.from({ length: 360 / TURN_STEP }, (_, i) => {
    const bearing = i * TURN_STEP;
    return cornerRange(
      possible({ outer: { ...outer, bearing }, cavities: [{ ...cavities[0]!, bearing }] }),
      BETWEEN_WALLS,
    );
  });
  const worst = ranges.reduce((one, other) =>
    other.strengthLoss.high > one.strengthLoss.high ? other : one,
  );
  const best = ranges.reduce((one, other) => (other.strengthLoss.low < one.strengthLoss.low ? other : one));
  return { ...worst, best: best.best, strengthLoss: hull(worst.strengthLoss, best.strengthLoss) };
}

/** Several voids in an unknown arrangement: together they may take the whole stem. */
function scatteredRange({ outer, cavities }: UncertainSection, maxSections: number): LossRange {
  const alone = cavities.map(cavity =>
    lossRange({ outer, cavities: [cavity] }, maxSections / cavities.length),
  );
  const worst = alone.reduce((one, other) => (other.strengthLoss.low > one.strengthLoss.low ? other : one));
  return { ...worst, strengthLoss: interval(worst.strengthLoss.low, TOTAL) };
}

/** All sections between the least and the most wood: wide but certain. */
function envelopeRange(section: UncertainSection): LossRange {
  const worst = extremeSection(section, 'least');
  const best = extremeSection(section, 'most');
  return {
    strengthLoss: lossBetween(worst, best),
    worstBearing: figuresWithPeakLoss(worst).figures.worstBearing,
    best,
    worst,
  };
}

/** With the smallest voids that mouths and depths allow. */
const withSmallest = ({ outer, cavities }: UncertainSection): UncertainSection => ({
  outer,
  cavities: cavities.map(cavity => (cavity.depth ? { ...cavity, smallest: true } : cavity)),
});

interface LossExtremes {
  /** Positions of the readings at which the loss, with few rays, is least and greatest. */
  readonly least: readonly number[];
  readonly greatest: readonly number[];
}

function endsOf({ names, reused }: Sampler, jumps: readonly boolean[]): LossExtremes {
  const buffers = new RayBuffers();
  const loss = (places: readonly number[]) => quickLoss(reused(places), SEARCH_RAYS, buffers);
  return extremes(loss, names.length, { ceiling: TOTAL, jumps });
}

function searchedRange(section: UncertainSection): LossRange {
  const samples = sampler(section);
  const isProbed = section.cavities.some(({ depth }) => depth);
  if (samples.names.length === 0 && !isProbed) {
    const only = samples.at([]);
    const { strengthLoss, worstBearing } = sectionFigures(only);
    return { strengthLoss: exactLoss(strengthLoss), worstBearing, best: only, worst: only };
  }
  const jumpy = jumpyReadings(section);
  const jumps = samples.names.map(name => jumpy.has(name));
  const ends = endsOf(samples, jumps);
  const smallest = isProbed ? sampler(withSmallest(section)) : samples;
  const best = smallest.at((isProbed ? endsOf(smallest, jumps) : ends).least);
  const worst = samples.at(ends.greatest);
  // Directions between whole degrees are included.
  const low = lossNear(best, quickLoss(best, RAYS));
  const { figures, loss } = figuresWithPeakLoss(worst);
  const { strengthLoss, worstBearing } = figures;
  const high = lossNear(worst, Math.max(strengthLoss, loss));
  return {
    strengthLoss: widenedLoss(
      interval(Math.min(low.low, high.low), high.high),
      jumps.includes(true) ? MARGIN_WITH_JUMPS : MARGIN,
    ),
    worstBearing,
    best,
    worst,
  };
}

/** Estimated cost of the search, in sections. */
function searchWork(section: UncertainSection): number {
  const readings = sampler(possible(section)).names.length;
  return SEARCH_WORK * readings * readings * section.cavities.length;
}

/** @param maxSections computing budget, in sections */
function lossRange(uncertain: UncertainSection, maxSections: number): LossRange {
  const others = uncertain.cavities.slice(1);
  if (isBearingMissing(uncertain))
    return others.length > 0 ? scatteredRange(uncertain, maxSections) : turnedRange(uncertain);
  const section = possible(uncertain);
  const ring = ringOf(section);
  if (ring) return ringRange(section.outer, ring);
  if (isPlainProbe(section)) return cornerRange(section, BETWEEN_MOUTHS);
  const isRead = section.cavities.some(isReadAtBearings);
  if (isRead && others.length === 0) return cornerRange(section, BETWEEN_WALLS);
  return isRead || searchWork(section) > maxSections ? envelopeRange(section) : searchedRange(section);
}

const widenedLoss = (range: Interval, share = MARGIN, least = LEAST_MARGIN): Interval =>
  clip(widened(range, share, least), interval(0, TOTAL));
const exactLoss = (loss: number): Interval => exact(Math.min(TOTAL, Math.max(0, loss)));

/** Only the `strengthLoss` of `uncertainFigures`, which is cheaper. */
export function lossBounds(uncertain: UncertainSection, maxSections = MAX_SECTIONS): Interval {
  const doubtful = uncertain.cavities.some(
    ({ walls, allRound, depth }) => (allRound || walls?.length) && depth,
  );
  const section = possible(doubtful ? withoutContradictions(uncertain).section : uncertain);
  const ring = ringOf(section);
  return ring ? ringLoss(section.outer, ring) : lossRange(section, maxSections).strengthLoss;
}

/**
 * Strength loss over all values that the readings allow.
 *
 * @param maxSections computing budget, in sections; beyond it the range is wider but contains the true one
 * @throws RangeError if there may be no wood under the bark, or a length may be negative.
 */
export function uncertainFigures(section: UncertainSection, maxSections = MAX_SECTIONS): UncertainFigures {
  const { section: sound, contradictions } = withoutContradictions(section);
  return { ...lossRange(sound, maxSections), contradictions };
}
