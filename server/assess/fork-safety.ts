/** Forks of two stems: what opens them in the design wind and under their weight, and what they bear. */

import { hull, type Interval, interval, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Site, StemOrLimb, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import { forkStrength } from '../mechanics/forks.ts';
import { leaningArms, stemMass, weightMoment } from '../mechanics/own-weight.ts';
import { BRANCHES, barkThickness } from '../mechanics/stem.ts';
import { criticalWind, GUST_EFFECT, safetyFactor, windMomentBounds } from '../mechanics/wind.ts';
import { barkShare } from '../practice/bark.ts';
import { lookupGenus } from '../practice/species.ts';
import { FORK_FACTOR, INCLUSION_FACTOR, type Inclusion } from '../practice/unions.ts';
import { isDead } from './doses.ts';
import { type Judged, judge } from './judge.ts';
import type { PartSafety } from './part-safety.ts';
import { type StemEvidence, stemEvidence } from './stem-section.ts';

export interface ForkSafety {
  readonly stems: readonly [StemOrLimb, StemOrLimb];
  /** Of the fork above ground. */
  readonly height: Interval;
  /** Of the shorter stem above the fork. */
  readonly length: Interval;
  /** Moment that opens the fork in the design wind, by the more heavily loaded stem, N·m. */
  readonly moment: Interval;
  readonly resistance: Interval;
  readonly inclusion: Inclusion;
  readonly judged: Judged;
  readonly criticalWind: Interval;
  /** Stems that have no crown of their own on record: any part of that of the tree. */
  readonly unshared: readonly string[];
  readonly part: PartSafety;
}

/** Spread of a stem of a fork from the vertical where it was not measured, degrees (judged). */
const SPREADING: Interval = interval(0, 30);
/** Lean up to which a straight stem is an acceptable model, degrees (judged). */
const STEEPEST = 60;
const ONE: Interval = interval(1, 1);

function sizeOf(read: Placed<Quantity> | undefined, settings: Settings): Interval | undefined {
  const value = read && valuesOf(read.value, settings);
  return value && value.low > 0 && Number.isFinite(value.high) ? value : undefined;
}

/** Pairs of stems that name each other as the other side of a union, each once. */
export function forksOf({ parts }: Tree): readonly (readonly [StemOrLimb, StemOrLimb])[] {
  const seen = new Set<StemOrLimb>();
  return parts.flatMap(part => {
    const other = part.unionWith && parts.find(({ name }) => name.value === part.unionWith?.value);
    if (!other || other === part || seen.has(part)) return [];
    seen.add(part);
    if (other.unionWith?.value === part.name.value) seen.add(other);
    return [[part, other] as const];
  });
}

/** The fork that these names are about: that of two of them, else one of either of them. */
export function forkNamed(
  names: readonly Placed<string>[],
  tree: Tree,
): readonly [StemOrLimb, StemOrLimb] | undefined {
  const forks = forksOf(tree);
  const isNamed = ({ name }: StemOrLimb) => names.some(({ value }) => value === name.value);
  return forks.find(stems => stems.every(isNamed)) ?? forks.find(stems => stems.some(isNamed));
}

/** The more severe of what both stems say. */
function inclusionOf(stems: readonly StemOrLimb[]): Inclusion {
  const said = stems.flatMap(({ union, inclusion }): readonly Inclusion[] =>
    union?.value === 'sound' ? ['none'] : union ? [inclusion?.value ?? 'unstated'] : [],
  );
  return (
    (['at the apex', 'unstated', 'occluded', 'none'] as const).find(one => said.includes(one)) ?? 'unstated'
  );
}

/** Where two stems part, and how far the shorter of them rises above that. */
export function forkExtent(
  one: StemOrLimb,
  other: StemOrLimb,
  tree: Tree,
  settings: Settings,
): Pick<ForkSafety, 'height' | 'length'> | undefined {
  const height = sizeOf(one.from ?? other.from, settings);
  const [top, otherTop] = [one, other].map(stem => sizeOf(stem.height ?? tree.height, settings));
  if (!height || !top || !otherTop) return undefined;
  const least = Math.min(top.low, otherTop.low) - height.high;
  return least > 0
    ? { height, length: interval(least, Math.min(top.high, otherTop.high) - height.low) }
    : undefined;
}

/** The reason, for the middle of a sentence, where there is no figure. */
export const forkSafety = memo(
  (
    one: StemOrLimb,
    other: StemOrLimb,
    tree: Tree,
    site: Site | undefined,
    settings: Settings,
  ): ForkSafety | string => {
    if (isDead(tree)) return 'the strength of a dead tree’s wood is not known';
    const stems = [one, other] as const;
    const diameters = stems.map(({ diameter }) => sizeOf(diameter, settings));
    const extent = forkExtent(one, other, tree, settings);
    const [a, b] = diameters;
    if (!a || !b || !extent)
      return 'the load on the fork requires the diameters of both stems, the heights of their tops, and the height of the fork below these';
    const { height, length } = extent;
    const tops = stems.map(({ height: top }) => sizeOf(top ?? tree.height, settings)!);
    const evidence = stemEvidence(tree, site, settings);
    if (!evidence) return 'the load on the fork requires species, height and crown';
    if (!evidence.wind) return 'no design wind of the site is on record';
    const loads = stems.map((stem, i) => loadOf(stem, diameters[i]!, tops[i]!, height, evidence, settings));
    if (loads.some(load => typeof load === 'string')) return loads.find(load => typeof load === 'string')!;
    const inclusion = inclusionOf(stems);
    const { most } = barkShare(tree.species!.value, lookupGenus(tree.species!.value.genus)?.leaf);
    const thinner = interval(Math.min(a.low, b.low), Math.min(a.high, b.high));
    const inside = interval(Math.max(0, thinner.low - 2 * barkThickness(thinner, most).high), thinner.high);
    const resistance = forkStrength(
      interval(evidence.wood.ruptureAtLeast, evidence.wood.ruptureAtMost),
      inside,
      FORK_FACTOR,
      INCLUSION_FACTOR[inclusion],
    );
    const { gust, factor } = evidence.wind;
    const speeds = [gust.low, gust.high];
    const figures = (loads as readonly Load[]).map(({ wind, weight }) => {
      const at = (speed: number) => {
        const load = multiply(wind, interval((speed * factor.low) ** 2, (speed * factor.high) ** 2));
        return { load, safety: safetyFactor(resistance, ONE, load, weight) };
      };
      const found = speeds.map(at);
      return {
        moment: interval(
          Math.min(...found.map(({ load }) => load.low)) + weight.low,
          Math.max(...found.map(({ load }) => load.high)) + weight.high,
        ),
        factor: hull(...found.map(({ safety }) => safety)),
        critical: hull(...found.map(({ safety }, i) => criticalWind(speeds[i]!, safety))),
      };
    });
    const least = (all: readonly Interval[]) =>
      interval(Math.min(...all.map(({ low }) => low)), Math.min(...all.map(({ high }) => high)));
    const moments = figures.map(({ moment }) => moment);
    const judged = judge(least(figures.map(one => one.factor)), 'safety-factor', settings);
    const critical = least(figures.map(one => one.critical));
    return {
      stems,
      height,
      length,
      moment: interval(
        Math.max(...moments.map(({ low }) => low)),
        Math.max(...moments.map(({ high }) => high)),
      ),
      resistance,
      inclusion,
      judged,
      criticalWind: critical,
      unshared: stems.filter((stem, i) => !ownCrown(stem, tops[i]!, settings)).map(({ name }) => name.value),
      part: {
        part: 'union',
        subject: [one.name.value, other.name.value].sort()[0]!,
        factor: judged.value,
        criticalWind: critical,
        judgedBy: 'the fork in the design wind',
        weak: judged.standing === 'within' ? [] : ['fork strength', 'crown mass'],
      },
    };
  },
);

interface Load {
  /** At 1 m/s, N·m. */
  readonly wind: Interval;
  readonly weight: Interval;
}

/** The crown that a stem has on record for itself. */
function ownCrown(
  { crownBase, crownSpread }: StemOrLimb,
  top: Interval,
  settings: Settings,
): Crown<Interval> | undefined {
  const base = sizeOf(crownBase, settings);
  const spread = sizeOf(crownSpread, settings);
  return base && spread && base.high < top.low ? { base, top, spread } : undefined;
}

/** What opens the fork on the side of one stem, as if all of it acted in the plane of the fork. */
function loadOf(
  stem: StemOrLimb,
  diameter: Interval,
  top: Interval,
  height: Interval,
  { crown, wind, drag, density }: StemEvidence,
  settings: Settings,
): Load | string {
  const lean = stem.lean ? valuesOf(stem.lean.value, settings) : SPREADING;
  if (lean.high > STEEPEST)
    return `over ${STEEPEST} degrees of lean, no figure for the weight of ${stem.name.value} is known`;
  const own = ownCrown(stem, top, settings);
  const caught = own ?? crown;
  const moment = multiply(
    GUST_EFFECT,
    hull(
      ...wind!.winds.map(site =>
        windMomentBounds([caught], height, interval(1, 1), site, interval(drag.low, drag.high)),
      ),
    ),
  );
  const above = interval(Math.max(0, top.low - height.high), Math.max(0, top.high - height.low));
  const mass = stemMass(diameter, above, density);
  const middle = interval(
    Math.max(0, (Math.max(caught.base.low, height.low) + top.low) / 2 - height.high),
    Math.max(0, (Math.max(caught.base.high, height.high) + top.high) / 2 - height.low),
  );
  const steady = interval(Math.max(0, lean.low), Math.max(0, lean.high));
  return {
    wind: own ? moment : interval(0, moment.high),
    weight: weightMoment({
      stem: mass,
      crown: multiply(BRANCHES, mass),
      ...leaningArms(steady, above, middle),
    }),
  };
}
