/**
 * The likelihood of failure of each part of a tree, as far as figures and marks allow: from the gust at which it comes
 * to its limit, and from the hazard rating codes, which are a floor. The worst part counts, and no part stands for
 * another.
 */

import type { Interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { listed } from '../base/words.ts';
import type { Settings } from '../facts/settings.ts';
import type { Risk, Site, Tree } from '../facts/types.ts';
import { likelihoodByCode } from '../practice/likelihood.ts';
import {
  LIKELIHOODS_OF_FAILURE,
  type LikelihoodOfFailure,
  type RiskRating,
  riskRating,
} from '../practice/risk.ts';
import { codedAs, codedWords } from './coded.ts';
import { forkSafety, forksOf } from './fork-safety.ts';
import { showNumber } from './judge.ts';
import { leanSafety } from './lean-safety.ts';
import { limbsOf } from './limb-safety.ts';
import type { PartSafety } from './part-safety.ts';
import { anchorageParts, decidingPull } from './pull-tests.ts';
import { currentRisks, hitInputs } from './risks.ts';
import { stemSafety } from './safety.ts';
import type { TreePart } from './sign-kinds.ts';
import { type Sign, signsOf } from './signs.ts';
import { designWind } from './site-wind.ts';
import { byStanding, type SignContext, type SignStanding } from './standing.ts';
import { strengthOf } from './strength.ts';
import { surfaceParts } from './surface-safety.ts';

/** From the least to the greatest that the figures allow. */
export interface LikelihoodRange {
  readonly least: LikelihoodOfFailure;
  readonly most: LikelihoodOfFailure;
}

export interface PartLikelihood {
  readonly part: TreePart;
  readonly subject: string;
  /** For the middle of a sentence: `cavity A`, `the root plate`. */
  readonly name: string;
  readonly standing: SignStanding;
  readonly sign?: Sign;
  readonly safety?: PartSafety;
  /** Undefined if nothing tells it. */
  readonly range: LikelihoodRange | undefined;
  /** Whether anything on record speaks of it. */
  readonly isRecorded: boolean;
  /** What it follows from, or why it is not known; for the middle of a sentence. */
  readonly because: string;
}

export interface TreeLikelihood {
  /** The gravest first. */
  readonly parts: readonly PartLikelihood[];
  /** Of the worst judged part; undefined if none is judged. */
  readonly range: LikelihoodRange | undefined;
  /** Names of the parts that nothing tells the likelihood of: the tree is no better than its range, and may be worse. */
  readonly notJudged: readonly string[];
}

const rank = (word: LikelihoodOfFailure): number => LIKELIHOODS_OF_FAILURE.indexOf(word);
const worse = (a: LikelihoodOfFailure, b: LikelihoodOfFailure): LikelihoodOfFailure =>
  rank(a) >= rank(b) ? a : b;
const worst = (a: LikelihoodRange, b: LikelihoodRange): LikelihoodRange => ({
  least: worse(a.least, b.least),
  most: worse(a.most, b.most),
});

/** `possible`, `possible to probable`. */
export const rangeWords = ({ least, most }: LikelihoodRange): string =>
  least === most ? most : `${least} to ${most}`;

/** By the gust at which a part comes to its limit. @param extreme design gust, m/s; both in open terrain */
export function byWind(critical: Interval, normal: number, extreme: number): LikelihoodRange {
  if (critical.high < normal) return { least: 'probable', most: 'probable' };
  if (critical.low < normal) return { least: 'possible', most: 'probable' };
  if (critical.low < extreme) return { least: 'possible', most: 'possible' };
  return { least: 'improbable', most: 'improbable' };
}

/** Parts with a figure of their safety, whatever way of failing was computed. */
const partSafeties = memo((tree: Tree, site: Site | undefined, settings: Settings): readonly PartSafety[] => {
  const stem = stemSafety(tree, strengthOf(tree, settings), site, settings);
  const lean = leanSafety(tree, site, settings);
  const misread =
    'even an intact stem would reach its limit in no plausible wind: check height, diameter and crown';
  const doubted = (parts: readonly PartSafety[], sizes: 'fit' | string): readonly PartSafety[] =>
    sizes === 'fit' ? parts : parts.map(part => ({ ...part, notJudged: part.notJudged ?? misread }));
  return [
    ...(stem ? doubted(stem.parts, stem.sizes) : []),
    ...surfaceParts(tree, site, settings),
    ...(lean && typeof lean !== 'string' ? doubted([lean.part], lean.sizes) : []),
    ...anchorageParts(tree, site, settings),
    ...limbsOf(tree, site, settings).flatMap(([, limb]) => (typeof limb === 'string' ? [] : [limb.part])),
    ...forksOf(tree).flatMap(([one, other]) => {
      const fork = forkSafety(one, other, tree, site, settings);
      return typeof fork === 'string' ? [] : [fork.part];
    }),
  ];
});

const isStrain = ({ subject }: PartSafety): boolean => subject.startsWith('strain at ');

/** The figure that a sign is judged by. */
function safetyOf(sign: Sign, all: readonly PartSafety[]): PartSafety | undefined {
  if (sign.kind === 'strain')
    return all.filter(isStrain).sort((a, b) => (a.factor?.low ?? 0) - (b.factor?.low ?? 0))[0];
  const own = all.find(
    ({ subject, part }) =>
      subject === sign.subject && ((part === sign.part && sign.kind !== 'stem lean') || sign.kind === 'lean'),
  );
  return own ?? (sign.byPull && sign.part === 'roots and ground' ? all.find(isAnchorage) : undefined);
}

const isAnchorage = ({ subject }: PartSafety): boolean => subject === 'anchorage';

/** Undefined for a felled tree, and for one of which nothing on record concerns safety. */
export const treeLikelihood = ({ tree, site, settings }: SignContext): TreeLikelihood | undefined =>
  computed(tree, site, settings);

const computed = memo(
  (tree: Tree, site: Site | undefined, settings: Settings): TreeLikelihood | undefined => {
    const context = { tree, site, settings };
    const signs = signsOf(context);
    if (signs.length === 0) return undefined;
    const safeties = partSafeties(tree, site, settings);
    const bySign = signs.map(sign => ofSign(sign, signs, safetyOf(sign, safeties), context));
    const parts = [...bySign, ...rootPlate(bySign, safeties, context)].sort(byGravity);
    const ranges = parts.flatMap(({ range }) => range ?? []);
    return {
      parts,
      range: ranges.length > 0 ? ranges.reduce(worst) : undefined,
      notJudged: parts.filter(isUntold).map(({ name }) => name),
    };
  },
);

/** Parts whose failure is imminent for sure: moving, or graver than any gust could tell. */
export const imminentParts = (context: SignContext): readonly PartLikelihood[] =>
  (treeLikelihood(context)?.parts ?? []).filter(
    ({ isRecorded, range }) => isRecorded && range?.least === 'imminent',
  );

/** Nothing is asked of a sign within its marks that has no figure. */
const isUntold = ({ range, standing }: PartLikelihood): boolean => !range && standing !== 'within';

/** What nothing on record speaks of comes last. */
const byGravity = (a: PartLikelihood, b: PartLikelihood): number =>
  Number(b.isRecorded) - Number(a.isRecorded) || byStanding(a, b) || gravity(b) - gravity(a);

/** What may be worse comes first. */
const gravity = ({ range }: PartLikelihood): number =>
  range ? rank(range.most) * LIKELIHOODS_OF_FAILURE.length + rank(range.least) : -1;

/** Where no sign speaks of the anchorage: without a pull test never a pass. */
function rootPlate(
  parts: readonly PartLikelihood[],
  safeties: readonly PartSafety[],
  { tree, site, settings }: SignContext,
): readonly PartLikelihood[] {
  const isTold = parts.some(
    ({ part, standing, sign }) =>
      part === 'roots and ground' && (sign?.byPull || standing === 'not judged' || standing === 'moving'),
  );
  if (isTold) return [];
  const safety = safeties.find(isAnchorage);
  const pull = decidingPull(tree, site, settings);
  if (pull && pull.verdict.standing !== 'not judged') return [];
  return [
    {
      part: 'roots and ground',
      subject: 'anchorage',
      name: 'the root plate',
      standing: 'not judged',
      ...(safety ? { safety } : {}),
      isRecorded: safety !== undefined,
      range: undefined,
      because:
        safety?.notJudged ??
        'no pull test was made, and the size of a tree alone does not show its anchorage',
    },
  ];
}

function ofSign(
  sign: Sign,
  signs: readonly Sign[],
  safety: PartSafety | undefined,
  context: SignContext,
): PartLikelihood {
  const { part, subject, name, standing } = sign;
  const base = { part, subject, name, standing, sign, isRecorded: true, ...(safety ? { safety } : {}) };
  if (standing === 'moving')
    return { ...base, range: { least: 'imminent', most: 'imminent' }, because: `it is moving (${sign.why})` };
  const wind = windRange(safety, context);
  const coded = codedAs(sign, signs, context);
  const floor = coded && {
    least: coded.least ? likelihoodByCode[coded.least] : 'improbable',
    most: likelihoodByCode[coded.most],
  };
  const reasons = [...(wind ? [wind.because] : []), ...(coded ? [`by the codes ${codedWords(coded)}`] : [])];
  const judged = wind ? (floor ? worst(wind.range, floor) : wind.range) : floor;
  const why = [...reasons, ...(safety?.notJudged ? [safety.notJudged] : [])].join('; ');
  if (standing === 'not judged')
    return {
      ...base,
      range: judged && { least: judged.least, most: 'imminent' },
      because: judged ? `${why}; it is not judged: ${sign.why}` : sign.why,
    };
  if (standing === 'exceeds' && (!judged || judged.most === 'improbable'))
    return {
      ...base,
      range: { least: 'possible', most: 'imminent' },
      because: [
        ...(why === '' ? [] : [why]),
        'beyond its limit, with no figure relating it to the wind',
      ].join('; '),
    };
  if (judged?.least === 'improbable' && part === 'roots and ground' && !sign.byPull)
    return {
      ...base,
      // What the stem bears says nothing of the roots.
      range: undefined,
      because: `${why}; its anchorage is not in any figure`,
    };
  if (!judged)
    return {
      ...base,
      range: undefined,
      because: standing === 'within' ? 'within its thresholds, without a figure' : NO_FIGURE(safety),
    };
  return { ...base, range: judged, because: why };
}

const NO_FIGURE = (safety: PartSafety | undefined): string =>
  safety?.notJudged ?? 'no figure relates it to the wind, and the codes do not rate it';

/** Whole units are shown; taken off, so that a gust is rounded down. */
const HALF_A_UNIT = 0.5;

/** Undefined without a gust at which it comes to its limit. */
function windRange(
  safety: PartSafety | undefined,
  { tree, site, settings }: SignContext,
): { readonly range: LikelihoodRange; readonly because: string } | undefined {
  const design = designWind(tree, site, settings);
  if (!safety?.criticalWind || safety.notJudged !== undefined || !design) return undefined;
  const { criticalWind, factor } = safety;
  const normal = settings.limit('normal-gust');
  const unit = { unit: site!.wind!.speed.value.unit!.symbol };
  const gust = (speed: number) => showNumber(speed, unit, 0);
  if (factor && factor.high <= 0)
    return {
      range: { least: 'imminent', most: 'imminent' },
      because: 'by the figures, it fails under its own weight',
    };
  const range = byWind(criticalWind, normal.value, design.gust.high);
  const cannotStand = factor !== undefined && factor.low <= 0;
  return {
    range: cannotStand ? { ...range, most: 'imminent' } : range,
    because: [
      criticalWind.low < 1
        ? 'the gust at which it reaches its limit is not known'
        : `it reaches its limit at a gust of ${gust(criticalWind.low - HALF_A_UNIT * site!.wind!.speed.value.unit!.factor)} (normal weather: ${gust(normal.value)}; design wind: ${gust(design.gust.high)})`,
      ...(cannotStand ? ['failure under its own weight is not ruled out'] : []),
    ].join('; '),
  };
}

/** A person's assessment, and what the figures allow for the same part. */
export interface RatedLikelihood {
  readonly risk: Risk;
  readonly rated: LikelihoodOfFailure;
  /** Undefined if nothing tells it. */
  readonly range: LikelihoodRange | undefined;
  /** The parts it follows from, gravest first. */
  readonly parts: readonly PartLikelihood[];
  /** Whether the rating is below all that the figures allow. */
  readonly isLower: boolean;
  /**
   * Ratings of the risk by this range, with the impact and the consequences that a person rated; `most` is undefined if
   * nothing tells the likelihood of a part.
   */
  readonly rating: { readonly least: RiskRating; readonly most: RiskRating | undefined } | undefined;
}

/** The current ratings of failure beside the figures. */
export function ratedLikelihoods(context: SignContext): readonly RatedLikelihood[] {
  const { tree } = context;
  if (tree.risks.length === 0) return [];
  const found = treeLikelihood(context);
  if (!found) return [];
  return currentRisks(tree).flatMap((risk): readonly RatedLikelihood[] => {
    const rated = LIKELIHOODS_OF_FAILURE.find(word => word === risk.failure?.value);
    if (!rated) return [];
    const parts = found.parts.filter(part => concerns(risk, part));
    const ranges = parts.flatMap(({ range }) => range ?? []);
    const range = ranges.length > 0 ? ranges.reduce(worst) : undefined;
    return [
      {
        risk,
        rated,
        range,
        parts,
        isLower: range !== undefined && rank(rated) < rank(range.least),
        rating: ratingWithin(risk, range, parts),
      },
    ];
  });
}

function ratingWithin(
  risk: Risk,
  range: LikelihoodRange | undefined,
  parts: readonly PartLikelihood[],
): RatedLikelihood['rating'] {
  const hit = hitInputs(risk);
  if (!range || !hit) return undefined;
  const by = (failure: LikelihoodOfFailure) => riskRating(failure, hit.impact, hit.consequences);
  return { least: by(range.least), most: parts.some(isUntold) ? undefined : by(range.most) };
}

/** A rating of the whole tree is about every part. */
const concerns = ({ defect }: Risk, { subject, sign }: PartLikelihood): boolean =>
  defect === undefined || subject === defect.value || (sign?.members.includes(defect.value) ?? false);

/** `probable to imminent`, `possible or more (the root plate is not judged)`. */
export function treeWords({ range, notJudged }: TreeLikelihood): string {
  if (!range) return 'not judged';
  if (notJudged.length === 0 || range.least === 'imminent') return rangeWords(range);
  const open = `${listed(notJudged)} ${notJudged.length === 1 ? 'is' : 'are'} not judged`;
  return range.least === 'improbable'
    ? `not judged as a whole (${open})`
    : `${range.least} or more (${open})`;
}
