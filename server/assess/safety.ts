/**
 * Safety factors of a stem at its hollows, and without them, in the design wind of the site: a secondary figure, after
 * the stress ratio.
 */

import { clip, exact, hull, type Interval, interval, type LimitVerdict, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import type { OuterEdge } from '../mechanics/section-types.ts';
import { weightAbove } from '../mechanics/stem.ts';
import { criticalWind, GUST_EFFECT, safetyFactor, windMomentBounds } from '../mechanics/wind.ts';
import { type Drag, dragOf } from '../practice/drag.ts';
import { lookupGenus } from '../practice/species.ts';
import { type GreenStrength, greenStrength } from '../practice/wood.ts';
import { isDead } from './doses.ts';
import { type Judged, judge } from './judge.ts';
import { crownOf, exposuresOf, loadedDefects } from './load.ts';
import type { PartSafety } from './part-safety.ts';
import { densityOf } from './salvage.ts';
import { type DefectStrength, lossAt, type Strength } from './strength.ts';

export interface HollowSafety {
  readonly defect: DefectStrength;
  /** Safety factor with the hollow, against its limit; for first permanent damage, not breakage. */
  readonly judged: Judged;
  /** The same stem without the hollow. */
  readonly sound: Interval;
  /** Gusts at which the section first yields, with and without the hollow, m/s. */
  readonly criticalWind: Interval;
  readonly soundWind: Interval;
  /** Upper bound of the safety factor against breakage, with full strength of clear wood. For information only. */
  readonly breakingAtMost: number;
  /**
   * `exceeds` if even the favorable end violates the limit; `may exceed` if the hollow makes the limit uncertain that
   * the sound stem satisfies. A stem that would violate it without the hollow, too, is not reported.
   */
  readonly standing: LimitVerdict | 'not judged';
  /** Why it is not judged. */
  readonly doubt?: string;
  /** The wall is so thin that it may split before bending failure: the figure is an upper bound. */
  readonly maySplit: boolean;
}

export interface StemSafety {
  readonly strength: GreenStrength;
  /** The 3-second gust of the site, m/s. */
  readonly windSpeed: Interval;
  readonly drag: Drag;
  readonly hollows: readonly HollowSafety[];
  /** The same as of any part. */
  readonly parts: readonly PartSafety[];
  /**
   * The sound stem would yield in wind that trees withstand, or withstand wind that no tree does: height, diameter or
   * crown may be wrong. Then there is no verdict.
   */
  readonly sizes: 'fit' | 'too slender' | 'too stout';
}

/** Plausible gusts at which sound open-grown trees break, m/s; storms suggest about 42. */
const PLAUSIBLE: Interval = interval(30, 80);
/** Lean up to which the weight of a stem is neglected, degrees. */
const UPRIGHT = 10;
/** Share of the strength up to which axial stress is neglected. */
const NEGLIGIBLE = 0.02;
/** Walls below this share of the radius split along the grain before bending failure (tests of one conifer). */
const SPLITS_BELOW = 0.27;

/**
 * At every hollow that carries the moment of the crown, in leaf and before any work. Undefined if the strength of the
 * wood, the wind speed, the crown or all sections are unknown.
 */
export const stemSafety = memo(
  (tree: Tree, strength: Strength, site: Site | undefined, settings: Settings): StemSafety | undefined => {
    if (strength.defects.length === 0 || !site?.wind || !tree.species) return undefined;
    const species = tree.species.value;
    const genus = lookupGenus(species.genus);
    const crown = crownOf(tree, settings);
    if (!crown || !genus || genus.palm) return undefined;
    const wood = greenStrength(species, genus.leaf);
    const windSpeed = valuesOf(site.wind.speed.value, settings);
    if (!wood || !(windSpeed.low > 0) || !Number.isFinite(windSpeed.high)) return undefined;
    const drag = dragOf(species.genus, genus.leaf);
    const density = densityOf(tree, settings).range;
    const loaded = loadedDefects(tree, strength, crown.top.low);
    if (loaded.length === 0) return undefined;
    const hollows = loaded.map((defect): HollowSafety => {
      const edge = defect.hollow.outer;
      const moduli = soundModuli(edge);
      const loss = clip(lossAt(defect, strength), interval(0, 1));
      const above = interval(
        Math.max(0, crown.top.low - defect.height.high),
        Math.max(0, crown.top.high - defect.height.low),
      );
      const weight = weightAbove(widest(edge), above, density);
      // A stem of several carries an unknown part of the crown.
      const isOneOfSeveral = tree.parts.some(
        ({ kind, name }) => kind === 'stem' && name.value === defect.hollow.defect.part?.value,
      );
      /** How many times the section bears a wind of this speed, with this share of its strength gone. */
      const factorAt = (speed: number, lost: Interval): Interval => {
        const moment = multiply(
          GUST_EFFECT,
          hull(
            ...exposuresOf(site).map(wind =>
              windMomentBounds([crown], defect.height, exact(speed), wind, interval(drag.low, drag.high)),
            ),
          ),
        );
        const load = isOneOfSeveral ? interval(0, moment.high) : moment;
        const modulus = interval(moduli.low * (1 - lost.high), moduli.high * (1 - lost.low));
        return safetyFactor(leftOver(wood, weight, edge, lost), modulus, load);
      };
      const none = exact(0);
      const speeds = [windSpeed.low, windSpeed.high];
      const over = (lost: Interval) => hull(...speeds.map(speed => factorAt(speed, lost)));
      const winds = (lost: Interval) =>
        hull(...speeds.map(speed => criticalWind(speed, factorAt(speed, lost))));
      const judged = judge(over(loss), 'safety-factor', settings);
      const sound = over(none);
      const doubt = doubtOf(tree, settings);
      const standing = standingOf(judged, judge(sound, 'safety-factor', settings).standing);
      const { wallRatio } = defect.hollow.thumbs;
      return {
        defect,
        judged,
        sound,
        criticalWind: winds(loss),
        soundWind: winds(none),
        breakingAtMost: judged.value.high * (wood.ruptureAtMost / wood.compression.high),
        standing: doubt && standing !== 'exceeds' ? 'not judged' : standing,
        ...(doubt ? { doubt } : {}),
        maySplit: wallRatio.applies && wallRatio.value.low < SPLITS_BELOW,
      };
    });
    return { strength: wood, windSpeed, drag, hollows, parts: hollows.map(partOf), sizes: sizesOf(hollows) };
  },
);

const partOf = ({ defect, judged, criticalWind, doubt }: HollowSafety): PartSafety => ({
  part: 'stem',
  subject: defect.hollow.defect.id.value,
  factor: judged.value,
  criticalWind,
  judgedBy: 'the stem in the design wind',
  weak: judged.standing === 'may exceed' ? ['gust effect'] : [],
  ...(doubt ? { notJudged: doubt } : {}),
});

function standingOf({ standing }: Judged, withoutHollow: LimitVerdict): LimitVerdict {
  if (standing !== 'may exceed') return standing;
  return withoutHollow === 'within' ? 'may exceed' : 'within';
}

function doubtOf(tree: Tree, settings: Settings): string | undefined {
  if (isDead(tree)) return 'the strength of a dead tree’s wood is not known';
  if (tree.lean && valuesOf(tree.lean.angle.value, settings).high >= UPRIGHT)
    return `from ${UPRIGHT} degrees of lean its own weight bends the stem too, which is not in the figure`;
  return undefined;
}

function sizesOf(hollows: readonly HollowSafety[]): StemSafety['sizes'] {
  if (hollows.some(({ soundWind }) => soundWind.high < PLAUSIBLE.low)) return 'too slender';
  return hollows.some(({ soundWind }) => soundWind.low > PLAUSIBLE.high) ? 'too stout' : 'fit';
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
function soundModuli(edge: OuterEdge<Interval>): Interval {
  const [a, b] = radii(edge);
  const quarter = Math.PI / 4;
  return interval(
    quarter * a.low * b.low * Math.min(a.low, b.low),
    quarter * a.high * b.high * Math.max(a.high, b.high),
  );
}

/**
 * Strength available for wind after deducting the axial stress of the weight above. Of all hollows with a given loss, a
 * ring leaves the least wood.
 */
function leftOver(
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
