/**
 * The output of `weigh --format json`; schema in weigh.schema.json. A breaking change increases `version`. Lengths in m,
 * shares as fractions of one, volumes in m³, masses in kg, forces in N.
 */

import type { Assessment } from '../assess/assessment.ts';
import { codedAs } from '../assess/coded.ts';
import { decayCourses } from '../assess/decay-time.ts';
import { type ForkSafety, forkSafety, forksOf } from '../assess/fork-safety.ts';
import { ifThens, screenBands } from '../assess/if-then.ts';
import { instrumentWalls } from '../assess/instruments.ts';
import type { LeanSafety } from '../assess/lean-safety.ts';
import { type LikelihoodRange, ratedLikelihoods, treeLikelihood } from '../assess/likelihood.ts';
import { loadedDefects } from '../assess/load.ts';
import type { HollowSafety } from '../assess/safety.ts';
import { weakestBearing } from '../assess/section-words.ts';
import type { SignContext } from '../assess/standing.ts';
import { type DefectStrength, lossAt } from '../assess/strength.ts';
import { inspectionDue, judgedCable, serviceEnd, supportsInPlace, workingLoad } from '../assess/supports.ts';
import { formatDate } from '../base/dates.ts';
import { exact } from '../base/interval.ts';
import type { StemOrLimb, Support } from '../facts/types.ts';
import { stressRatio } from '../mechanics/reduction.ts';
import { anchorageJson } from './anchorage-json.ts';
import { decayJson } from './decay-json.ts';
import { ends, endsOrNull, millJson } from './mill-json.ts';
import { jsonText } from './sanitize.ts';
import { WEIGH_CAUTION } from './weigh.ts';
import type { Weighed } from './weighed.ts';

const WEIGH_VERSION = 2;

export interface WeighReport {
  /** Day number. */
  readonly on: number;
  readonly trees: readonly Weighed[];
  /** What could not be read or computed, and why. */
  readonly unread: readonly { readonly file: string; readonly message: string }[];
}

export function weighedJson({ on, trees, unread }: WeighReport): string {
  const report = {
    version: WEIGH_VERSION,
    on: formatDate(on),
    caution: WEIGH_CAUTION,
    trees: trees.map(treeJson),
    unread,
  };
  return `${jsonText(report, 2)}\n`;
}

function treeJson({ tree, file, site, settings, assessment, safety }: Weighed) {
  const { strength, offset, views, settles, lean, signs, options, riggings, mill } = assessment;
  return {
    tag: tree.tag.value,
    file,
    signs: signs.map(sign => {
      const { part, kind, subject, name, standing, why } = sign;
      const coded = codedAs(sign, signs, { tree, site, settings });
      const code = coded ? { least: coded.least ?? null, most: coded.most } : null;
      return { part, kind, subject, name, standing, why, code };
    }),
    likelihood: likelihoodJson({ tree, site, settings }),
    walls: tree.defects.flatMap(defect =>
      instrumentWalls(defect, tree, settings).map(({ by, day, bearing, wall }) => ({
        defect: defect.id.value,
        by,
        on: formatDate(day!),
        bearing: bearing ?? null,
        wall: ends(wall),
      })),
    ),
    decay: decayCourses(tree, site, settings).map(decayJson),
    defects: strength.defects.map(defectJson),
    groups: strength.groups.map(({ joined, figures }) => ({
      defects: joined.defects.map(({ value }) => value),
      state: joined.state.value,
      apart: ends(figures.apart),
      joined: ends(figures.joined),
    })),
    crown: crownJson(tree, assessment),
    safety: safety
      ? {
          windSpeed: ends(safety.wind.gust),
          windFactor: ends(safety.wind.factor),
          compressionStrength: ends(safety.strength.compression),
          woods: safety.strength.woods.map(({ common, status }) => ({ common, status })),
          drag: ends(safety.drag),
          sizes: safety.sizes,
          byDefect: safety.hollows.map(safetyJson),
        }
      : null,
    lean: lean ? leanJson(lean) : null,
    anchorage: anchorageJson({ tree, site, settings }),
    limbs: assessment.limbs.map(limbJson),
    forks: forksOf(tree).map(stems => forkJson(stems, forkSafety(stems[0], stems[1], tree, site, settings))),
    supports: supportsInPlace(tree).map(support => supportJson(support, { tree, site, settings })),
    offset: offset
      ? {
          reduction: offset.reduction,
          top: offset.top,
          spread: offset.spread,
          stressRatio: endsOrNull(offset.stressRatio),
          stressAtLeastEffect: endsOrNull(offset.stressAtLeastEffect),
          dose: ends(offset.dose),
          seasons: ends(offset.seasons),
          reach: offset.reach,
          atBest: { reduction: offset.atBest.reduction, reach: offset.atBest.reach },
        }
      : null,
    views: views.map(({ view, wish, before, after }) => ({
      name: view.name.value,
      wish,
      before: ends(before),
      after: endsOrNull(after),
    })),
    settles: settles.map(({ defect, reading, threshold = null, decides = null, text }) => ({
      defect,
      reading,
      threshold,
      decides,
      text,
    })),
    rigging: riggings.map(({ prescription, mass, peak, atBlock, elements, standing }) => ({
      prescription: prescription.id.value,
      mass: endsOrNull(mass),
      peak: ends(peak),
      atBlock: ends(atBlock),
      standing,
      elements: elements.map(({ name, judged, standing, missing, weak, where }) => ({
        name,
        factor: endsOrNull(judged?.value),
        standing,
        missing,
        weak,
        where: where ?? null,
      })),
    })),
    mill: millJson(mill),
    ifThen: ifThens(tree, site, settings).map(({ defect, what, rows }) => ({
      defect: defect.id.value,
      what,
      rows: rows.map(({ value, reading, reduction, reach, action }) => ({
        value,
        reading,
        reduction,
        reach,
        action,
      })),
    })),
    screens: screenBands(tree, settings).map(({ name, band, words }) => ({
      view: name,
      mustStay: ends(band),
      text: words,
    })),
    options: options.map(
      ({
        option,
        support,
        because,
        leaves,
        stressRatio,
        eased = [],
        dose,
        seasons,
        views,
        asks,
        salvage,
      }) => ({
        option,
        support,
        because,
        leaves: leaves.map(({ subject }) => subject),
        stressRatio: endsOrNull(stressRatio),
        factors: eased.map(({ name, judged }) => ({
          name,
          factor: ends(judged.value),
          standing: judged.standing,
        })),
        dose: endsOrNull(dose),
        seasons: endsOrNull(seasons),
        views: views.map(({ name, wish, hidden }) => ({ name, wish, hidden: ends(hidden) })),
        asks,
        salvage: salvage ? { volume: ends(salvage.volume), mass: endsOrNull(salvage.mass) } : null,
      }),
    ),
  };
}

/** Of failure, by part; null where nothing on record concerns safety. */
function likelihoodJson(context: SignContext) {
  const found = treeLikelihood(context);
  if (!found) return null;
  return {
    ...rangeJson(found.range),
    notJudged: [...found.notJudged],
    parts: found.parts.map(({ part, subject, name, standing, isRecorded, safety, range, because }) => ({
      part,
      subject,
      name,
      standing: isRecorded ? standing : null,
      factor: endsOrNull(safety?.factor),
      criticalWind: endsOrNull(safety?.criticalWind),
      ...rangeJson(range),
      because,
      weak: [...(safety?.weak ?? [])],
    })),
    rated: ratedLikelihoods(context).map(({ risk, rated, range, isLower, rating }) => ({
      target: risk.target.value,
      from: risk.defect?.value ?? null,
      failure: rated,
      ...rangeJson(range),
      isLower,
      rating: rating ? { least: rating.least, most: rating.most ?? null } : null,
      because: risk.because?.value ?? null,
    })),
  };
}

const rangeJson = (range: LikelihoodRange | undefined) => ({
  least: range?.least ?? null,
  most: range?.most ?? null,
});

const safetyJson = ({
  defect,
  judged,
  against,
  sound,
  criticalWind,
  soundWind,
  leafless,
  standing,
  doubt,
  maySplit,
}: HollowSafety) => ({
  id: defect.hollow.defect.id.value,
  factor: ends(judged.value),
  against: endsOrNull(against),
  sound: ends(sound),
  criticalWind: ends(criticalWind),
  soundWind: ends(soundWind),
  leafless: endsOrNull(leafless),
  standing,
  doubt: doubt ?? null,
  maySplit,
});

/** A sound stem; why there is no figure, where there is none. */
function leanJson(lean: LeanSafety | string) {
  if (typeof lean === 'string')
    return {
      weight: null,
      factor: null,
      against: null,
      criticalWind: null,
      standing: 'not judged',
      weak: [],
      doubt: lean,
    };
  const { weight, wind, standing, part } = lean;
  return {
    weight: ends(weight.value),
    factor: endsOrNull(wind?.judged.value),
    against: endsOrNull(wind?.against),
    criticalWind: endsOrNull(wind?.criticalWind),
    standing,
    weak: part.weak,
    doubt: null,
  };
}

/** Why there is no figure, where there is none. */
function limbJson([limb, safety]: Assessment['limbs'][number]) {
  const known = typeof safety === 'string' ? undefined : safety;
  return {
    name: limb.name.value,
    weight: endsOrNull(known?.weight.value),
    ice: endsOrNull(known?.ice?.value),
    factor: endsOrNull(known?.wind?.judged.value),
    criticalWind: endsOrNull(known?.wind?.criticalWind),
    weak: known?.part.weak ?? [],
    doubt: typeof safety === 'string' ? safety : null,
  };
}

function forkJson(stems: readonly StemOrLimb[], fork: ForkSafety | string) {
  const known = typeof fork === 'string' ? undefined : fork;
  return {
    stems: stems.map(({ name }) => name.value),
    moment: endsOrNull(known?.moment),
    resistance: endsOrNull(known?.resistance),
    factor: endsOrNull(known?.judged.value),
    criticalWind: endsOrNull(known?.criticalWind),
    weak: known?.part.weak ?? [],
    doubt: typeof fork === 'string' ? fork : null,
  };
}

function supportJson(support: Support, { tree, site, settings }: SignContext) {
  const isCable = support.kind.value === 'cable';
  const judged = isCable ? judgedCable(support, support.holds, tree, site, settings) : undefined;
  const load = judged && typeof judged.load !== 'string' ? judged.load : undefined;
  const day = (value: number | undefined) => (value === undefined ? null : formatDate(value));
  return {
    id: support.id.value,
    kind: support.kind.value,
    holds: support.holds.map(({ value }) => value),
    inspectBy: day(inspectionDue(support, settings, Number.POSITIVE_INFINITY)),
    serviceUntil: day(serviceEnd(support, settings)),
    workingLoad: endsOrNull(workingLoad(support, settings)),
    needed: endsOrNull(load?.needed),
    height: endsOrNull(judged?.height?.value),
    standing: judged?.standing ?? 'not judged',
  };
}

function defectJson(strength: DefectStrength) {
  const {
    hollow: { defect, thumbs },
    figures,
  } = strength;
  const { wallRatio, cubic, quartic, withOpening } = thumbs;
  return {
    id: defect.id.value,
    strengthLoss: ends(figures.strengthLoss),
    worstBearing: weakestBearing(strength) ?? null,
    contradictions: figures.contradictions.map(({ kind }) => kind),
    thumb: {
      tOverR: wallRatio.applies ? ends(wallRatio.value) : null,
      cubic: ends(cubic.value),
      quartic: ends(quartic.value),
      opening: ends(withOpening.value),
    },
  };
}

/** Under the first open prescription with dimensions; without one, under the present crown. */
function crownJson(tree: Weighed['tree'], { strength, loads }: Assessment) {
  const [load] = loads;
  const sections = load
    ? load.sections
    : loadedDefects(tree, strength, Number.POSITIVE_INFINITY).map(defect => ({
        defect,
        momentRatio: exact(1),
        stressRatio: stressRatio(exact(1), lossAt(defect, strength)),
        stressAtLeastEffect: stressRatio(exact(1), lossAt(defect, strength)),
      }));
  return {
    prescription: load ? load.prescription.id.value : null,
    momentRatio: endsOrNull(load?.momentRatio),
    momentAtLeastEffect: endsOrNull(load?.momentAtLeastEffect),
    dose: endsOrNull(load?.dose),
    byDefect: sections.map(({ defect, momentRatio, stressRatio: stress, stressAtLeastEffect: least }) => ({
      id: defect.hollow.defect.id.value,
      height: endsOrNull(defect.height),
      momentRatio: ends(momentRatio),
      stressRatio: ends(stress),
      stressAtLeastEffect: ends(least),
    })),
  };
}
