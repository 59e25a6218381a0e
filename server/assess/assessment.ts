/** Everything that is judged of one tree, as intervals, and what would settle what is open. */

import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { openPrescriptions } from './jobs.ts';
import { loadUnder, type Offset, offsetOf, type PrescriptionLoad } from './load.ts';
import { type Option, optionsFor } from './options.ts';
import { type Settles, settlesDefect } from './settles.ts';
import { type ViewShare, viewsUnder } from './sightlines.ts';
import { type Strength, strengthOf } from './strength.ts';

export interface Assessment {
  readonly strength: Strength;
  /** Under each open prescription that states dimensions. */
  readonly loads: readonly PrescriptionLoad[];
  readonly offset: Offset | undefined;
  /** Before, and after the first open prescription. */
  readonly views: readonly ViewShare[];
  readonly settles: readonly Settles[];
  readonly options: readonly Option[];
}

export interface AssessmentContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly today: number;
}

export function assess({ tree, site, settings, today }: AssessmentContext): Assessment {
  const strength = strengthOf(tree, settings);
  const prescriptions = openPrescriptions(tree);
  const loads = prescriptions.flatMap(
    prescription => loadUnder(tree, prescription, strength, site, settings) ?? [],
  );
  const offset = offsetOf(tree, strength, site, settings);
  const views = viewsUnder(tree, prescriptions[0], settings);
  const settles = strength.defects.flatMap(defect => settlesDefect(defect, settings) ?? []);
  const options = optionsFor({ tree, strength, loads, offset, views, settles, settings, today });
  return { strength, loads, offset, views, settles, options };
}
