/**
 * Cavities that may be joined inside the stem. Both cases are always computed.
 *
 * Apart: each section has its own void. Joined: from the lowest opening to the highest every section has the voids of
 * all cavities, each at its own bearing with its own readings (the same wall at every height, a depth from the surface
 * there). The stem is as strong as its weakest section, so a group's loss is the greatest over its heights.
 */

import { type Interval, interval } from '../base/interval.ts';
import type { Contradiction } from './contradictions.ts';
import { isDepthNeeded } from './section-readings.ts';
import type { Cavity, CrossSection, OuterEdge, UncertainSection } from './section-types.ts';
import {
  MAX_SECTIONS,
  type UncertainFigures,
  uncertainFigures,
  withoutContradictions,
} from './uncertain-section.ts';

export interface GroupMember {
  /** Height of the opening above ground, m. */
  readonly height: number;
  readonly outer: OuterEdge<Interval>;
  readonly cavity: Cavity<Interval>;
}

interface GroupHeight {
  readonly height: number;
  /** With the voids of this height alone; undefined between the openings. */
  readonly apart: Interval | undefined;
  readonly joined: Interval;
  /** The joined section at the upper end of its loss, and its worst bending direction. */
  readonly worst: CrossSection;
  readonly worstBearing: number;
}

export interface GroupFigures {
  readonly apart: Interval;
  readonly joined: Interval;
  /** From the low end of `apart` to the high end of `joined`. */
  readonly strengthLoss: Interval;
  /** In ascending order. */
  readonly heights: readonly GroupHeight[];
  /** `cavity` is the index of the member. */
  readonly contradictions: readonly Contradiction[];
}

/** Loss of a stem with several sections. */
const weakest = (losses: readonly Interval[]): Interval =>
  interval(Math.max(...losses.map(loss => loss.low)), Math.max(...losses.map(loss => loss.high)));

const between = (a: Interval, b: Interval): Interval => interval((a.low + b.low) / 2, (a.high + b.high) / 2);

/** The stem half way between two sections; an ellipse with the lower one's bearing. */
function halfWay(lower: OuterEdge<Interval>, upper: OuterEdge<Interval>): OuterEdge<Interval> {
  const none = interval(0, 0);
  const oval = lower.crossDiameter ?? upper.crossDiameter;
  return {
    diameter: between(lower.diameter, upper.diameter),
    crossDiameter:
      oval && between(lower.crossDiameter ?? lower.diameter, upper.crossDiameter ?? upper.diameter),
    bearing: lower.bearing,
    bark: (lower.bark ?? upper.bark) && between(lower.bark ?? none, upper.bark ?? none),
  };
}

const sameEdge = (a: OuterEdge<Interval>, b: OuterEdge<Interval>): boolean =>
  JSON.stringify(a) === JSON.stringify(b);

/** Sections to compute: at each opening, and half way between two if the stem differs. */
function levels(
  members: readonly GroupMember[],
): { readonly height: number; readonly outer: OuterEdge<Interval>; readonly own: readonly GroupMember[] }[] {
  const sorted = [...members].sort((a, b) => a.height - b.height);
  return sorted.flatMap((member, i) => {
    const { height, outer } = member;
    const previous = sorted[i - 1];
    const own = sorted.filter(other => other.height === height && sameEdge(other.outer, outer));
    if (!previous) return [{ height, outer, own }];
    if (previous.height === height && sameEdge(previous.outer, outer)) return [];
    if (sameEdge(previous.outer, outer) || previous.height === height) return [{ height, outer, own }];
    const middle = {
      height: (previous.height + height) / 2,
      outer: halfWay(previous.outer, outer),
      own: [],
    };
    return [middle, { height, outer, own }];
  });
}

/**
 * Strength loss of a group of cavities suspected to be joined.
 *
 * @param maxSections computing budget, in sections
 * @throws RangeError for an empty group or impossible lengths.
 */
export function groupFigures(members: readonly GroupMember[], maxSections = MAX_SECTIONS): GroupFigures {
  if (members.length === 0) throw new RangeError('a group of cavities needs one at least');
  // Contradictions within a cavity are resolved at its own height.
  const contradictions: Contradiction[] = [];
  const plain = members.map((member, cavity): GroupMember => {
    const own = withoutContradictions({ outer: member.outer, cavities: [member.cavity] });
    contradictions.push(...own.contradictions.map(found => ({ ...found, cavity })));
    return { ...member, cavity: withoutDepthCheck(own.section.cavities[0]!) };
  });
  const all = plain.map(member => member.cavity);
  const sections = levels(plain);
  const heights = sections.map(({ height, outer, own }): GroupHeight => {
    const figures = (cavities: UncertainSection['cavities']): UncertainFigures =>
      uncertainFigures({ outer, cavities }, maxSections / (2 * sections.length));
    const joined = figures(all);
    return {
      height,
      apart: own.length > 0 ? figures(own.map(member => member.cavity)).strengthLoss : undefined,
      joined: joined.strengthLoss,
      worst: joined.worst,
      worstBearing: joined.worstBearing,
    };
  });
  const apart = weakest(heights.flatMap(({ apart }) => (apart ? [apart] : [])));
  const joined = weakest(heights.map(height => height.joined));
  return {
    apart,
    joined,
    strengthLoss: interval(apart.low, Math.max(apart.high, joined.high)),
    heights,
    contradictions,
  };
}

/** A depth beside walls all around only checks them; that is done once, at the height of the cavity. */
const withoutDepthCheck = (cavity: Cavity<Interval>): Cavity<Interval> =>
  isDepthNeeded(cavity) ? cavity : { ...cavity, depth: undefined };
