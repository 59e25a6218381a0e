/** Shared wording of rules on sections and loads. */

import { compassPoint } from '../../grammar/bearing.ts';
import { shareText } from '../base/figures.ts';
import { exact } from '../base/interval.ts';
import { listed } from '../base/words.ts';
import type { Tree } from '../facts/types.ts';
import type { OffsettingReduction } from '../mechanics/offsetting.ts';
import { sectionFigures } from '../mechanics/section.ts';
import type { CrossSection } from '../mechanics/section-types.ts';
import type { Hollow } from './hollows.ts';
import { lengthDown } from './prescriptions.ts';
import type { DefectStrength } from './strength.ts';

export const SECTION_CAUTION =
  'A section compares the stem with itself when intact. It certifies nothing, and unseen defects are not in it. The person on site decides.';

export const LOAD_CAUTION =
  'The figure compares the load on this tree before and after, with the crown as an ellipse. It certifies nothing. The person on site decides.';

export const UNION_CAUTION =
  'The strength of a union cannot be judged from outside, and codominant stems can fail without warning. The person on site decides.';

/** `NNE–SSW`. */
const axisOf = (bearing: number): string => `${compassPoint(bearing)}–${compassPoint(bearing + 180)}`;

/** Round, closed and concentric as far as known: no direction is weakest. */
export const isRing = ({ read, cavity, outer }: Hollow): boolean =>
  read === 'wall' && !cavity.opening && !outer.crossDiameter;

/** Share off crown length and spread, and the resulting height and spread, rounded to the greater reduction. */
export function reductionWords(
  { height, crownSpread }: Tree,
  { reduction, top, spread }: OffsettingReduction,
): string {
  const percent = shareText(exact(reduction));
  const high = lengthDown(top, height?.value);
  const wide = lengthDown(spread, crownSpread?.value, height?.value);
  return `${percent} off crown length and spread (to ${high} high and ${wide} wide)`;
}

/** Losses closer than this are equal. */
const ALIKE = 0.01;
/** Greatest spread of the weak directions of one axis, degrees. */
const SPREAD = 90;
/** Greatest distance at which two axes count as the same, degrees. */
const SAME_AXIS = 30;

/** The middle of the weakest directions, 0..179; undefined if they are no single axis. */
function weakestAxis(section: CrossSection): number | undefined {
  const { lossByBearing, strengthLoss } = sectionFigures(section);
  const weak = Array.from({ length: 180 }, (_, i) => i).filter(
    i => lossByBearing[i]! >= strengthLoss - ALIKE,
  );
  // They cover half a turn except for the widest gap between two of them.
  const gaps = weak.map((from, i) => (weak[i + 1] ?? weak[0]! + 180) - from);
  const widest = gaps.indexOf(Math.max(...gaps));
  const spread = 180 - gaps[widest]!;
  if (spread > SPREAD) return undefined;
  return (weak[(widest + 1) % weak.length]! + spread / 2) % 180;
}

/**
 * The weakest bending direction, 0..179, if it is the same at both ends of the readings and the bearing of the hollow
 * is known; undefined for a ring.
 */
export function weakestBearing({ hollow, figures }: DefectStrength): number | undefined {
  const { cavity, read } = hollow;
  const isTurned = read !== 'walls' || cavity.opening !== undefined;
  if (isRing(hollow) || (isTurned && cavity.bearing === undefined)) return undefined;
  const [best, worst] = [weakestAxis(figures.best), weakestAxis(figures.worst)];
  if (best === undefined || worst === undefined) return undefined;
  const apart = Math.abs(best - worst);
  return Math.min(apart, 180 - apart) <= SAME_AXIS ? worst : undefined;
}

/** The weakest axis, for a table cell. */
export function weakestAlong(defect: DefectStrength): string {
  const bearing = weakestBearing(defect);
  return bearing === undefined ? 'not known' : axisOf(bearing);
}

export const namesOf = (names: readonly { readonly value: string }[]): string =>
  listed(names.map(({ value }) => value));
