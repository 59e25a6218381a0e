/** The complete assessment of one tree. */

import type { NestTreesNear } from '../facts/nest-index.ts';
import type { Settings } from '../facts/settings.ts';
import { treeOn } from '../facts/state.ts';
import type { Crew, Person, Prescription, Site, Tree, WrittenTree } from '../facts/types.ts';
import {
  crewIn,
  type DatedWorkspace,
  nestTreesAround,
  personIn,
  settingsFor,
  siteOf,
} from '../facts/workspace.ts';
import { openPrescriptions } from './jobs.ts';
import { type LeanSafety, leanSafety } from './lean-safety.ts';
import { limbsOf } from './limb-safety.ts';
import { loadUnder, type Offset, offsetOf, type PrescriptionLoad } from './load.ts';
import { type Mill, millOf } from './mill.ts';
import { type Option, optionsFor } from './options.ts';
import { pulledParts } from './pull-tests.ts';
import { type Rigging, riggingsOf } from './rigging.ts';
import { type Settles, settlesDefect } from './settles.ts';
import { type ViewShare, viewsUnder } from './sightlines.ts';
import { type Sign, signsOf } from './signs.ts';
import { type DesignWind, designWind } from './site-wind.ts';
import { byStanding } from './standing.ts';
import { type Strength, strengthOf } from './strength.ts';

export interface Assessment {
  readonly strength: Strength;
  /** The first open prescription with dimensions, else the first felling. */
  readonly prescription: Prescription | undefined;
  /** Under each open prescription with dimensions. */
  readonly loads: readonly PrescriptionLoad[];
  readonly offset: Offset | undefined;
  /** Before, and under `prescription`. */
  readonly views: readonly ViewShare[];
  readonly settles: readonly Settles[];
  readonly wind: DesignWind | undefined;
  /** Of a leaning tree; why there is no figure, where there is none. */
  readonly lean: LeanSafety | string | undefined;
  /** Limbs with a figure, or the reason for none. */
  readonly limbs: ReturnType<typeof limbsOf>;
  /** In descending severity. */
  readonly signs: readonly Sign[];
  readonly options: readonly Option[];
  /** Of the open work whose piece is lowered on a rope. */
  readonly riggings: readonly Rigging[];
  /** What its logs would yield; why not, where that is not known; undefined for a tree nobody would mill. */
  readonly mill: Mill | string | undefined;
}

export interface AssessmentContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
  /** Day number. */
  readonly today: number;
}

/** @param path of the tree's file in the workspace */
export const contextIn = (
  { workspace, today }: DatedWorkspace,
  path: string,
  tree: WrittenTree,
): AssessmentContext & { readonly nestTreesNear: NestTreesNear } => ({
  tree: treeOn(tree, today),
  site: siteOf(workspace, path),
  settings: settingsFor(workspace, path, today),
  person: personIn(workspace),
  crew: crewIn(workspace),
  today,
  nestTreesNear: nestTreesAround(workspace, path),
});

export function assess({ tree, site, settings, person, crew, today }: AssessmentContext): Assessment {
  const strength = strengthOf(tree, settings);
  const open = openPrescriptions(tree);
  const loads = open.flatMap(prescription => loadUnder(tree, prescription, strength, site, settings) ?? []);
  const prescription = loads[0]?.prescription ?? open.find(({ kind }) => kind.value === 'fell');
  const measured = pulledParts(tree, site, settings);
  const offset = offsetOf(tree, strength, site, settings, measured);
  const views = viewsUnder(tree, prescription, settings);
  const settles = strength.defects.flatMap(defect => settlesDefect(defect, settings) ?? []);
  const signs = [...signsOf({ tree, site, settings })].sort(byStanding);
  const options = optionsFor({
    tree,
    site,
    signs,
    strength,
    offset,
    measured,
    views,
    settings,
    person,
    today,
  });
  const lean = leanSafety(tree, site, settings);
  return {
    strength,
    prescription,
    loads,
    offset,
    views,
    settles,
    wind: designWind(tree, site, settings),
    lean,
    limbs: limbsOf(tree, site, settings),
    signs,
    options,
    riggings: riggingsOf(tree, crew, settings),
    mill: millOf(tree, settings),
  };
}
