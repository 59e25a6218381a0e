/**
 * Access to the individual readings of an uncertain section: their intervals, substitution of values, and sampling of
 * exact sections.
 */

import { type Interval, interval } from '../base/interval.ts';
import { edgeRadius, RADIANS, woodEdge } from './section-shape.ts';
import type { Cavity, CrossSection, OuterEdge, UncertainSection } from './section-types.ts';
import { QUARTER, widestGap } from './unread.ts';

/** The outer edge at one end of its readings: `low` is the least wood. */
export const endOf = (outer: OuterEdge<Interval>, end: 'low' | 'high'): OuterEdge => ({
  diameter: outer.diameter[end],
  crossDiameter: outer.crossDiameter?.[end],
  bearing: outer.bearing,
  bark: outer.bark?.[end === 'low' ? 'high' : 'low'],
});

/** Distance from the pith to the surface of the wood. */
export function radiusAt(outer: OuterEdge<Interval>, bearing: number): Interval {
  const at = (end: 'low' | 'high') => edgeRadius(woodEdge(endOf(outer, end)), bearing * RADIANS);
  // The two ends of an exact ellipse may differ by rounding.
  return interval(Math.min(at('low'), at('high')), at('high'));
}

/** Physically possible walls at a bearing: from none to the pith. */
const unseenWall = (outer: OuterEdge<Interval>, bearing = 0): Interval =>
  interval(0, radiusAt(outer, bearing).high);

/** Physically possible depths from a bearing: from none to the far bark. */
const unseenDepth = (outer: OuterEdge<Interval>, bearing = 0): Interval =>
  interval(0, 2 * radiusAt(outer, bearing).high);

/** Whether a depth determines the void, because the walls leave too much of the stem unread. */
export const isDepthNeeded = ({ walls = [], allRound }: Cavity<Interval>): boolean =>
  allRound === undefined && (walls.length === 0 || widestGap(walls) > QUARTER);

/** Drops depths beside walls all around, which only check them. */
function withoutChecks({ outer, cavities }: UncertainSection): UncertainSection {
  const plain = (cavity: Cavity<Interval>): Cavity<Interval> => {
    const { bearing, walls, allRound, depth, opening } = cavity;
    const unseen = walls?.length ? undefined : interval(0, Infinity);
    return {
      bearing,
      walls,
      allRound,
      depth: isDepthNeeded(cavity) ? (depth ?? unseen) : undefined,
      smallest: undefined,
      opening,
    };
  };
  return { outer, cavities: cavities.map(plain) };
}

/** Maps every reading, in a fixed order. */
function mapReadings<Q>(
  { outer, cavities }: UncertainSection,
  value: (read: Interval) => Q,
): CrossSection<Q> {
  return {
    outer: {
      diameter: value(outer.diameter),
      crossDiameter: outer.crossDiameter && value(outer.crossDiameter),
      bearing: outer.bearing,
      bark: outer.bark && value(outer.bark),
    },
    cavities: cavities.map(({ bearing, walls, allRound, depth, smallest, opening }) => ({
      bearing,
      walls: walls?.map(({ bearing: at, wall }) => ({ bearing: at, wall: value(wall) })),
      allRound: allRound && value(allRound),
      depth: depth && value(depth),
      smallest,
      opening: opening && value(opening),
    })),
  };
}

type Mutable<T> = { -readonly [Key in keyof T]: Mutable<T[Key]> };

/** One reading of a section, with a setter. */
interface Slot {
  readonly name: string;
  readonly read: Interval;
  put(draft: Mutable<CrossSection>, value: number): void;
}

/** All readings in the order of mapReadings. */
function slotsOf({ outer, cavities }: UncertainSection): readonly Slot[] {
  const slots: Slot[] = [];
  const slot = (name: string, read: Interval | undefined, put: Slot['put']) => {
    if (read) slots.push({ name, read, put });
  };
  slot('diameter', outer.diameter, (draft, value) => (draft.outer.diameter = value));
  slot('cross diameter', outer.crossDiameter, (draft, value) => (draft.outer.crossDiameter = value));
  slot('bark', outer.bark, (draft, value) => (draft.outer.bark = value));
  for (const [c, { walls = [], allRound, depth, opening }] of cavities.entries()) {
    for (const [w, { wall }] of walls.entries())
      slot(`cavity ${c} wall ${w}`, wall, (draft, value) => (draft.cavities[c]!.walls![w]!.wall = value));
    slot(`cavity ${c} wall`, allRound, (draft, value) => (draft.cavities[c]!.allRound = value));
    slot(`cavity ${c} depth`, depth, (draft, value) => (draft.cavities[c]!.depth = value));
    slot(`cavity ${c} opening`, opening, (draft, value) => (draft.cavities[c]!.opening = value));
  }
  return slots;
}

const isOpen = ({ read }: Slot): boolean => read.low < read.high;

/**
 * The uncertain readings by name: `diameter`, `cross diameter`, `bark`, `cavity 0 wall 1`, `cavity 0 wall` (all
 * round), `cavity 0 depth`, `cavity 0 opening`; upper ends clipped to what is possible. An unseen cavity has a depth.
 */
export function sectionInputs(section: UncertainSection): ReadonlyMap<string, Interval> {
  return new Map(
    slotsOf(possible(section))
      .filter(isOpen)
      .map(({ name, read }) => [name, read]),
  );
}

/** Substitutes readings by the names of `sectionInputs`. */
export function withInputs(
  section: UncertainSection,
): (readings: ReadonlyMap<string, Interval>) => UncertainSection {
  // Keep depths that only check walls: they may contradict the substituted ones.
  const whole = {
    outer: section.outer,
    cavities: withoutChecks(section).cavities.map((cavity, i) => ({
      ...cavity,
      depth: cavity.depth ?? section.cavities[i]!.depth,
    })),
  };
  const slots = slotsOf(whole);
  return readings => {
    let slot = 0;
    return mapReadings(whole, read => readings.get(slots[slot++]!.name) ?? read);
  };
}

/** Clips the upper end. A wall read beyond the pith stays as read, for its neighbors interpolate from it. */
const upTo = (read: Interval, most: Interval): Interval =>
  interval(read.low, Math.max(read.low, Math.min(read.high, most.high)));

/**
 * The section with infinite ends clipped to what is physically possible. The bearing of a single cavity does not
 * matter, so a missing one is 0.
 */
export function possible(section: UncertainSection): UncertainSection {
  const { outer, cavities } = withoutChecks(section);
  return {
    outer,
    cavities: cavities.map(({ bearing = 0, walls, allRound, depth, smallest, opening }) => ({
      bearing,
      walls: walls?.map(({ bearing: at, wall }) => ({
        bearing: at,
        wall: Number.isFinite(wall.high) ? wall : upTo(wall, unseenWall(outer, at)),
      })),
      allRound:
        allRound && (Number.isFinite(allRound.high) ? allRound : upTo(allRound, unseenWall(outer, bearing))),
      smallest,
      depth: depth && upTo(depth, unseenDepth(outer, bearing)),
      opening: opening && upTo(opening, unseenDepth(outer, bearing)),
    })),
  };
}

/** Exact sections of an uncertain one, by the positions of its uncertain readings in their intervals, from 0 to 1. */
export interface Sampler {
  /** Names of the uncertain readings, in the order of the positions. */
  readonly names: readonly string[];
  /** A new section. */
  at(places: readonly number[]): CrossSection;
  /** The same in a shared object, which the next call overwrites. */
  reused(places: readonly number[]): CrossSection;
}

/** For sections with finite readings (`possible`). */
export function sampler(section: UncertainSection): Sampler {
  const slots = slotsOf(section).filter(isOpen);
  const fill = (draft: Mutable<CrossSection>, places: readonly number[]): CrossSection => {
    for (let i = 0; i < slots.length; i++) {
      const { read, put } = slots[i]!;
      const place = places[i]!;
      put(draft, place === 1 ? read.high : read.low + place * (read.high - read.low));
    }
    return draft;
  };
  const draft = (): Mutable<CrossSection> => mapReadings(section, ({ low }) => low) as Mutable<CrossSection>;
  const scratch = draft();
  return {
    names: slots.map(({ name }) => name),
    at: places => fill(draft(), places),
    reused: places => fill(scratch, places),
  };
}
