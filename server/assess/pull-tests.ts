/**
 * What pull tests say of the root plate and, by strain, of the stem in the design wind. Without a pull test the anchorage
 * of a tree is not judged.
 */

import { exact, hull, type Interval, interval, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { showQuantity } from '../base/quantity.ts';
import { listed } from '../base/words.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, PullTest, Site, Tree } from '../facts/types.ts';
import {
  anchorageMoment,
  momentAtReading,
  momentByStrain,
  type Pull,
  pullMoment,
} from '../mechanics/anchorage.ts';
import { criticalWind, GUST_EFFECT } from '../mechanics/wind.ts';
import { pullTest as figures } from '../practice/anchorage.ts';
import { type LimitStrain, limitStrain } from '../practice/limit-strain.ts';
import { type WeakGround, weakGroundWords } from '../practice/weak-ground.ts';
import { anchorageLeft } from './anchorage-left.ts';
import { BUTT_HEIGHT } from './defect-verdict.ts';
import { isDead } from './doses.ts';
import { isRead } from './fall-zone.ts';
import { carries, type Judged, judge, showLimit } from './judge.ts';
import type { MeasuredPart } from './load.ts';
import type { OwnWeight } from './own-weight.ts';
import type { PartSafety } from './part-safety.ts';
import { type Doubt, doubtOf, leans } from './pull-doubts.ts';
import {
  inclinationOf,
  pullName,
  pullOf,
  usualFactor,
  weightOnRoots,
  weightUpTo,
  windMomentAt,
} from './pull-readings.ts';
import { designWind } from './site-wind.ts';
import { notJudged, type SignStanding, STANDINGS, type Verdict } from './standing.ts';

/** Safety of a section by its strain in a pull test. */
interface StrainSafety {
  /** m above ground. */
  readonly height: Interval;
  readonly shown: string;
  /** N·m at which its outermost wood is first crushed. */
  readonly capacity: Interval;
  readonly limit: LimitStrain;
  readonly judged: Judged;
  readonly criticalWind: Interval;
}

/** A pull test with its figures, as far as there are any. */
export interface PullResult {
  readonly test: PullTest;
  readonly name: string;
  /** Of the pull, at the ground, N·m. */
  readonly moment: Interval | undefined;
  /** At 0.25°, N·m. */
  readonly reading: Interval | undefined;
  /** At which the root plate gives way, N·m. */
  readonly anchorage: Interval | undefined;
  /** Of the design wind at the ground, N·m. */
  readonly load: Interval | undefined;
  /** Of the weight of a leaning tree, toward its lean at the ground, N·m; 0 for an upright one. */
  readonly weight: Interval;
  /** With the wind toward the lean. */
  readonly judged: Judged | undefined;
  /** The factor with the wind from ahead of the lean; undefined for an upright tree. */
  readonly against: Interval | undefined;
  /** With the usual drag, a steady load and no scatter: for information only. */
  readonly usual: number | undefined;
  readonly criticalWind: Interval | undefined;
  readonly strains: readonly StrainSafety[];
  readonly verdict: Verdict;
  readonly weak: readonly WeakGround[];
}

const NO_PULLS: readonly PullResult[] = [];

/** Every pull test of a tree with what it says; none for most trees. */
export const pullResults = (tree: Tree, site: Site | undefined, settings: Settings): readonly PullResult[] =>
  tree.pullTests.length === 0 || tree.felled ? NO_PULLS : evaluated(tree, site, settings);

const evaluated = memo((tree: Tree, site: Site | undefined, settings: Settings): readonly PullResult[] =>
  tree.pullTests.map(test => resultOf(test, tree, site, settings)),
);

/**
 * The test that counts: of the last day on which one was made, the one with the gravest verdict; tests in different
 * directions need not agree.
 */
export function decidingPull(tree: Tree, site: Site | undefined, settings: Settings): PullResult | undefined {
  const results = pullResults(tree, site, settings);
  if (results.length === 0) return undefined;
  const last = Math.max(...results.map(({ test }) => test.date.value));
  return results
    .filter(({ test }) => test.date.value === last)
    .reduce((worse, one) => (gravity(one.verdict) > gravity(worse.verdict) ? one : worse));
}

const gravity = ({ standing }: Verdict): number => STANDINGS.indexOf(standing);

function resultOf(test: PullTest, tree: Tree, site: Site | undefined, settings: Settings): PullResult {
  const name = pullName(test);
  const pull = pullOf(test, settings);
  const moment = pull && pullMoment(pull);
  const inclination = inclinationOf(test, settings);
  const readable =
    moment && inclination && inclination.low > 0 && Number.isFinite(inclination.high + moment.high);
  const reading = readable ? momentAtReading(moment, inclination, figures) : undefined;
  const scatter = interval(figures.scatter.low, figures.scatter.high);
  const anchorage = reading && anchorageMoment(reading, figures, scatter);
  const load = windMomentAt(exact(0), tree, site, settings);
  const weight = weightOnRoots(tree, settings);
  const held =
    anchorage && weight && load && load.low > 0 ? { anchorage, wet: wetGround(test), load } : undefined;
  const factorOf = (borne: Held, own: Interval) =>
    over(less(multiply(borne.anchorage, borne.wet), own), borne.load);
  const judged = held && judge(factorOf(held, weight!.moment), 'safety-factor', settings);
  const speed = designWind(tree, site, settings)?.gust;
  const strains = pull ? strainsOf(test, pull, tree, site, settings) : [];
  const doubt = doubtOf({ test, tree, site, settings, pull, inclination, load, weight });
  const weak = held ? weakOf(judged!, held, weight!, settings) : [];
  return {
    test,
    name,
    moment,
    reading,
    anchorage,
    load,
    weight: weight?.moment ?? exact(0),
    judged,
    against: held && weight!.moment.high > 0 ? factorOf(held, negative(weight!.moment)) : undefined,
    usual: reading && weight && usualFactor(reading, weight.moment, tree, site, settings),
    criticalWind: judged && speed && criticalOver(speed, judged.value),
    strains,
    verdict: verdictOf(judged, doubt, weak),
    weak,
  };
}

/** What the root plate is judged by. */
interface Held {
  readonly anchorage: Interval;
  /** What wet ground holds of it. */
  readonly wet: Interval;
  readonly load: Interval;
}

/** What is left of a resistance under the weight of the tree. */
const less = (resistance: Interval, { low, high }: Interval): Interval =>
  interval(Math.max(0, resistance.low - high), Math.max(0, resistance.high - low));
const negative = ({ low, high }: Interval): Interval => interval(0 - high, 0 - low);

/** Resistance over load. */
const over = (resistance: Interval, load: Interval): Interval =>
  interval(resistance.low / load.high, resistance.high / load.low);

/** The factor is computed at the ends of the design wind. */
const criticalOver = (speed: Interval, factor: Interval): Interval =>
  hull(criticalWind(speed.low, exact(factor.high)), criticalWind(speed.high, exact(factor.low)));

/** What the ground holds in a wet storm over what it held in the test; ground that nobody described may have been dry. */
const wetGround = ({ soil }: PullTest): Interval =>
  soil === undefined || soil.value === 'dry' ? interval(figures.dry.low, figures.dry.high) : exact(1);

function strainsOf(
  { strains }: PullTest,
  pull: Pull,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): readonly StrainSafety[] {
  const speed = designWind(tree, site, settings)?.gust;
  if (!tree.species || !speed || leans(tree, settings) || isDead(tree)) return [];
  const limit = limitStrain(tree.species.value);
  return strains.flatMap(({ strain, height }): readonly StrainSafety[] => {
    if (!isRead(strain) || !isRead(height)) return [];
    const at = valuesOf(height.value, settings);
    const read = valuesOf(strain.value, settings);
    const load = windMomentAt(at, tree, site, settings);
    const isSound = read.low > 0 && Number.isFinite(read.high) && at.low >= 0 && at.high < pull.height.low;
    if (!isSound || !load || !(load.low > 0)) return [];
    const moment = hull(pullMoment(pull, at.low), pullMoment(pull, at.high));
    const capacity = momentByStrain(moment, read, interval(limit.low, limit.high));
    const judged = judge(
      over(less(capacity, weightUpTo(at, tree, settings)), load),
      'safety-factor',
      settings,
    );
    return [
      {
        height: at,
        shown: showQuantity(height.value),
        capacity,
        limit,
        judged,
        criticalWind: criticalOver(speed, judged.value),
      },
    ];
  });
}

/** Estimates without which the verdict could be another. */
function weakOf(
  { standing }: Judged,
  { anchorage, wet, load }: Held,
  { moment, underLight, underHeavy }: OwnWeight,
  settings: Settings,
): readonly WeakGround[] {
  const differs = (resistance: Interval, weight: Interval, against = load): boolean =>
    judge(over(less(resistance, weight), against), 'safety-factor', settings).standing !== standing;
  const steady = interval(load.low / GUST_EFFECT.low, load.high / GUST_EFFECT.high);
  const held = multiply(anchorage, wet);
  return [
    ...(wet.low < 1 && differs(anchorage, moment) ? (['wet soil'] as const) : []),
    ...(differs(held, moment, steady) ? (['gust effect'] as const) : []),
    ...([underLight, underHeavy].some(weight => differs(held, weight)) ? (['crown mass'] as const) : []),
  ];
}

const SETTLE: Readonly<Partial<Record<SignStanding, string>>> = {
  'may exceed':
    'The result is within the scatter of pull tests. Have the tree pulled in other directions and rated by a qualified person, or reduce the crown.',
};

function verdictOf(
  judged: Judged | undefined,
  doubt: Doubt | undefined,
  weak: readonly WeakGround[],
): Verdict {
  if (doubt && (doubt.isVoid || judged?.standing !== 'exceeds'))
    return notJudged(`it gives no verdict on the anchorage: ${doubt.why}`, doubt.settle);
  if (!judged) return notJudged('it gives no figure', 'Check the figures of the pull test.');
  const settle = SETTLE[judged.standing];
  return {
    standing: judged.standing,
    why: `the root plate ${factorWords(judged)}${onWords(weak)}`,
    ...(settle ? { settle } : {}),
  };
}

const VERBS = { within: 'within', 'may exceed': 'perhaps under', exceeds: 'under' } as const;

/** `carries 1.44..3.56 times the moment of the design wind, perhaps under the limit of 1.50 (…)`. */
const factorWords = (judged: Judged): string =>
  `${carries(judged, 'the moment of the design wind')}, ${VERBS[judged.standing]} ${showLimit(judged)}`;

/** Names the estimates that decide. */
const onWords = (weak: readonly WeakGround[]): string =>
  weak.length === 0 ? '' : `; it depends on ${listed(weak.map(weakGroundWords))}`;

/** The verdict on the stem by the strain with the least favorable factor; undefined without one. */
export function strainVerdict({
  strains,
  test,
}: PullResult): (Verdict & { readonly at: PullTest['strains'][number] }) | undefined {
  const worst = strains.reduce<StrainSafety | undefined>(
    (worse, one) => (worse && worse.judged.value.low <= one.judged.value.low ? worse : one),
    undefined,
  );
  if (!worst) return undefined;
  const { judged, shown, limit } = worst;
  return {
    at: test.strains[strains.indexOf(worst)] ?? test.strains[0]!,
    standing: judged.standing,
    why: `at ${shown} the stem ${factorWords(judged)}; limit strain by ${limit.words}`,
    ...(judged.standing === 'may exceed'
      ? { settle: 'Have more strains measured, at the weakest height and on both sides.' }
      : {}),
  };
}

/** Strains read where a fungus of the butt would weaken it. */
const lowStrains = ({ strains }: PullResult): readonly StrainSafety[] =>
  strains.filter(({ height }) => height.high <= BUTT_HEIGHT);

/**
 * The verdict of a pull test on a sign of the roots. A fungus of roots and butt weakens the butt too: only a strain read
 * there judges that.
 */
export function rootsByPull(own: Verdict, defect: Defect, pull: PullResult): Verdict {
  const { name } = pull;
  const verdict = { ...pull.verdict, why: `by ${name}, ${pull.verdict.why}` };
  if (own.standing === 'moving' || verdict.standing === 'not judged') return own;
  if (defect.kind.value !== 'fungus') return verdict;
  const low = lowStrains(pull);
  if (low.length === 0)
    return verdict.standing === 'exceeds'
      ? verdict
      : notJudged(
          `${verdict.why}; but the loss at the butt is not known`,
          'Have the strain measured at the stem base in a pull test, or the sound wall there measured.',
        );
  const butt = strainVerdict({ ...pull, strains: low })!;
  return gravity(butt) > gravity(verdict)
    ? { ...butt, why: `by the strain in ${name}, ${butt.why}` }
    : verdict;
}

const NO_PULLED: readonly MeasuredPart[] = [];

/** Everything that the deciding pull test judges. */
export const pulledParts = (
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): readonly MeasuredPart[] =>
  tree.pullTests.length === 0 || tree.felled ? NO_PULLED : partsPulled(tree, site, settings);

const partsPulled = memo(
  (tree: Tree, site: Site | undefined, settings: Settings): readonly MeasuredPart[] => {
    const pull = decidingPull(tree, site, settings);
    if (!pull) return NO_PULLED;
    return [...(rootPlate(pull) ?? []), ...pull.strains.map(stemPart)];
  },
);

const rootPlate = ({ judged, verdict }: PullResult): readonly MeasuredPart[] | undefined =>
  judged && verdict.standing !== 'not judged'
    ? [{ name: 'the root plate', height: exact(0), judged }]
    : undefined;

const stemPart = ({ height, shown, judged }: StrainSafety): MeasuredPart => ({
  name: `the stem at ${shown}`,
  height,
  judged,
});

/** The parts whose figures decide a sign that a pull test judges; undefined if they do not decide it alone. */
export function partsBehind(
  { kind, byPull }: { readonly kind: string; readonly byPull?: true },
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): readonly MeasuredPart[] | undefined {
  const pull = byPull ? decidingPull(tree, site, settings) : undefined;
  if (!pull) return undefined;
  if (kind === 'strain') return pull.strains.map(stemPart);
  const roots = rootPlate(pull);
  if (!roots || kind !== 'fungus') return roots;
  // What the butt has lost no lighter crown tells.
  const butt = lowStrains(pull);
  return butt.length > 0 ? [...roots, ...butt.map(stemPart)] : undefined;
}

const NO_PARTS: readonly PartSafety[] = [];

/** The root plate, and the stem by its strains, where a pull test was made or roots were lost. */
export function anchorageParts(
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): readonly PartSafety[] {
  const left = anchorageLeft(tree, site, settings);
  const pull = decidingPull(tree, site, settings);
  if (!left && !pull) return NO_PARTS;
  const base = { part: 'roots and ground', subject: 'anchorage' } as const;
  if (!pull)
    return [
      {
        ...base,
        factor: undefined,
        criticalWind: undefined,
        judgedBy: 'the share of the anchorage that is left',
        weak: left!.weak,
        notJudged: 'no pull test was made, and the size of a tree alone does not show its anchorage',
      },
    ];
  const isOut = pull.verdict.standing === 'not judged';
  return [
    {
      ...base,
      factor: isOut ? undefined : pull.judged?.value,
      criticalWind: isOut ? undefined : pull.criticalWind,
      judgedBy: pull.name,
      weak: pull.weak,
      ...(isOut ? { notJudged: pull.verdict.why } : {}),
    },
    ...pull.strains.map(
      ({ judged, criticalWind, shown }): PartSafety => ({
        part: 'stem',
        subject: `strain at ${shown}`,
        factor: judged.value,
        criticalWind,
        judgedBy: `its strain in ${pull.name}`,
        weak: [],
      }),
    ),
  ];
}
