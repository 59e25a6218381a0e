/** The weight of a leaning tree at one of its sections. */

import { exact, type Interval, interval, multiply } from '../base/interval.ts';
import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import { leaningArms, stemMass, tangent, type WeightArms, weightMoment } from '../mechanics/own-weight.ts';
import { BRANCHES } from '../mechanics/stem.ts';

/** Lean up to which the weight of a forked stem is neglected, degrees. */
const UPRIGHT = 10;
/** Lean up to which a straight stem is an acceptable model, degrees (judged). */
const STEEPEST = 60;

/** A section that carries the tree above it. */
export interface LoadedSection {
  /** Over the bark, the widest. */
  readonly diameter: Interval;
  /** Above ground. */
  readonly height: Interval;
}

export interface OwnWeight {
  /** Moment toward the lean, N·m; of an upright tree none. */
  readonly moment: Interval;
  /** The same with the least and with the greatest mass of the crown. */
  readonly underLight: Interval;
  readonly underHeavy: Interval;
}

const NONE = exact(0);
export const NO_WEIGHT: OwnWeight = { moment: NONE, underLight: NONE, underHeavy: NONE };

/** Why there is no figure, for the middle of a sentence; undefined if there is one. */
export function weightDoubt(tree: Tree, stem: string | undefined, settings: Settings): string | undefined {
  const part = tree.parts.find(({ kind, name }) => kind === 'stem' && name.value === stem);
  const leans = [tree.lean?.angle, part?.lean].flatMap(read =>
    read ? [valuesOf(read.value, settings).high] : [],
  );
  const lean = Math.max(0, ...leans);
  if (lean > STEEPEST) return `over ${STEEPEST} degrees of lean, no figure for its own weight is known`;
  return isForked(tree) && lean >= UPRIGHT
    ? `from ${UPRIGHT} degrees of lean its own weight bends the stem too, and no figure of that is known for a forked tree`
    : undefined;
}

const isForked = ({ diameters, parts }: Tree): boolean =>
  diameters.length > 1 || parts.some(({ kind }) => kind === 'stem');

/** None for a tree that has a `weightDoubt`. */
export function ownWeight(
  tree: Tree,
  { diameter, height }: LoadedSection,
  crown: Crown<Interval>,
  density: Interval,
  settings: Settings,
): OwnWeight {
  if (!tree.lean || isForked(tree) || valuesOf(tree.lean.angle.value, settings).high > STEEPEST)
    return NO_WEIGHT;
  const above = over(crown.top, height);
  const stem = stemMass(diameter, above, density);
  const whole =
    tree.diameters.length === 1
      ? stemMass(valuesOf(tree.diameters[0]!.value, settings), crown.top, density)
      : stem;
  const arms = armsOf(tree.lean, above, height, crown, settings);
  const under = ({ low, high }: Interval) =>
    weightMoment({
      stem,
      // Of the crown above a section nobody knows the share.
      crown: interval(low * stem.low, high * Math.max(stem.high, whole.high)),
      ...arms,
    });
  return {
    moment: under(BRANCHES),
    underLight: under(exact(BRANCHES.low)),
    underHeavy: under(exact(BRANCHES.high)),
  };
}

/** Height above a section, at least 0. */
const over = (height: Interval, section: Interval): Interval =>
  interval(Math.max(0, height.low - section.high), Math.max(0, height.high - section.low));

/** By plumb line where that was measured, else as of a straight stem. */
function armsOf(
  { angle, course, crownAside, trunkAside }: NonNullable<Tree['lean']>,
  above: Interval,
  section: Interval,
  { base, top }: Crown<Interval>,
  settings: Settings,
): Pick<WeightArms, 'stemArm' | 'crownArm'> {
  const read = valuesOf(angle.value, settings);
  const lean = interval(Math.max(0, read.low), Math.max(0, read.high));
  const middle = interval(
    Math.max(0, (Math.max(base.low, section.low) + top.low) / 2 - section.high),
    Math.max(0, (Math.max(base.high, section.high) + top.high) / 2 - section.low),
  );
  const straight = leaningArms(lean, above, middle);
  // A stem that grew upright again is less to the side than its foot leans.
  const isBowed = course === 'corrected';
  const usual = {
    stemArm: isBowed ? interval(0, straight.stemArm.high) : straight.stemArm,
    crownArm: isBowed ? interval(0, straight.crownArm.high) : straight.crownArm,
  };
  // The section itself is to the side of the base.
  const shift = section.high * tangent(lean.high);
  const aside = (measured: Placed<Quantity>): Interval => {
    const { low, high } = valuesOf(measured.value, settings);
    return interval(Math.max(0, low - shift), Math.max(0, high));
  };
  if (!crownAside) return trunkAside ? { ...usual, stemArm: aside(trunkAside) } : usual;
  const crownArm = aside(crownAside);
  return { crownArm, stemArm: trunkAside ? aside(trunkAside) : interval(0, crownArm.high) };
}

/** Share of the strength that the weight alone takes up. */
export function weightShare(moment: Interval, modulus: Interval, compression: Interval): Interval {
  const capacity = multiply(modulus, compression);
  const share = (load: number, borne: number) =>
    load === 0 ? 0 : borne > 0 ? load / borne : Number.POSITIVE_INFINITY;
  return interval(share(moment.low, capacity.high), share(moment.high, capacity.low));
}
