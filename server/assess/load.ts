/** Wind on the crown before and after a prescription, and what the weakest section would need. */

import { interval as reading } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Site, Tree } from '../facts/types.ts';
import type { Crown } from '../mechanics/crown.ts';
import { hull, type Interval } from '../mechanics/interval.ts';
import { type OffsettingReduction, offsettingReduction } from '../mechanics/offsetting.ts';
import { doseBounds, momentRatioBounds, stressRatio } from '../mechanics/reduction.ts';
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
  /** At the foot of the crown's stem: ground level. */
  readonly momentRatio: Interval;
  /** The dose that the stated dimensions amount to. */
  readonly dose: Interval;
  readonly sections: readonly SectionLoad[];
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
  const at = (height: number): Interval =>
    hull(
      ...exposuresOf(site).map(wind => momentRatioBounds(crown, change, { low: height, high: height }, wind)),
    );
  const sections = strength.defects.flatMap((defect): SectionLoad[] => {
    if (defect.height === undefined || defect.height >= crown.top.low) return [];
    const momentRatio = at(defect.height);
    return [{ defect, momentRatio, stressRatio: stressRatio(momentRatio, lossAt(defect, strength)) }];
  });
  return { prescription, momentRatio: at(0), dose: doseBounds(crown, change), sections };
}

/** The crown at its least favourable: it decides which reduction is surely enough. */
export function crownOf(tree: Tree, settings: Settings): Crown<Interval> | undefined {
  if (!tree.crownBase || !tree.height || !tree.crownSpread) return undefined;
  const crown = {
    base: reading(tree.crownBase.value, settings),
    top: reading(tree.height.value, settings),
    spread: reading(tree.crownSpread.value, settings),
  };
  const stands =
    crown.base.high < crown.top.low &&
    crown.spread.low > 0 &&
    Number.isFinite(crown.top.high + crown.spread.high);
  return stands ? crown : undefined;
}

export interface Offset extends OffsettingReduction {
  /** Share of the foliage that one season may take from this tree. */
  readonly seasonLimit: number;
}

/** The smallest uniform reduction that brings every section to the stress of a sound stem, at its worst loss. */
export function offsetOf(
  tree: Tree,
  strength: Strength,
  site: Site | undefined,
  settings: Settings,
): Offset | undefined {
  const crown = crownOf(tree, settings);
  if (!crown || strength.defects.length === 0) return undefined;
  const sections = strength.defects
    .filter(({ height }) => height !== undefined && height < crown.top.low)
    .map(defect => ({ height: defect.height!, strengthLoss: Math.min(1, lossAt(defect, strength).high) }));
  if (sections.length === 0) return undefined;
  const seasonLimit = settings.limit(strictest(doseLimitsOf(tree), settings)).value;
  const reachLimit = settings.limit('total-reduction').value;
  // Of the corners of what is known of the crown, the one that asks for most.
  const corners = [crown.base.low, crown.base.high].flatMap(base =>
    [crown.top.low, crown.top.high].map(top => ({ base, top, spread: crown.spread.high })),
  );
  const all = corners.flatMap(corner =>
    exposuresOf(site).map(wind => offsettingReduction([corner], sections, wind, seasonLimit, reachLimit)),
  );
  const worst = all.reduce((most, one) => (one.reduction > most.reduction ? one : most));
  return { ...worst, seasonLimit };
}
