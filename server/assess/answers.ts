/** Open reductions with the hollows that they respond to, and the reduction that would offset those. */

import { memo } from '../base/memo.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Site, Tree } from '../facts/types.ts';
import { areAbout } from './causes.ts';
import { openPrescriptions } from './jobs.ts';
import { type Judged, judge } from './judge.ts';
import { isOnLimb, type Offset, offsetOf } from './load.ts';
import { type DefectStrength, lossAt, type Strength, strengthOf } from './strength.ts';

export interface AnsweringReduction {
  readonly prescription: Prescription;
  /** Of all hollows. */
  readonly strength: Strength;
  /** Hollows of the stem that it names, and those that may exceed the limit; at least one. */
  readonly answeredStrength: Strength;
  /** The hollows of the stem that it names, and those that may have lost more than the limit; at least one. */
  readonly answered: readonly DefectStrength[];
}

const NONE: readonly AnsweringReduction[] = [];

/** The strength loss against the limit from which on a reduction is called for. */
export const lossJudged = (defect: DefectStrength, strength: Strength, settings: Settings): Judged =>
  judge(lossAt(defect, strength), 'section-loss', settings);

/** Computes no section for a tree without hollows. */
export const answeringReductions = (tree: Tree, settings: Settings): readonly AnsweringReduction[] =>
  tree.prescriptions.length === 0 || tree.defects.length === 0 ? NONE : findAnswering(tree, settings);

const findAnswering = memo((tree: Tree, settings: Settings): readonly AnsweringReduction[] =>
  openPrescriptions(tree).flatMap((prescription): readonly AnsweringReduction[] => {
    if (prescription.kind.value !== 'reduce') return NONE;
    const strength = strengthOf(tree, settings);
    const answered = strength.defects.filter(
      defect =>
        !isOnLimb(tree, defect.hollow.defect) &&
        (areAbout(prescription.for, defect.hollow.defect) ||
          lossJudged(defect, strength, settings).standing !== 'within'),
    );
    if (answered.length === 0) return NONE;
    const isAll = answered.length === strength.defects.length;
    const answeredStrength = isAll ? strength : { ...strength, defects: answered };
    return [{ prescription, strength, answeredStrength, answered }];
  }),
);

/** The smallest reduction that offsets the loss of these hollows. */
export const answeringOffset = (
  tree: Tree,
  { answeredStrength }: AnsweringReduction,
  site: Site | undefined,
  settings: Settings,
): Offset | undefined => offsetOf(tree, answeredStrength, site, settings);
