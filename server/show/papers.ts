/** What is written of the trees of an inventory for one command or request: each tree by itself, so that a fault costs no other. */

import { type Appointment, appointmentsOf } from '../assess/appointments.ts';
import { assess, contextIn } from '../assess/assessment.ts';
import {
  attempt,
  Fault,
  type ItemLocation,
  type LocatedItem,
  type NotComputed,
  notComputed,
} from '../assess/not-computed.ts';
import { stemSafety } from '../assess/safety.ts';
import { seasonOf } from '../assess/season.ts';
import { treeOn } from '../facts/state.ts';
import type { Tree, WrittenTree } from '../facts/types.ts';
import {
  type DatedWorkspace,
  type FileSnapshot,
  nestTreesAround,
  type PlacedFact,
  personIn,
  settingsFor,
  siteOf,
} from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import type { CalendarTree } from './calendar.ts';
import { type History, historyOf } from './history.ts';
import { lifeOf } from './life.ts';
import type { PlacedSeason } from './season.ts';
import type { ExportTree } from './tree-table.ts';
import { isWeighable } from './weigh.ts';
import type { Weighed } from './weighed.ts';

/** A tree that somebody asks for. */
export interface AskedTree {
  /** In the workspace. */
  readonly path: string;
  readonly placed: PlacedFact<WrittenTree>;
  /** Its state on the day. */
  readonly tree: Tree;
  readonly line: number;
}

export const treesIn = (files: readonly FileSnapshot[], today: number): readonly AskedTree[] =>
  files.flatMap(({ path, trees }) =>
    trees.map(placed => ({ path, placed, tree: treeOn(placed.fact, today), line: placed.firstLine + 1 })),
  );

/** Of every tree what could be computed; of the others why not. */
export interface Computed<T> {
  readonly items: readonly LocatedItem<T>[];
  readonly faulty: readonly NotComputed[];
}

type NameOf = (path: string) => string;

/** @param compute undefined where there is nothing to show @param step called after each tree */
function ofEach<T>(
  asked: readonly AskedTree[],
  nameOf: NameOf,
  compute: (asked: AskedTree, file: string) => T | undefined,
  step: () => void = () => {},
): Computed<T> {
  const faulty: NotComputed[] = [];
  const items = asked.flatMap((one): LocatedItem<T>[] => {
    const file = nameOf(one.path);
    const place: ItemLocation = { file, line: one.line, what: `tree ${one.tree.tag.value}` };
    const of = attempt(() => compute(one, file));
    step();
    if (of instanceof Fault) faulty.push(notComputed(place, of));
    return of === undefined || of instanceof Fault ? [] : [{ place, of }];
  });
  return { items, faulty };
}

/** @param isByTag whether the trees were named: then also those without something to weigh are shown */
export const weighedTrees = (
  dated: DatedWorkspace,
  asked: readonly AskedTree[],
  nameOf: NameOf,
  isByTag: boolean,
  step?: () => void,
): Computed<Weighed> =>
  ofEach(
    asked,
    nameOf,
    ({ path, tree }, file) => {
      const context = contextIn(dated, path, tree);
      const { site, settings } = context;
      const assessment = assess(context);
      if (!isByTag && !isWeighable(assessment)) return undefined;
      const safety = stemSafety(tree, assessment.strength, site, settings);
      return { tree, file, site, settings, assessment, safety };
    },
    step,
  );

export const histories = (
  dated: DatedWorkspace,
  asked: readonly AskedTree[],
  nameOf: NameOf,
  step?: () => void,
  edits: ReadonlyMap<PlacedFact, History['edits']> = new Map(),
): Computed<History> =>
  ofEach(
    asked,
    nameOf,
    ({ path, placed, tree }, file) => {
      const history = historyOf(contextIn(dated, path, tree), file, lifeOf(tree, placed.block, dated.today));
      const made = edits.get(placed);
      return made ? { ...history, edits: made } : history;
    },
    step,
  );

/** What was done at each tree from a day to that of the workspace, what changed and what is due. */
export const seasons = (
  { workspace, today }: DatedWorkspace,
  files: readonly FileSnapshot[],
  from: number,
  nameOf: NameOf,
): Computed<PlacedSeason> =>
  ofEach(treesIn(files, today), nameOf, ({ path, placed }, file) => {
    const context = { site: siteOf(workspace, path), settings: settingsFor(workspace, path, today) };
    return { ...seasonOf(placed.fact, from, today, context), file, region: context.settings.region };
  });

/** The appointments of all trees of some files. */
export function calendarTrees(
  dated: DatedWorkspace,
  files: readonly FileSnapshot[],
  nameOf: NameOf,
): { readonly trees: readonly CalendarTree[]; readonly faulty: readonly NotComputed[] } {
  const found = files.flatMap(({ path, trees }) => {
    const daysOf = calendarOf(dated, path, nameOf(path));
    return trees.map(daysOf);
  });
  return { trees: found.map(({ tree }) => tree), faulty: found.flatMap(({ faulty }) => faulty ?? []) };
}

/** What the days of the trees of a file depend on. */
function daysIn({ workspace, today }: DatedWorkspace, path: string) {
  return {
    site: siteOf(workspace, path),
    settings: settingsFor(workspace, path, today),
    today,
    person: personIn(workspace),
    crew: (id: string) => workspace.crews.get(id)?.fact,
    nestTreesNear: nestTreesAround(workspace, path),
  };
}

/** The appointments of the trees of a file. */
export function calendarOf(
  dated: DatedWorkspace,
  path: string,
  file: string,
): (placed: PlacedFact<WrittenTree>) => {
  readonly tree: CalendarTree;
  readonly faulty: NotComputed | undefined;
} {
  const around = daysIn(dated, path);
  const { site, today } = around;
  return ({ fact, firstLine }) => {
    const tree = treeOn(fact, today);
    const days = attempt(() => appointmentsOf({ ...around, tree }));
    if (!(days instanceof Fault))
      return { tree: { tree, site, file, appointments: days }, faulty: undefined };
    return {
      tree: { tree, site, file, appointments: [missing(today)] },
      faulty: notComputed({ file, line: firstLine + 1, what: `tree ${tree.tag.value}` }, days),
    };
  };
}

/** The rows of the trees of a file, with what is found and due. */
export function judgedTreesOf(
  dated: DatedWorkspace,
  path: string,
  file: string,
): (placed: PlacedFact<WrittenTree>, findings: readonly Finding[]) => ExportTree {
  const around = daysIn(dated, path);
  const { site, settings, today } = around;
  return (placed, findings) => ({
    placed,
    file,
    site,
    settings,
    judged: { findings, context: { ...around, tree: treeOn(placed.fact, today) } },
  });
}

/** A placeholder: a tree whose days were not computed must not look like one without appointments. */
const missing = (today: number): Appointment => ({
  kind: 'not computed',
  subject: 'tree',
  title: 'the days to keep were not computed',
  notes: ['A mistake in the program: read the record for windows, checks and follow-ups.'],
  who: [],
  from: today,
  to: today,
});
