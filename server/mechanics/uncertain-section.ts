/**
 * Strength of a stem section of which intervals are known.
 *
 * Loss is not monotone in the readings: the thin horns beside a narrow opening are extreme fibres, and with
 * them gone the peak stress falls. So the range is searched (bounds.ts) with a coarse section, the ends are
 * computed again with the full one, and then widened by a margin. Depths and walls with no upper end stop at
 * what is physically possible for the diameter at hand: the far bark, the pith.
 */

import { extremes, widened } from './bounds.ts';
import { clip, exact, hull, type Interval, interval } from './interval.ts';
import { jumpyReadings } from './openings.ts';
import { quickLoss, quickModulus, RAYS, sectionFigures, steepestFigures } from './section.ts';
import { endOf, possible, radiusAt, type Sampler, sampler } from './section-readings.ts';
import { RADIANS, wallAt, walledVoid, wrapped } from './section-shape.ts';
import type { Cavity, OuterEdge, Section, UncertainSection, WallReading } from './section-types.ts';
import { quarticLoss } from './thumb.ts';

export interface Contradiction {
  /** Index of the cavity in its section. */
  readonly cavity: number;
  readonly kind:
    | 'depth beyond the void of the walls'
    | 'depth beyond the far bark'
    | 'wall beyond the pith'
    | 'opening wider than the stem';
  /** What was read, and what the other readings allow, m. */
  readonly read: Interval;
  readonly possible: Interval;
}

export interface UncertainFigures {
  readonly strengthLoss: Interval;
  /** Direction of bending that is worst at the upper end. */
  readonly worstBearing: number;
  /** The exact sections at which the ends were found. */
  readonly best: Section;
  readonly worst: Section;
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

/** How far from the surface at the cavity's bearing the void of its walls may reach, on that diameter. */
function farEdge(
  outer: OuterEdge<Interval>,
  bearing: number,
  walls: readonly WallReading<Interval>[],
): number {
  const greatest = walledVoid(walls.map(({ bearing: at, wall }) => ({ bearing: at, wall: wall.low })));
  const thinnest = wallAt(greatest, wrapped((bearing + 180) * RADIANS));
  return Math.max(0, 2 * radiusAt(outer, bearing).high - thinnest);
}

/** Readings of a cavity that cannot all be true, beyond their intervals. */
export function contradictionsOf(
  outer: OuterEdge<Interval>,
  { bearing = 0, walls = [], depth, opening }: Cavity<Interval>,
  cavity = 0,
): readonly Contradiction[] {
  const found: Contradiction[] = [];
  const beyond = (kind: Contradiction['kind'], read: Interval | undefined, most: number) => {
    if (read && read.low > most) found.push({ cavity, kind, read, possible: interval(0, most) });
  };
  const diameter = 2 * radiusAt(outer, bearing).high;
  beyond('depth beyond the far bark', depth, diameter);
  if (depth && walls.length > 0)
    beyond('depth beyond the void of the walls', depth, farEdge(outer, bearing, walls));
  for (const { bearing: at, wall } of walls) beyond('wall beyond the pith', wall, radiusAt(outer, at).high);
  beyond('opening wider than the stem', opening, diameter);
  return found;
}

/** Walls and depth of one cavity contradict each other: the reading with the greater loss stands. */
function lessFavourable(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Cavity<Interval> {
  const probed = { ...cavity, walls: undefined };
  const loss = (one: Cavity<Interval>) => lossRange({ outer, cavities: [one] }).strengthLoss;
  const [byWalls, byDepth] = [loss(cavity), loss(probed)];
  const worse = byDepth.high > byWalls.high || (byDepth.high === byWalls.high && byDepth.low > byWalls.low);
  return worse ? probed : cavity;
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
function lossNear(section: Section, full: number): Interval {
  const coarse = quickLoss(section, SEARCH_RAYS);
  return Math.abs(coarse - full) > CLIFF ? hull(exact(coarse), exact(full)) : exact(full);
}

type LossRange = Omit<UncertainFigures, 'contradictions'>;

/**
 * The only wall of a round stem without an opening. The loss, (1 − 2t/D)⁴ whichever way it is bent, falls with wall
 * and bark and rises with the diameter, so the commonest hollow of all needs no search.
 */
function ringOf({ outer, cavities }: UncertainSection): WallReading<Interval> | undefined {
  const [ring] = cavities;
  if (!ring || cavities.length > 1 || outer.crossDiameter || ring.opening) return undefined;
  return ring.walls?.length === 1 ? ring.walls[0] : undefined;
}

function ringLoss(outer: OuterEdge<Interval>, wall: Interval): Interval {
  if (!(wall.low >= 0)) throw new RangeError(`wall of ${wall.low} m`);
  const loss = (radius: number, thickness: number) => quarticLoss(Math.max(0, radius - thickness) / radius);
  const radius = radiusAt(outer, 0);
  const losses = interval(loss(radius.low, wall.high), loss(radius.high, wall.low));
  return losses.low === losses.high ? losses : widenedLoss(losses);
}

interface Ends {
  /** Places of the readings at which a figure of the section, taken coarsely, is least and greatest. */
  readonly least: readonly number[];
  readonly greatest: readonly number[];
  /** By which share a range between them has to be widened. */
  readonly margin: number;
}

function endsOf(
  section: UncertainSection,
  { names, glance }: Sampler,
  figure: typeof quickLoss,
  ceiling = Infinity,
): Ends {
  const jumpy = jumpyReadings(section);
  const jumps = names.map(name => jumpy.has(name));
  const found = extremes(places => figure(glance(places), SEARCH_RAYS), names.length, { ceiling, jumps });
  return { ...found, margin: jumps.includes(true) ? MARGIN_AT_CLIFFS : MARGIN };
}

function lossRange(uncertain: UncertainSection): LossRange {
  const section = possible(uncertain);
  const ring = ringOf(section);
  if (ring) {
    const { outer, cavities } = section;
    const at = (end: 'low' | 'high', wallEnd: 'low' | 'high'): Section => ({
      outer: endOf(outer, end),
      cavities: cavities.map(({ bearing }) => ({
        bearing,
        walls: [{ bearing: ring.bearing, wall: ring.wall[wallEnd] }],
        depth: undefined,
        opening: undefined,
      })),
    });
    return {
      strengthLoss: ringLoss(outer, ring.wall),
      worstBearing: 0,
      best: at('low', 'high'),
      worst: at('high', 'low'),
    };
  }
  const samples = sampler(section);
  if (samples.names.length === 0) {
    const only = samples.at([]);
    const { strengthLoss, worstBearing } = sectionFigures(only);
    return { strengthLoss: exact(strengthLoss), worstBearing, best: only, worst: only };
  }
  const { least, greatest, margin } = endsOf(section, samples, quickLoss, TOTAL);
  const [best, worst] = [samples.at(least), samples.at(greatest)];
  // The range holds the directions between whole degrees too.
  const low = lossNear(best, quickLoss(best, RAYS));
  const { figures, loss } = steepestFigures(worst);
  const { strengthLoss, worstBearing } = figures;
  const high = lossNear(worst, Math.max(strengthLoss, loss));
  return {
    strengthLoss: widenedLoss(interval(Math.min(low.low, high.low), high.high), margin),
    worstBearing,
    best,
    worst,
  };
}

/** A range never leaves 0..1 by its margin alone. */
const widenedLoss = (range: Interval, margin = MARGIN): Interval =>
  clip(widened(range, margin, TRIFLE), interval(Math.min(0, range.low), 1));

/** The loss alone, as `uncertainFigures` gives it: for whoever asks for many. */
export function lossBounds(uncertain: UncertainSection): Interval {
  const doubtful = uncertain.cavities.some(({ walls, depth }) => walls?.length && depth);
  const section = possible(doubtful ? settled(uncertain).section : uncertain);
  const ring = ringOf(section);
  return ring ? ringLoss(section.outer, ring.wall) : lossRange(section).strengthLoss;
}

/**
 * Loss of strength over everything that the readings allow.
 *
 * @throws RangeError when there may be no wood under the bark, or a length may be negative.
 */
export function uncertainFigures(section: UncertainSection): UncertainFigures {
  const { section: sound, contradictions } = settled(section);
  return { ...lossRange(sound), contradictions };
}

/** The least Z over directions, m³, over everything that the readings allow: for an absolute safety factor. */
export function sectionModulusBounds(uncertain: UncertainSection): Interval {
  const section = possible(settled(uncertain).section);
  const samples = sampler(section);
  const { least, greatest, margin } = endsOf(section, samples, quickModulus);
  const range = interval(quickModulus(samples.at(least), RAYS), quickModulus(samples.at(greatest), RAYS));
  return samples.names.length === 0 ? range : clip(widened(range, margin), interval(0, Infinity));
}
