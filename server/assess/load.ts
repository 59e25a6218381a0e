/** Wind on the crown before and after a prescription, and what the weakest section would need. */

import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Site, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import { endsOf, hull, type Interval, interval } from '../mechanics/interval.ts';
import { type OffsettingReduction, offsettingReduction } from '../mechanics/offsetting.ts';
import {
  doseBounds,
  momentRatio,
  momentRatioBounds,
  reducedCrown,
  stressRatio,
} from '../mechanics/reduction.ts';
import type { Exposure, WindSite } from '../mechanics/wind.ts';
import { crownReduction } from './crowns.ts';
import { doseLimitsOf } from './doses.ts';
import { strictest } from './judge.ts';
import { type DefectStrength, lossAt, type Strength } from './strength.ts';

/** The edition whose profile is used; ratios of moments differ little between editions. */
const EDITION = 'ASCE 7-16';

/** The site's exposure, or all of them where nobody stated it: unknown is not a default. */
export function exposuresOf(site: Site | undefined): readonly WindSite[] {
  const stated = site?.wind?.exposure;
  const exposures: readonly Exposure[] = stated ? [stated] : ['B', 'C', 'D'];
  return exposures.map(exposure => ({ exposure, edition: EDITION }));
}

export interface SectionLoad {
  readonly defect: DefectStrength;
  /** Bending moment after over before, at the defect's height. */
  readonly momentRatio: Interval;
  /** Moment ratio over what is left of the strength; 1 is the sound stem under the full crown. */
  readonly stressRatio: Interval;
}

export interface PrescriptionLoad {
  readonly prescription: Prescription;
  /** At ground level. */
  readonly momentRatio: Interval;
  /** The dose that the stated dimensions amount to. */
  readonly dose: Interval;
  readonly sections: readonly SectionLoad[];
}

/**
 * Defects on the trunk or a stem below the top, with their height: the crown bends these. A limb carries only
 * what grows on it, of which the tree's crown says nothing.
 */
export function loadedDefects(
  tree: Tree,
  { defects }: Strength,
  top: number,
): readonly (DefectStrength & { readonly height: Interval })[] {
  const limbs = new Set(tree.parts.filter(({ kind }) => kind === 'limb').map(({ name }) => name.value));
  return defects.filter(
    (defect): defect is DefectStrength & { readonly height: Interval } =>
      defect.height !== undefined &&
      defect.height.high < top &&
      !limbs.has(defect.hollow.defect.part?.value ?? ''),
  );
}

/** What a prescription's dimensions do; undefined where it states none, or the crown is not written down. */
export function loadUnder(
  tree: Tree,
  prescription: Prescription,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): PrescriptionLoad | undefined {
  const reduction = crownReduction(tree, prescription, settings);
  if (!reduction) return undefined;
  const { crown, change } = reduction;
  const at = (height: Interval): Interval =>
    hull(...exposuresOf(site).map(wind => momentRatioBounds(crown, change, height, wind)));
  const sections = loadedDefects(tree, strength, crown.top.low).map((defect): SectionLoad => {
    const ratio = at(defect.height);
    return { defect, momentRatio: ratio, stressRatio: stressRatio(ratio, lossAt(defect, strength)) };
  });
  return { prescription, momentRatio: at(interval(0, 0)), dose: doseBounds(crown, change), sections };
}

/** The crown as the tree states it; undefined where a reading is missing or leaves none. */
export function crownOf(tree: Tree, settings: Settings): Crown<Interval> | undefined {
  if (!tree.crownBase || !tree.height || !tree.crownSpread) return undefined;
  const crown = {
    base: reading(tree.crownBase.value, settings),
    top: reading(tree.height.value, settings),
    spread: reading(tree.crownSpread.value, settings),
  };
  const stands =
    crown.base.low >= 0 &&
    crown.base.high < crown.top.low &&
    crown.spread.low > 0 &&
    Number.isFinite(crown.top.high + crown.spread.high);
  return stands ? crown : undefined;
}

export interface Offset extends OffsettingReduction {
  /** The same with every loss at its lower end: what is between the two hangs on a reading. */
  readonly atBest: OffsettingReduction;
  /** Share of the foliage that one season may take from this tree. */
  readonly seasonLimit: number;
  /** The most stressed section under the reduction. */
  readonly stressRatio: Interval;
  /** The crown that is left. */
  readonly crown: Crown<Interval>;
}

/**
 * The smallest uniform reduction that brings every section to the stress of a sound stem, at its worst loss.
 * Undefined where the crown, or every height of a section, is not written down.
 */
export function offsetOf(
  tree: Tree,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): Offset | undefined {
  const before = knownOffsets.get(tree);
  if (before?.strength === strength && before.site === site && before.settings === settings)
    return before.offset;
  const offset = computeOffset(tree, strength, site, settings);
  knownOffsets.set(tree, { strength, site, settings, offset });
  return offset;
}

/** Several rules ask for the same tree's offset, and it is searched for. */
const knownOffsets = new WeakMap<
  Tree,
  { strength: Strength; site: Site | undefined; settings: Settings; offset: Offset | undefined }
>();

function computeOffset(
  tree: Tree,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): Offset | undefined {
  const crown = crownOf(tree, settings);
  const defects = crown ? loadedDefects(tree, strength, crown.top.low) : [];
  if (!crown || defects.length === 0) return undefined;
  const seasonLimit = settings.limit(strictest(doseLimitsOf(tree, 'reduce'), settings)).value;
  const reachLimit = settings.limit('total-reduction').value;
  // A ratio of moments does not depend on the spread. Of the other readings' ends, the one that asks for most.
  const crowns = endsOf(crown.base).flatMap(base =>
    endsOf(crown.top).map(top => ({ base, top, spread: crown.spread.high })),
  );
  const cases = crowns.flatMap(one => exposuresOf(site).map(wind => ({ one, wind })));
  const most = (end: 'low' | 'high') =>
    offsettingReduction(
      cases.flatMap(({ one, wind }) =>
        defects.flatMap(defect => {
          const strengthLoss = Math.min(1, Math.max(0, lossAt(defect, strength)[end]));
          return endsOf(defect.height).map(height => ({ height, strengthLoss, crowns: [one], site: wind }));
        }),
      ),
      seasonLimit,
      reachLimit,
    );
  const worst = most('high');
  const left = 1 - worst.reduction;
  const stresses = defects.map(defect => {
    const ratios = cases.flatMap(({ one, wind }) =>
      endsOf(defect.height).map(height => {
        if (left === 0) return 0;
        const after = reducedCrown(one, {
          top: one.base + (one.top - one.base) * left,
          spread: one.spread * left,
        });
        return momentRatio([one], [after], height, wind);
      }),
    );
    return stressRatio(interval(Math.min(...ratios), Math.max(...ratios)), lossAt(defect, strength));
  });
  const topAt = (end: 'low' | 'high') => crown.base[end] + (crown.top[end] - crown.base[end]) * left;
  return {
    ...worst,
    atBest: most('low'),
    seasonLimit,
    stressRatio: interval(
      Math.max(...stresses.map(({ low }) => low)),
      Math.max(...stresses.map(({ high }) => high)),
    ),
    crown: {
      base: crown.base,
      top: interval(topAt('low'), topAt('high')),
      spread: interval(crown.spread.low * left, crown.spread.high * left),
    },
  };
}
