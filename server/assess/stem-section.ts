/** The safety of one section of a stem, sound or with a loss of strength, in the design wind and under its own weight. */

import { exact, hull, type Interval, interval, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import type { OuterEdge } from '../mechanics/section-types.ts';
import { weightAbove } from '../mechanics/stem.ts';
import {
  criticalWind,
  GUST_EFFECT,
  groundMomentBounds,
  safetyFactor,
  type WindSite,
  windMomentBounds,
} from '../mechanics/wind.ts';
import { type Drag, dragOf } from '../practice/drag.ts';
import { lookupGenus } from '../practice/species.ts';
import type { WeakGround } from '../practice/weak-ground.ts';
import { type GreenStrength, greenStrength } from '../practice/wood.ts';
import { type Judged, judge } from './judge.ts';
import { crownOf } from './load.ts';
import { type OwnWeight, ownWeight, weightShare } from './own-weight.ts';
import { densityOf } from './salvage.ts';
import { type DesignWind, designWind } from './site-wind.ts';

/** What the sections of a tree have in common. */
export interface StemEvidence {
  readonly wood: GreenStrength;
  readonly drag: Drag;
  /** kg/m³. */
  readonly density: Interval;
  readonly crown: Crown<Interval>;
  /** Undefined without a wind speed on record. */
  readonly wind: DesignWind | undefined;
}

/** Undefined if the crown or the strength of the wood is unknown. */
export const stemEvidence = memo(
  (tree: Tree, site: Site | undefined, settings: Settings): StemEvidence | undefined => {
    if (!tree.species) return undefined;
    const species = tree.species.value;
    const genus = lookupGenus(species.genus);
    const crown = crownOf(tree, settings);
    if (!crown || !genus || genus.palm) return undefined;
    const wood = greenStrength(species, genus.leaf);
    if (!wood) return undefined;
    return {
      wood,
      drag: dragOf(species.genus, genus.leaf),
      density: densityOf(tree, settings).range,
      crown,
      wind: designWind(tree, site, settings),
    };
  },
);

/** The tree that bears least of all that the readings of its sizes and its wind allow. */
export const withWorstReadings = (evidence: StemEvidence): StemEvidence => {
  const { crown, wind } = evidence;
  const most = ({ high }: Interval) => exact(high);
  return {
    ...evidence,
    crown: { base: exact(crown.base.low), top: most(crown.top), spread: most(crown.spread) },
    wind: wind && { ...wind, gust: most(wind.gust), factor: most(wind.factor) },
  };
};

/** As `withWorstReadings`: the least wood that the readings of a section allow. */
export function withLeastWood({ diameter, crossDiameter, bark }: OuterEdge<Interval>): OuterEdge<Interval> {
  return {
    diameter: exact(diameter.low),
    ...(crossDiameter ? { crossDiameter: exact(crossDiameter.low) } : {}),
    ...(bark ? { bark: exact(bark.high) } : {}),
  };
}

/** Share of the strength up to which axial stress is neglected. */
const NEGLIGIBLE = 0.02;

/** Factors in the design wind: resistance, less the weight in its direction, over the moment of the wind. */
export interface WindFactors {
  /** Toward the lean, the worst direction. */
  readonly judged: Judged;
  /** From ahead of the lean; the same for an upright tree. */
  readonly against: Interval;
  /** Gust in open terrain at which the section first yields, m/s. */
  readonly criticalWind: Interval;
  /** Upper end of the factor of breakage, with the full strength of clear wood. */
  readonly breakingAtMost: number;
  /** Estimates on weak ground that could change the standing of `judged`. */
  readonly weak: readonly WeakGround[];
}

/** Share of the strength that the weight alone takes up, against its limit. */
export interface WeightStress extends Judged {
  /** As in `WindFactors`. */
  readonly weak: readonly WeakGround[];
}

export interface SectionSafety {
  /** Undefined without a design wind. @param weight if not that of the tree as it leans */
  factors(loss: Interval, weight?: OwnWeight): WindFactors | undefined;
  weight(loss: Interval): WeightStress;
}

/**
 * @param isOneOfSeveral a stem of several carries an unknown part of the crown
 */
export function sectionSafety(
  tree: Tree,
  { wood, drag, density, crown, wind }: StemEvidence,
  edge: OuterEdge<Interval>,
  height: Interval,
  settings: Settings,
  isOneOfSeveral = false,
): SectionSafety {
  const moduli = soundModuli(edge);
  const above = interval(Math.max(0, crown.top.low - height.high), Math.max(0, crown.top.high - height.low));
  const diameter = widest(edge);
  const axial = weightAbove(diameter, above, density);
  const bending = ownWeight(tree, { diameter, height }, crown, density, settings);
  const strength = (loss: Interval) => leftOver(wood, axial, edge, loss);
  const modulus = ({ low, high }: Interval) => interval(moduli.low * (1 - high), moduli.high * (1 - low));
  // The moment goes with the square of the speed.
  const moment = wind && windMoment(crown, height, wind, drag);
  return {
    weight(loss) {
      const share = (moment: Interval) => weightShare(moment, modulus(loss), strength(loss));
      const under = (moment: Interval) => judge(share(moment), 'own-weight-stress', settings);
      const judged = under(bending.moment);
      const isCrown = [bending.underLight, bending.underHeavy].some(
        moment => under(moment).standing !== judged.standing,
      );
      const weak: readonly WeakGround[] =
        judged.standing === 'within'
          ? []
          : ['sustained strength', ...(isCrown ? (['crown mass'] as const) : [])];
      return { ...judged, weak };
    },
    factors(loss, { moment: own, underLight, underHeavy } = bending) {
      if (!wind || !moment) return undefined;
      const loadAt = (speed: number): Interval => {
        const load = multiply(
          moment,
          interval((speed * wind.factor.low) ** 2, (speed * wind.factor.high) ** 2),
        );
        return isOneOfSeveral ? interval(0, load.high) : load;
      };
      const z = modulus(loss);
      const f = strength(loss);
      const speeds = [wind.gust.low, wind.gust.high];
      const over = (weight: Interval, borne = f) =>
        hull(...speeds.map(speed => safetyFactor(borne, z, loadAt(speed), weight)));
      const judged = judge(over(own), 'safety-factor', settings);
      return {
        judged,
        against: over(negative(own)),
        criticalWind: hull(
          ...speeds.map(speed => criticalWind(speed, safetyFactor(f, z, loadAt(speed), own))),
        ),
        breakingAtMost: over(own, exact(Math.max(wood.ruptureAtMost, f.high))).high,
        weak: weakIn(judged, over(underLight), over(underHeavy), wind, settings),
      };
    },
  };
}

const negative = ({ low, high }: Interval): Interval => interval(0 - high, 0 - low);

/** At 1 m/s. */
const windMoment = (crown: Crown<Interval>, height: Interval, { winds }: DesignWind, drag: Drag): Interval =>
  multiply(GUST_EFFECT, hull(...winds.map(wind => momentIn(crown, height, wind, drag))));

const momentIn = (crown: Crown<Interval>, height: Interval, wind: WindSite, drag: Drag): Interval => {
  const range = interval(drag.low, drag.high);
  return height.high === 0
    ? multiply(range, groundMomentBounds(crown, wind))
    : windMomentBounds([crown], height, exact(1), wind, range);
};

/** Estimates at one end of which the factor would stand otherwise than over their whole range. */
function weakIn(
  { value, standing }: Judged,
  light: Interval,
  heavy: Interval,
  { weak }: DesignWind,
  settings: Settings,
): readonly WeakGround[] {
  if (standing !== 'may exceed') return weak.length > 0 && standing === 'within' ? weak : [];
  const decides = (factor: Interval) => judge(factor, 'safety-factor', settings).standing !== standing;
  const range = GUST_EFFECT.high / GUST_EFFECT.low;
  const gust = [
    { low: Math.min(value.low * range, value.high), high: value.high },
    { low: value.low, high: Math.max(value.low, value.high / range) },
  ];
  return [
    ...(gust.some(decides) ? (['gust effect'] as const) : []),
    ...([light, heavy].some(decides) ? (['crown mass'] as const) : []),
    ...weak,
  ];
}

const widest = ({ diameter, crossDiameter = diameter }: OuterEdge<Interval>): Interval =>
  interval(Math.max(diameter.low, crossDiameter.low), Math.max(diameter.high, crossDiameter.high));

/** Semi-axes of the wood. */
function radii({ diameter, crossDiameter = diameter, bark = exact(0) }: OuterEdge<Interval>) {
  const under = ({ low, high }: Interval) =>
    interval(Math.max(0, low / 2 - bark.high), Math.max(0, high / 2 - bark.low));
  return [under(diameter), under(crossDiameter)] as const;
}

/** Z of the full section from its weakest to its strongest direction, m³. */
export function soundModuli(edge: OuterEdge<Interval>): Interval {
  const [a, b] = radii(edge);
  const quarter = Math.PI / 4;
  return interval(
    quarter * a.low * b.low * Math.min(a.low, b.low),
    quarter * a.high * b.high * Math.max(a.high, b.high),
  );
}

/**
 * Strength available for bending after deducting the axial stress of the weight above. Of all hollows with a given loss,
 * a ring leaves the least wood.
 */
export function leftOver(
  { compression }: GreenStrength,
  weight: Interval,
  edge: OuterEdge<Interval>,
  loss: Interval,
): Interval {
  const [a, b] = radii(edge);
  const stress = (force: number, along: number, across: number, lost: number): number => {
    const wood = Math.PI * along * across * (1 - Math.sqrt(lost));
    return wood > 0 ? force / wood : Number.POSITIVE_INFINITY;
  };
  const least = stress(weight.low, a.high, b.high, loss.low);
  const most = stress(weight.high, a.low, b.low, loss.high);
  if (most < NEGLIGIBLE * compression.low) return interval(compression.low, compression.high);
  return interval(Math.max(0, compression.low - most), Math.max(0, compression.high - least));
}
