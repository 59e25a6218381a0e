/** Everything that the program says of one ordinary tree, in process: the one place that knows how it is asked. */

import { appointmentsOf } from '../../server/assess/appointments.ts';
import { assess } from '../../server/assess/assessment.ts';
import { ratedLikelihoods, treeLikelihood } from '../../server/assess/likelihood.ts';
import { stemSafety } from '../../server/assess/safety.ts';
import { parseDate } from '../../server/base/dates.ts';
import { treeOn } from '../../server/facts/state.ts';
import {
  buildWorkspace,
  crewIn,
  nestTreesAround,
  personIn,
  readFile,
  settingsFor,
  siteOf,
  type Workspace,
} from '../../server/facts/workspace.ts';
import { hover } from '../../server/language/hover.ts';
import { READERS, type Reader } from '../../server/report/data.ts';
import { reportPage } from '../../server/report/inventory-report.ts';
import { checkFile, type Finding } from '../../server/rules/check.ts';
import { ruleNamed } from '../../server/rules/registry.ts';
import { showCalendar } from '../../server/show/calendar.ts';
import { treesCsv } from '../../server/show/export-csv.ts';
import { treesGeoJson } from '../../server/show/export-geojson.ts';
import { factsJsonLines } from '../../server/show/export-jsonl.ts';
import { allRows } from '../../server/show/row-form.ts';
import { plain } from '../../server/show/terminal.ts';
import { showWeighed } from '../../server/show/weigh.ts';
import { weighedJson } from '../../server/show/weigh-json.ts';
import type { Weighed } from '../../server/show/weighed.ts';
import { type OrdinaryTree, showTree } from './record.ts';

export const TODAY = parseDate('2026-06-01')!;

const PEOPLE = `person RV "Ruth Varga"
  qualified consulting arborist
person TL "Tove Lindqvist"
  qualified consulting arborist, climbing arborist
person JM "Jonah Mraz"
  qualified climbing arborist, ground worker
person HK "Hana Kowal"
  qualified wildlife biologist, bat worker
crew ROPE "Rope crew"
  members JM, TL
  qualified climbing arborist, ground worker
  rope 400 lb
  line 72 kN, stretches 2 %, spliced
  block 100 kN
  sling 80 kN
crew CRANE "Crane crew"
  members JM
  qualified climbing arborist, ground worker, crane operator
  rope 600 lb
  crane 6000 lb at 60 ft
`;

/** One that writes feet and inches, and one that writes metres. */
const SITES: Readonly<Record<OrdinaryTree['site'], string>> = {
  town: `site "Alderbrook"
  region US-OR
  position 44.31, -122.87
  wind 92 mph, exposure B
  interval 36 months
  grounds street
${PEOPLE}`,
  parish: `site "Holm parish"
  region GB
  position 52.21, -1.53
  wind 41 m/s, exposure C
  interval 36 months
  grounds public park
${PEOPLE}`,
};

const around = {
  town: readFile('site.wood', SITES.town),
  parish: readFile('site.wood', SITES.parish),
};

const PATH = 'tree.wood';

const workspaceOf = (tree: OrdinaryTree): Workspace =>
  buildWorkspace([around[tree.site], readFile(PATH, showTree(tree))]);

const fileIn = (workspace: Workspace) => workspace.files.get(PATH)!;

/** What is said of the tree; what is wrong with the text itself would be a fault of the generator. */
export function findingsOn(tree: OrdinaryTree): readonly Finding[] {
  const workspace = workspaceOf(tree);
  const found = checkFile(workspace, fileIn(workspace), TODAY);
  const mistake = found.find(({ grade }) => grade === 'syntax');
  if (mistake) throw new Error(`${mistake.message} in line ${mistake.line} of\n${showTree(tree)}`);
  return found;
}

export const groupOf = ({ rule }: Finding): string | undefined => ruleNamed(rule)?.group;

function weighedOf(workspace: Workspace): Weighed {
  const file = fileIn(workspace);
  const tree = treeOn(file.trees[0]!.fact, TODAY);
  const site = siteOf(workspace, PATH);
  const settings = settingsFor(workspace, PATH);
  const assessment = assess({
    tree,
    site,
    settings,
    person: personIn(workspace),
    crew: crewIn(workspace),
    today: TODAY,
  });
  const safety = stemSafety(tree, assessment.strength, site, settings);
  return { tree, file: PATH, site, settings, assessment, safety };
}

/** What of the published form of `weigh --as json` the properties look at. */
export interface WeighedTree {
  readonly signs: readonly { readonly standing: string; readonly subject: string }[];
  readonly options: readonly {
    readonly option: string;
    readonly support: string;
    readonly because: readonly string[];
  }[];
}

export function weighed(tree: OrdinaryTree): WeighedTree {
  const json = weighedJson({ on: TODAY, trees: [weighedOf(workspaceOf(tree))], unread: [] });
  return JSON.parse(json).trees[0];
}

export const weighedText = (tree: OrdinaryTree): string => showWeighed([weighedOf(workspaceOf(tree))], plain);

async function pageOf(workspace: Workspace, readers: readonly Reader[]): Promise<string> {
  const { page } = await reportPage(
    { workspace, today: TODAY },
    {
      files: [fileIn(workspace)],
      readers,
      unread: [],
      shown: path => path,
      photosOf: async () => [],
      weighed: () => {},
    },
  );
  return page;
}

export const clientPage = (tree: OrdinaryTree): Promise<string> => pageOf(workspaceOf(tree), ['client']);

const dates = (workspace: Workspace) => {
  const tree = treeOn(fileIn(workspace).trees[0]!.fact, TODAY);
  const site = siteOf(workspace, PATH);
  const settings = settingsFor(workspace, PATH);
  const appointments = appointmentsOf({
    tree,
    site,
    settings,
    today: TODAY,
    person: () => undefined,
    crew: () => undefined,
    nestTreesNear: nestTreesAround(workspace, PATH),
  });
  return { tree, site, file: PATH, appointments };
};

/** The likelihood of failure of a tree and its parts, and what people rated beside it. */
export function likelihoodOf(tree: OrdinaryTree) {
  const workspace = workspaceOf(tree);
  const context = {
    tree: treeOn(fileIn(workspace).trees[0]!.fact, TODAY),
    site: siteOf(workspace, PATH),
    settings: settingsFor(workspace, PATH),
  };
  return { found: treeLikelihood(context), rated: ratedLikelihoods(context) };
}

/** Days on which the calendar has something of this kind. */
export const appointmentsNamed = (tree: OrdinaryTree, kind: string) =>
  dates(workspaceOf(tree)).appointments.filter(appointment => appointment.kind === kind);

function exports(workspace: Workspace): readonly string[] {
  const settings = settingsFor(workspace, PATH);
  const site = siteOf(workspace, PATH);
  const { facts, trees } = fileIn(workspace);
  const rows = trees.map(placed => ({ placed, file: PATH, site, settings }));
  return [
    allRows(treesCsv, rows),
    allRows(treesGeoJson, rows),
    [
      ...allRows(
        factsJsonLines,
        facts.map(placed => ({ placed, file: PATH, settings })),
      ),
    ].join(''),
  ];
}

/** Hovers over the first word and the last of every line. */
function hovers(workspace: Workspace): readonly string[] {
  const file = fileIn(workspace);
  const words = [...file.text.matchAll(/\S+(?=[^\S\n]*\n)|(?<=^[^\S\n]*)\S+/gm)];
  return words.map(({ index }) => hover({ workspace, today: TODAY }, file, index)?.markdown ?? '');
}

/** Everything that is put out of a tree, by the command or the editor's question. */
export const OUTPUTS: Readonly<Record<string, (tree: OrdinaryTree) => unknown | Promise<unknown>>> = {
  check: tree => {
    const failed = findingsOn(tree).find(({ rule }) => rule === 'internal-error');
    if (failed) throw new Error(failed.message);
  },
  'weigh, as text': weighedText,
  'weigh, as JSON': weighed,
  report: tree => pageOf(workspaceOf(tree), READERS),
  calendar: tree => showCalendar([dates(workspaceOf(tree))], TODAY),
  export: tree => exports(workspaceOf(tree)),
  hover: tree => hovers(workspaceOf(tree)),
};
