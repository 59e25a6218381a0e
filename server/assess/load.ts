/** Wind load before and after a prescription, and the reduction that would offset the loss of sections. */

import { exact, hull, type Interval, interval } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { listed } from '../base/words.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Prescription, Site, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import { greatestReduction, type OffsettingReduction, offsettingReduction } from '../mechanics/offsetting.ts';
import { atLeastEffect, doseBounds, momentRatioBounds, stressRatio } from '../mechanics/reduction.ts';
import type { WindSite } from '../mechanics/wind.ts';
import { type CrownReduction, crownReduction } from './crowns.ts';
import { doseLimitsOf } from './doses.ts';
import { type Judged, judge, strictest } from './judge.ts';
import { windsOf } from './site-wind.ts';
import { type DefectStrength, lossAt, type Strength } from './strength.ts';

/** Load of a section after a reduction, computed from the outline of the crown and at half the effect. */
export interface SectionLoad {
  readonly defect: DefectStrength;
  /** Bending moment after over before, at the defect's height. */
  readonly momentRatio: Interval;
  /** Moment ratio over remaining strength; 1 is the sound stem under the full crown. */
  readonly stressRatio: Interval;
  /** The same at half the effect, for information only. */
  readonly stressAtLeastEffect: Interval;
}

export interface PrescriptionLoad {
  readonly prescription: Prescription;
  /** At ground level. */
  readonly momentRatio: Interval;
  readonly momentAtLeastEffect: Interval;
  /** Dose by the stated dimensions. */
  readonly dose: Interval;
  readonly sections: readonly SectionLoad[];
}

/** Explains the second figure. */
export const LEAST_EFFECT =
  'Half the effect is a judgment: in wind trials the moment followed the removed mass, and the share of the crown’s area was a poor predictor.';

/** A limb carries only its own part of the crown. */
export const isOnLimb = ({ parts }: Tree, { part }: Defect): boolean =>
  part !== undefined && parts.some(({ kind, name }) => kind === 'limb' && name.value === part.value);

/** Defects on the trunk or a stem that carry the bending moment of the crown. */
export function loadedDefects(
  tree: Tree,
  { defects }: Strength,
  top: number,
): readonly (DefectStrength & { readonly height: Interval })[] {
  return defects.filter(
    (defect): defect is DefectStrength & { readonly height: Interval } =>
      defect.height !== undefined && defect.height.high < top && !isOnLimb(tree, defect.hollow.defect),
  );
}

/** Undefined if the prescription has no dimensions or the crown is unknown. */
export function loadUnder(
  tree: Tree,
  prescription: Prescription,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): PrescriptionLoad | undefined {
  const reduction = crownReduction(tree, prescription, settings);
  if (!reduction) return undefined;
  const momentRatio = momentUnder(reduction, exact(0), windsOf(tree, site, settings));
  return {
    prescription,
    momentRatio,
    momentAtLeastEffect: atLeastEffect(momentRatio),
    dose: doseBounds(reduction.crown, reduction.change),
    sections: sectionsUnder(tree, reduction, strength, site, settings),
  };
}

/** A part of which a pull test says what it bears in the design wind. */
export interface MeasuredPart {
  /** For the middle of a sentence: `the root plate`, `the stem at 6 ft`. */
  readonly name: string;
  /** m above ground. */
  readonly height: Interval;
  /** Resistance over load, against its limit. */
  readonly judged: Judged;
}

/** Its factor under a smaller crown, from the outline of the crown to half the effect. */
export interface EasedPart {
  readonly name: string;
  readonly judged: Judged;
}

const easedBy = (
  { name, height, judged }: MeasuredPart,
  reduction: CrownReduction,
  winds: readonly WindSite[],
  settings: Settings,
): EasedPart => {
  const ratio = momentUnder(reduction, height, winds);
  // No section is compared with itself here, so half the effect is in the range.
  const left = hull(ratio, atLeastEffect(ratio));
  return { name, judged: judge(factorUnder(judged.value, left), 'safety-factor', settings) };
};

/** The factor once the moment of the wind has this share; the weight of a leaning tree counts as before. */
const factorUnder = ({ low, high }: Interval, left: Interval): Interval =>
  interval(low / left.high, left.low > 0 ? high / left.low : Number.POSITIVE_INFINITY);

/** Every part under a prescription; undefined without dimensions, or if a part is above the crown. */
export function easedUnder(
  parts: readonly MeasuredPart[],
  prescription: Prescription,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): readonly EasedPart[] | undefined {
  const reduction = crownReduction(tree, prescription, settings);
  if (!reduction || !parts.every(({ height }) => height.high < reduction.crown.top.low)) return undefined;
  const winds = windsOf(tree, site, settings);
  return parts.map(part => easedBy(part, reduction, winds, settings));
}

/** Bending moment after over before, in all winds that the records allow. */
const momentUnder = (
  { crown, change }: CrownReduction,
  height: Interval,
  winds: readonly WindSite[],
): Interval => hull(...winds.map(wind => momentRatioBounds(crown, change, height, wind)));

export const sectionsUnder = (
  tree: Tree,
  reduction: CrownReduction,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): readonly SectionLoad[] =>
  loadedDefects(tree, strength, reduction.crown.top.low).map(defect => {
    const ratio = momentUnder(reduction, defect.height, windsOf(tree, site, settings));
    const loss = lossAt(defect, strength);
    return {
      defect,
      momentRatio: ratio,
      stressRatio: stressRatio(ratio, loss),
      stressAtLeastEffect: stressRatio(atLeastEffect(ratio), loss),
    };
  });

/** Undefined if a reading is missing or leaves no crown. */
export function crownOf(tree: Tree, settings: Settings): Crown<Interval> | undefined {
  if (!tree.crownBase || !tree.height || !tree.crownSpread) return undefined;
  const crown = {
    base: valuesOf(tree.crownBase.value, settings),
    top: valuesOf(tree.height.value, settings),
    spread: valuesOf(tree.crownSpread.value, settings),
  };
  const stands =
    crown.base.low >= 0 &&
    crown.base.high < crown.top.low &&
    crown.spread.low > 0 &&
    Number.isFinite(crown.top.high + crown.spread.high);
  return stands ? crown : undefined;
}

export interface Offset extends OffsettingReduction {
  /** The same with every loss at its lower end; the difference depends on readings. */
  readonly atBest: OffsettingReduction;
  /** Limit on the dose of one season. */
  readonly seasonLimit: number;
  /** The hollows whose loss it offsets. */
  readonly hollows: readonly Defect[];
  /** The most stressed section under the reduction; undefined without a hollow. */
  readonly stressRatio: Interval | undefined;
  /** The same at half the effect. */
  readonly stressAtLeastEffect: Interval | undefined;
  /** Under the reduction. */
  readonly eased: readonly EasedPart[];
  /** The remaining crown. */
  readonly crown: Crown<Interval>;
}

const NO_PARTS: readonly MeasuredPart[] = [];

/**
 * The smallest reduction of height and spread that brings every section, at its worst loss, to the stress of a sound
 * stem, and every measured part to the limit of its factor. Undefined if it cannot be computed; see `missingForOffset`.
 */
export const offsetOf = (
  tree: Tree,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
  measured = NO_PARTS,
): Offset | undefined => offsetUnder(strength, tree, site, settings, measured);

/** It is searched for. By strength, of which a tree may have several: of all its hollows, and of some. */
const offsetUnder = memo(
  (
    strength: Strength,
    tree: Tree,
    site: Site | undefined,
    settings: Settings,
    measured: readonly MeasuredPart[],
  ): Offset | undefined => {
    const crown = crownOf(tree, settings);
    const defects = crown ? loadedDefects(tree, strength, crown.top.low) : [];
    if (!crown || defects.length + measured.length === 0) return undefined;
    const seasonLimit = settings.limit(strictest(doseLimitsOf(tree, 'reduce'), settings)).value;
    const reachLimit = settings.limit('total-reduction').value;
    const sites = windsOf(tree, site, settings);
    const losing = (end: 'low' | 'high') => ({
      crown,
      sections: [
        ...defects.map(defect => ({
          height: defect.height,
          strengthLoss: Math.min(1, Math.max(0, lossAt(defect, strength)[end])),
        })),
        ...measured.map(part => ({ height: part.height, strengthLoss: shortOf(part, end) })),
      ],
      sites,
      seasonLimit,
      reachLimit,
    });
    const worst = offsettingReduction(losing('high'));
    const { top, spread, reduction } = worst;
    const isAll = reduction === 1;
    const change = reduction === 0 || isAll ? {} : { top: exact(top), spread: exact(spread) };
    const sections = isAll
      ? []
      : sectionsUnder(tree, { crown, change }, { ...strength, defects }, site, settings);
    const most = (ratios: readonly Interval[]): Interval | undefined =>
      defects.length === 0
        ? undefined
        : interval(
            Math.max(0, ...ratios.map(({ low }) => low)),
            Math.max(0, ...ratios.map(({ high }) => high)),
          );
    return {
      ...worst,
      atBest: offsettingReduction(losing('low'), 'perhaps'),
      seasonLimit,
      hollows: defects.map(({ hollow }) => hollow.defect),
      stressRatio: most(sections.map(section => section.stressRatio)),
      stressAtLeastEffect: most(sections.map(section => section.stressAtLeastEffect)),
      eased: isAll ? [] : measured.map(part => easedBy(part, { crown, change }, sites, settings)),
      crown: { ...crown, ...change, ...(isAll ? { top: crown.base } : {}) },
    };
  },
);

/**
 * What the moment of the wind has to lose at a part, as the loss of a section: at the worst the cut does half of what the
 * outline says, at the best all of it.
 */
function shortOf({ judged: { value, setting } }: MeasuredPart, end: 'low' | 'high'): number {
  const loss = end === 'high' ? 2 * (1 - value.low / setting.value) : 1 - value.high / setting.value;
  return Math.min(1, Math.max(0, loss));
}

/** Measured parts under the greatest reduction whose dose stays within a share of the foliage. */
export function easedWithin(
  most: number,
  parts: readonly MeasuredPart[],
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): { readonly reduction: number; readonly eased: readonly EasedPart[] } | undefined {
  const crown = crownOf(tree, settings);
  if (!crown) return undefined;
  const { reduction, top, spread } = greatestReduction(crown, most);
  const change = reduction > 0 ? { top: exact(top), spread: exact(spread) } : {};
  const winds = windsOf(tree, site, settings);
  return { reduction, eased: parts.map(part => easedBy(part, { crown, change }, winds, settings)) };
}

/** What is missing to compute the offset, for the middle of a sentence. */
export function missingForOffset(tree: Tree, strength: Strength, settings: Settings): string | undefined {
  const unstated = [
    ...(tree.height ? [] : ['height']),
    ...(tree.crownBase ? [] : ['crown base']),
    ...(tree.crownSpread ? [] : ['crown spread']),
  ];
  if (unstated.length > 0) return `the ${listed(unstated)} of the tree ${is(unstated)} not recorded`;
  const crown = crownOf(tree, settings);
  if (!crown) return 'the recorded height, crown base and spread may leave no crown';
  if (loadedDefects(tree, strength, crown.top.low).length > 0) return undefined;
  const onStem = strength.defects.filter(({ hollow: { defect } }) => !isOnLimb(tree, defect));
  if (onStem.length === 0)
    return strength.defects.length > 0
      ? 'the cavities are on limbs, which carry only their own branches'
      : 'no cross-section was measured';
  const unplaced = onStem.filter(({ height }) => !height);
  if (unplaced.length > 0) return `the height of ${idsOf(unplaced)} is not recorded`;
  return `${idsOf(onStem)} may be above the recorded top of the tree`;
}

const is = (things: readonly unknown[]): string => (things.length === 1 ? 'is' : 'are');
const idsOf = (defects: readonly DefectStrength[]): string =>
  listed(defects.map(({ hollow }) => hollow.defect.id.value));
