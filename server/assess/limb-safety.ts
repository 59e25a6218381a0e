/** What limbs bear at their unions: their own weight, ice and the design wind; and what shortening takes off. */

import { exact, hull, type Interval, interval, isLess, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Prescription, Site, StemOrLimb, Tree } from '../facts/types.ts';
import { iceMoment, type LimbShape, momentShortened, ownMoment, roundModulus } from '../mechanics/limbs.ts';
import { barkThickness, diameterRatio } from '../mechanics/stem.ts';
import { criticalWind, GUST_EFFECT, pressureBounds } from '../mechanics/wind.ts';
import { barkShare } from '../practice/bark.ts';
import { type Drag, dragOf } from '../practice/drag.ts';
import {
  aspectFactor,
  END_CENTER,
  FOLIAGE_CENTER,
  FOLIAGE_MASS,
  LIMB_SCATTER,
  LIMB_SLENDERNESS,
  THINNEST_LIMB,
} from '../practice/limbs.ts';
import { lookupGenus } from '../practice/species.ts';
import type { WeakGround } from '../practice/weak-ground.ts';
import { greenStrength } from '../practice/wood.ts';
import { isDead } from './doses.ts';
import { type Judged, judge } from './judge.ts';
import type { PartSafety } from './part-safety.ts';
import { densityOf } from './salvage.ts';
import { designWind } from './site-wind.ts';
import { gravest, type SignContext, type SignStanding } from './standing.ts';

export interface LimbSafety {
  readonly limb: StemOrLimb;
  /** At the union, N·m. */
  readonly moment: Interval;
  readonly resistance: Interval;
  /** Share of the strength that its own weight takes up. */
  readonly weight: Judged;
  /** Times the weight with ice on it; undefined unless the site states an ice load. */
  readonly ice: Judged | undefined;
  /** Undefined without a design wind or a crown of its own. */
  readonly wind: { readonly judged: Judged; readonly criticalWind: Interval } | undefined;
  /** By the intervals alone; whether it is a sign is for signs.ts to say. */
  readonly standing: SignStanding;
  readonly part: PartSafety;
}

/** Values of a reading that is positive and has an upper end. */
function sizeOf(read: Placed<Quantity> | undefined, settings: Settings): Interval | undefined {
  const value = read && valuesOf(read.value, settings);
  return value && value.low > 0 && Number.isFinite(value.high) ? value : undefined;
}

const isAtEnd = ({ foliage }: StemOrLimb): boolean => foliage?.value === 'at the end only';

/** The reason, for the middle of a sentence, where there is no figure; undefined for a limb without any size. */
export const limbSafety = memo(
  (
    limb: StemOrLimb,
    tree: Tree,
    site: Site | undefined,
    settings: Settings,
  ): LimbSafety | string | undefined => {
    if (!(limb.length && limb.diameter))
      return isAtEnd(limb) || limb.length
        ? 'its strength requires its diameter outside the collar and its length'
        : undefined;
    const diameter = sizeOf(limb.diameter, settings);
    const length = sizeOf(limb.length, settings);
    if (!diameter || !length) return 'its diameter or its length has no certain range';
    if (isDead(tree)) return 'the strength of a dead tree’s wood is not known';
    const slenderness = interval(length.low / diameter.high, length.high / diameter.low);
    const { low, high } = LIMB_SLENDERNESS;
    if (isLess(diameter.low, THINNEST_LIMB) || slenderness.low < low || slenderness.high > high)
      return `no figure is known for a limb thinner than ${THINNEST_LIMB * 100} cm, or less than ${low} or more than ${high} times as long as thick`;
    const genus = tree.species && lookupGenus(tree.species.value.genus);
    const wood = genus && !genus.palm ? greenStrength(tree.species!.value, genus.leaf) : undefined;
    if (!wood) return 'the strength of its wood is not known';
    const shape: LimbShape = {
      diameter,
      length,
      angle: angleOf(limb, settings),
      density: densityOf(tree, settings).range,
      foliage: FOLIAGE_MASS,
      foliageCenter: isAtEnd(limb) ? END_CENTER : FOLIAGE_CENTER,
    };
    const bark = barkThickness(diameter, barkShare(tree.species!.value, genus!.leaf).most).high;
    const modulus = roundModulus(interval(Math.max(0, diameter.low - 2 * bark), diameter.high));
    const resistance = multiply(
      multiply(modulus, interval(wood.compression.low, wood.compression.high)),
      multiply(aspectFactor(aspectOf(limb, diameter, settings)), LIMB_SCATTER),
    );
    const moment = ownMoment(shape);
    const weight = judge(shareOf(moment, resistance), 'own-weight-stress', settings);
    const thickness = sizeOf(site?.ice?.thickness, settings);
    const ice = thickness
      ? judge(over(resistance, addTo(moment, iceMoment(shape, thickness))), 'safety-factor', settings)
      : undefined;
    const drag = dragOf(tree.species!.value.genus, genus!.leaf);
    const wind = windOn(limb, shape, { moment, resistance }, drag, tree, site, settings);
    const judged = [weight, ice, wind?.judged].filter(one => one !== undefined);
    const weak: readonly WeakGround[] = judged.every(({ standing }) => standing === 'within')
      ? []
      : [
          'limb foliage',
          'limb scatter',
          ...(weight.standing === 'within' ? [] : (['sustained strength'] as const)),
        ];
    return {
      limb,
      moment,
      resistance,
      weight,
      ice,
      wind,
      standing: gravest(judged),
      part: {
        part: 'limb',
        subject: limb.name.value,
        factor: wind?.judged.value ?? ice?.value ?? over(resistance, moment),
        criticalWind: wind?.criticalWind,
        judgedBy: wind
          ? 'the limb at its union, in the design wind'
          : ice
            ? 'the limb at its union, under its weight and ice'
            : 'the limb at its union, under its own weight',
        weak,
      },
    };
  },
);

/** From the horizontal, degrees; anything where the lean is not stated. */
function angleOf({ lean }: StemOrLimb, settings: Settings): Interval {
  if (!lean) return interval(0, 90);
  const read = valuesOf(lean.value, settings);
  const fromLevel = (degrees: number) => Math.abs(90 - Math.min(180, Math.max(0, degrees)));
  const ends = [fromLevel(read.low), fromLevel(read.high)];
  return interval(read.low <= 90 && read.high >= 90 ? 0 : Math.min(...ends), Math.max(...ends));
}

/** Any ratio where the stem above the union was not measured. */
function aspectOf({ parent }: StemOrLimb, diameter: Interval, settings: Settings): Interval {
  const stem = sizeOf(parent, settings);
  return stem ? diameterRatio(diameter, stem) : interval(0, 1);
}

const addTo = (a: Interval, b: Interval): Interval => interval(a.low + b.low, a.high + b.high);
const ratio = (a: number, b: number) => (b > 0 ? a / b : Number.POSITIVE_INFINITY);
const over = (borne: Interval, load: Interval): Interval =>
  interval(ratio(borne.low, load.high), ratio(borne.high, load.low));
const shareOf = (load: Interval, borne: Interval): Interval =>
  interval(load.low === 0 ? 0 : ratio(load.low, borne.high), ratio(load.high, borne.low));

/** From the worst direction: what the weight leaves, for wind along the limb or across it. */
function windOn(
  limb: StemOrLimb,
  { length, foliageCenter }: LimbShape,
  { moment, resistance }: Pick<LimbSafety, 'moment' | 'resistance'>,
  drag: Drag,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): LimbSafety['wind'] {
  const wind = designWind(tree, site, settings);
  const top = sizeOf(limb.height, settings);
  const base = sizeOf(limb.crownBase, settings);
  const spread = sizeOf(limb.crownSpread, settings);
  if (!wind || !top || !base || !spread || !(base.high < top.low)) return undefined;
  const area = multiply(
    interval((Math.PI / 4) * (top.low - base.high), (Math.PI / 4) * (top.high - base.low)),
    spread,
  );
  const heights = interval(base.low, top.high);
  const pressures = hull(...wind.winds.map(one => pressureBounds(heights, one)));
  const arm = multiply(length, foliageCenter);
  const atOne = multiply(
    multiply(GUST_EFFECT, interval(drag.low, drag.high)),
    multiply(multiply(area, arm), pressures),
  );
  const left = interval(
    Math.max(0, resistance.low - moment.high),
    Math.sqrt(Math.max(0, resistance.high ** 2 - moment.low ** 2)),
  );
  const at = (speed: number): Interval => {
    const load = multiply(atOne, interval((speed * wind.factor.low) ** 2, (speed * wind.factor.high) ** 2));
    return over(left, load);
  };
  const speeds = [wind.gust.low, wind.gust.high];
  return {
    judged: judge(hull(...speeds.map(at)), 'safety-factor', settings),
    criticalWind: hull(...speeds.map(speed => criticalWind(speed, at(speed)))),
  };
}

/** Limbs with a figure or a reason for none, in the order of the text. */
export const limbsOf = (
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): readonly (readonly [StemOrLimb, LimbSafety | string])[] =>
  tree.parts.flatMap(limb => {
    const safety = limb.kind === 'limb' ? limbSafety(limb, tree, site, settings) : undefined;
    return safety === undefined ? [] : [[limb, safety] as const];
  });

export interface Shortening {
  readonly part: string;
  readonly from: Placed<Quantity>;
  readonly to: Placed<Quantity>;
  /** Share of its length. */
  readonly share: Interval;
  /** Share of the moment at the union that it takes off. */
  readonly gain: Interval;
}

/** What a prescription takes off limbs and stems by shortening them; none where a length has no certain range. */
export const shorteningsOf = ({ shortened }: Prescription, settings: Settings): readonly Shortening[] =>
  shortened.flatMap(({ part, from, to }) => {
    const before = sizeOf(from, settings);
    const after = sizeOf(to, settings);
    if (!before || !after || !(after.high <= before.high)) return [];
    const share = interval(
      Math.max(0, 1 - after.high / before.low),
      Math.min(1, Math.max(0, 1 - after.low / before.high)),
    );
    return [{ part: part.value, from, to, share, gain: momentShortened(share) }];
  });

/** Whether a shortening leaves a limb certainly within every limit that its figures have. */
export function holdsShortened(
  { weight, ice, wind, moment, resistance }: LimbSafety,
  { gain }: Shortening,
  settings: Settings,
): boolean {
  const left = interval(1 - gain.high, 1 - gain.low);
  const share = shareOf(multiply(moment, left), resistance);
  const eased = ({ value }: Judged) =>
    judge(over(exact(1), multiply(left, inverse(value))), 'safety-factor', settings).standing;
  return (
    judge(share, weight.name, settings).standing === 'within' &&
    [ice, wind?.judged].every(one => !one || eased(one) === 'within')
  );
}

/** A prescription that shortens one of these limbs, but may leave it beyond its limits; none that states no lengths. */
export function fallsShort(
  members: readonly string[],
  prescription: Prescription,
  { tree, site, settings }: SignContext,
): boolean {
  if (prescription.shortened.length === 0) return false;
  const limb = tree.parts.find(({ name }) => members.includes(name.value));
  const safety = limb && limbSafety(limb, tree, site, settings);
  if (safety === undefined || typeof safety === 'string') return false;
  const own = shorteningsOf(prescription, settings).filter(({ part }) => members.includes(part));
  return !own.some(one => holdsShortened(safety, one, settings));
}

const inverse = ({ low, high }: Interval): Interval =>
  interval(Number.isFinite(high) ? 1 / high : 0, low > 0 ? 1 / low : Number.POSITIVE_INFINITY);
