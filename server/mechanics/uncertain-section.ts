/**
 * Strength of a stem section of which intervals are known.
 *
 * Four ways, the cheapest that holds. A ring has a closed form. The loss of one probed void in a round stem rises with
 * the void, its mouth and the bark, so that its ends are the smallest void and the greatest. Of walls read at bearings
 * the ends are the least wood and the most, read or unread (unread.ts). Anything else is searched over its readings
 * (bounds.ts), for loss is not monotone in them: the thin horns beside a narrow opening are extreme fibres, and with
 * them gone the peak stress falls. Where that would take too long, the range is that of everything between the least
 * wood and the most (envelope.ts): wider, and surely holding the true one. Depths and walls with no upper end stop at
 * what is physically possible for the diameter at hand: the far bark, the pith.
 */

import { clip, exact, hull, type Interval, interval } from '../base/interval.ts';
import { extremes, widened } from './bounds.ts';
import { type Contradiction, contradictionsOf } from './contradictions.ts';
import { lossBetween } from './envelope.ts';
import { extremeSection } from './extreme-sections.ts';
import { jumpyReadings } from './openings.ts';
import { RayBuffers } from './rays.ts';
import { quickLoss, RAYS, sectionFigures, steepestFigures } from './section.ts';
import { endOf, possible, radiusAt, type Sampler, sampler } from './section-readings.ts';
import type { Cavity, CrossSection, OuterEdge, UncertainSection } from './section-types.ts';
import { quarticLoss } from './thumb.ts';

export interface UncertainFigures {
  readonly strengthLoss: Interval;
  /** Direction of bending that is worst at the upper end. */
  readonly worstBearing: number;
  /** The exact sections at which the ends were found. */
  readonly best: CrossSection;
  readonly worst: CrossSection;
  readonly contradictions: readonly Contradiction[];
}

/** Rays while searching: losses within 0.001 of the full section's. */
const SEARCH_RAYS = 60;
/** A difference of losses between the coarse section and the full one that is no rounding. */
const CLIFF = 0.003;
/** The loss of a section with nothing left: none is greater. */
const TOTAL = 1;
/** Share by which the range found is widened on either side; tests allow 2 % in all. */
const MARGIN = 0.004;
/** The same where the loss may jump: only there the search was seen to miss an end by more than that. */
const MARGIN_AT_CLIFFS = 0.012;
/** And a loss that nobody can measure, for voids so small that the search hardly sees them. */
const TRIFLE = 0.0001;
/**
 * Between the least wood and the most, wood beside the neutral axis may raise the peak stress. In 6,000 random voids
 * of one mouth and depth, and at the worst of 400 stems with walls between their bounds, by no more than this share
 * of the range, nor by more than these losses.
 */
const BETWEEN = 0.05;
const BETWEEN_MOUTHS = 0.0025;
const BETWEEN_WALLS = 0.01;
/** Mouths wider than this share of the diameter leave horns that may be extreme fibres, or gone. */
const WIDE_MOUTH = 0.8;
/** Sections that one figure may cost, if nobody says otherwise: a tenth of a second. */
export const MOST_WORK = 20_000;
/** Sections that a search takes at the most, for the square of its readings: twice what was seen. */
const SEARCH_WORK = 40;

/** Far below any loss. */
const NONE = 1e-9;

/** Walls and depth of one cavity contradict each other: the reading with the greater loss stands. */
function lessFavourable(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Cavity<Interval> {
  const probed = { ...cavity, walls: undefined, allRound: undefined };
  const walled = { ...cavity, depth: undefined };
  const loss = (one: Cavity<Interval>) => lossRange({ outer, cavities: [one] }, MOST_WORK).strengthLoss;
  const [byWalls, byDepth] = [loss(walled), loss(probed)];
  const worse = byDepth.high > byWalls.high || (byDepth.high === byWalls.high && byDepth.low > byWalls.low);
  return worse ? probed : walled;
}

/** The section as it will be computed: of contradicting readings only the less favourable kept. */
export function settled({ outer, cavities }: UncertainSection): {
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
 * A loss and, where a sliver at the surface is about to vanish, what the search saw: the coarse section and the
 * full one come to that cliff at slightly different readings, so both sides of it count.
 */
function lossNear(section: CrossSection, full: number): Interval {
  const coarse = quickLoss(section, SEARCH_RAYS);
  return Math.abs(coarse - full) > CLIFF ? hull(exact(coarse), exact(full)) : exact(full);
}

type LossRange = Omit<UncertainFigures, 'contradictions'>;

/**
 * The only wall of a round stem without an opening, read all round. The loss, (1 − 2t/D)⁴ whichever way it is bent,
 * falls with wall and bark and rises with the diameter, so the commonest hollow of all needs no search.
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

/** One void in a round stem, known by its depth behind a mouth that leaves no horns. */
function isPlainProbe({ outer, cavities }: UncertainSection): boolean {
  const [probe] = cavities;
  if (!probe?.depth || cavities.length > 1 || outer.crossDiameter || probe.walls?.length) return false;
  return (probe.opening?.high ?? 0) <= WIDE_MOUTH * 2 * radiusAt(outer, 0).low;
}

/** One cavity whose walls were read at bearings: what lies between is no input to be searched. */
const isReadAtBearings = ({ walls, allRound }: Cavity<Interval>): boolean =>
  !allRound && walls !== undefined && walls.length > 0;

/** From the most wood that the readings allow to the least, and what may lie a little beyond either. */
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
  // Horns beside a mouth that are extreme fibres, or gone: each of its widths counts.
  const ends = corners.map(({ best, worst }) => ({
    best,
    low: quickLoss(best, RAYS),
    worst,
    ...steepestFigures(worst),
  }));
  const least = ends.reduce((one, other) => (other.low < one.low ? other : one));
  const most = ends.reduce((one, other) => (other.loss > one.loss ? other : one));
  const high = Math.max(most.loss, most.figures.strengthLoss);
  const low = Math.min(least.low, high);
  // Beside a mouth of one width the horns may be extreme fibres whatever lies between them.
  const margin = widths ? beyond : Math.min(beyond, BETWEEN * (high - low));
  return {
    strengthLoss: high - low > NONE ? widenedLoss(interval(low, high), 0, margin) : exactLoss(high),
    worstBearing: most.figures.worstBearing,
    best: least.best,
    worst: most.worst,
  };
}

/** Degrees from one bearing that a cavity may face to the next, where nobody wrote down which it is. */
const TURN_STEP = 22.5;

/** A mouth or a probe, which lie where the cavity faces. */
const isFacing = ({ walls, allRound, depth, opening }: Cavity<Interval>): boolean =>
  opening !== undefined || depth !== undefined || !(allRound || walls?.length);

/** Whether the figures hang on where a cavity faces, or the stem's longer axis lies, and nobody wrote it down. */
const isTurnUnknown = ({ outer, cavities }: UncertainSection): boolean =>
  cavities.some(
    cavity =>
      cavity.bearing === undefined &&
      (cavities.length > 1
        ? isFacing(cavity)
        : cavity.walls?.length && (outer.crossDiameter || isFacing(cavity))),
  );

/** Walls at bearings, and a mouth that may face any way. */
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

/** Several voids of which nobody knows how they lie to each other: they may take the whole stem between them. */
function scatteredRange({ outer, cavities }: UncertainSection, most: number): LossRange {
  const alone = cavities.map(cavity => lossRange({ outer, cavities: [cavity] }, most / cavities.length));
  const worst = alone.reduce((one, other) => (other.strengthLoss.low > one.strengthLoss.low ? other : one));
  return { ...worst, strengthLoss: interval(worst.strengthLoss.low, TOTAL) };
}

/** Everything between the least wood and the most: wide, but for certain. */
function envelopeRange(section: UncertainSection): LossRange {
  const worst = extremeSection(section, 'least');
  const best = extremeSection(section, 'most');
  return {
    strengthLoss: lossBetween(worst, best),
    worstBearing: steepestFigures(worst).figures.worstBearing,
    best,
    worst,
  };
}

/** With the smallest voids that mouths and depths allow. */
const withSmallest = ({ outer, cavities }: UncertainSection): UncertainSection => ({
  outer,
  cavities: cavities.map(cavity => (cavity.depth ? { ...cavity, smallest: true } : cavity)),
});

interface Ends {
  /** Places of the readings at which the loss, taken coarsely, is least and greatest. */
  readonly least: readonly number[];
  readonly greatest: readonly number[];
}

function endsOf({ names, glance }: Sampler, jumps: readonly boolean[]): Ends {
  const buffers = new RayBuffers();
  const loss = (places: readonly number[]) => quickLoss(glance(places), SEARCH_RAYS, buffers);
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
  // The range holds the directions between whole degrees too.
  const low = lossNear(best, quickLoss(best, RAYS));
  const { figures, loss } = steepestFigures(worst);
  const { strengthLoss, worstBearing } = figures;
  const high = lossNear(worst, Math.max(strengthLoss, loss));
  return {
    strengthLoss: widenedLoss(
      interval(Math.min(low.low, high.low), high.high),
      jumps.includes(true) ? MARGIN_AT_CLIFFS : MARGIN,
    ),
    worstBearing,
    best,
    worst,
  };
}

/** Sections that the search of a figure takes at the most. */
function searchWork(section: UncertainSection): number {
  const readings = sampler(possible(section)).names.length;
  return SEARCH_WORK * readings * readings * section.cavities.length;
}

/** @param most sections that the figure may cost */
function lossRange(uncertain: UncertainSection, most: number): LossRange {
  const others = uncertain.cavities.slice(1);
  if (isTurnUnknown(uncertain))
    return others.length > 0 ? scatteredRange(uncertain, most) : turnedRange(uncertain);
  const section = possible(uncertain);
  const ring = ringOf(section);
  if (ring) return ringRange(section.outer, ring);
  if (isPlainProbe(section)) return cornerRange(section, BETWEEN_MOUTHS);
  const isRead = section.cavities.some(isReadAtBearings);
  if (isRead && others.length === 0) return cornerRange(section, BETWEEN_WALLS);
  return isRead || searchWork(section) > most ? envelopeRange(section) : searchedRange(section);
}

/** No section loses less than nothing in its weakest direction, nor more than all. */
const widenedLoss = (range: Interval, share = MARGIN, least = TRIFLE): Interval =>
  clip(widened(range, share, least), interval(0, TOTAL));
const exactLoss = (loss: number): Interval => exact(Math.min(TOTAL, Math.max(0, loss)));

/** The loss alone, as `uncertainFigures` gives it: for whoever asks for many. */
export function lossBounds(uncertain: UncertainSection, most = MOST_WORK): Interval {
  const doubtful = uncertain.cavities.some(
    ({ walls, allRound, depth }) => (allRound || walls?.length) && depth,
  );
  const section = possible(doubtful ? settled(uncertain).section : uncertain);
  const ring = ringOf(section);
  return ring ? ringLoss(section.outer, ring) : lossRange(section, most).strengthLoss;
}

/**
 * Loss of strength over everything that the readings allow.
 *
 * @param most sections that the figure may cost: beyond it a wider range that holds the true one
 * @throws RangeError when there may be no wood under the bark, or a length may be negative.
 */
export function uncertainFigures(section: UncertainSection, most = MOST_WORK): UncertainFigures {
  const { section: sound, contradictions } = settled(section);
  return { ...lossRange(sound, most), contradictions };
}
