/** The report on files of a workspace, computed tree by tree. */

import type { Block, BlockSection } from '../../grammar/syntax.ts';
import { sectionAt } from '../../grammar/syntax.ts';
import { lastAtMost } from '../../grammar/text.ts';
import { assess, contextIn } from '../assess/assessment.ts';
import { isUninspected } from '../assess/evidence.ts';
import {
  attempt,
  Fault,
  type LocatedItem,
  type NotComputed,
  notComputed,
  showSound,
} from '../assess/not-computed.ts';
import { photoSeries, treePhotos } from '../assess/photo-series.ts';
import { readTraces } from '../assess/traces.ts';
import { urgencyOf } from '../assess/urgency.ts';
import { folderOf, foldersUp } from '../facts/paths.ts';
import { treeOn } from '../facts/state.ts';
import type { Prescription, Tree, WrittenTree } from '../facts/types.ts';
import {
  type DatedWorkspace,
  type FileSnapshot,
  filesNamed,
  type PlacedFact,
  placedSiteOf,
  type Workspace,
} from '../facts/workspace.ts';
import { checkFile, type Finding } from '../rules/check.ts';
import { mistakesIn } from '../rules/finding.ts';
import { elevationPicture } from '../show/drawing/elevation-picture.ts';
import { historyPicture, type Picture, sectionPicture, tracePicture } from '../show/drawing/pictures.ts';
import { historyOf, isSeenAgain } from '../show/history.ts';
import { readInRegion } from '../show/in-region.ts';
import { lifeOf } from '../show/life.ts';
import type { ReportData, ReportPhoto, ReportTree } from './data.ts';
import { needsNow, type TreeNeed } from './overview.ts';
import { showReport } from './page.ts';

export interface ReportRequest
  extends Pick<ReportData, 'readers' | 'crewLanguage' | 'since' | 'unread' | 'shown' | 'index'> {
  readonly files: readonly FileSnapshot[];
  readonly photosOf: (tree: Tree, file: FileSnapshot) => Promise<readonly ReportPhoto[]>;
  /** Called and awaited after each tree; rejects to stop. */
  readonly weighed: () => Promise<void> | void;
}

export interface ReportPage {
  /** HTML. */
  readonly page: string;
  /** Trees that could not be computed; the page lists them. */
  readonly left: readonly NotComputed[];
  readonly findings: readonly Finding[];
  /** Of the trees that need something now. */
  readonly needsNow: readonly TreeNeed[];
  /** How many trees have no inspection on record. */
  readonly uninspected: number;
}

export async function reportPage(snapshot: DatedWorkspace, wanted: ReportRequest): Promise<ReportPage> {
  const { workspace, today } = snapshot;
  const { files, photosOf, weighed, unread, readers, crewLanguage, since, shown: shownAs, index } = wanted;
  const trees: LocatedItem<ReportTree>[] = [];
  const faulty: NotComputed[] = [];
  const findings: Finding[] = [];
  for (const file of files) {
    // Of a file some of whose blocks are on other pages, those of its own.
    const from = file.starts[0]!;
    const found = checkFile(workspace, file, today).filter(
      ({ start }) => from <= start && start <= file.length,
    );
    findings.push(...found);
    const name = shownAs(file.path);
    for (const placed of file.trees) {
      const { fact, firstLine } = placed;
      const place = { file: name, line: firstLine + 1, what: `tree ${fact.tag.value}` };
      const tree = treeOn(fact, today);
      const own = attempt(() => pictured(snapshot, tree, file, placed.block));
      if (own instanceof Fault) faulty.push(notComputed(place, own));
      else {
        const about = found.filter(finding => finding.tree === tree.tag.value);
        const photos = await photosOf(tree, file);
        trees.push({
          place,
          of: {
            ...own,
            file: name,
            findings: about,
            prescriptionsOf: finding => prescriptionsAt(placed, finding),
            mistakesBeside: prescription => mistakesBeside(workspace, file.path, prescription),
            photos,
          },
        });
      }
      await weighed();
    }
  }
  const { shown, left } = await showSound(trees, async (some, leftOut) => {
    const data: ReportData = {
      readers,
      crewLanguage,
      shown: shownAs,
      on: today,
      since,
      index,
      trees: some,
      findings,
      unread: [...unread, ...faulty, ...leftOut],
      person: id => workspace.persons.get(id)?.fact,
      crew: id => workspace.crews.get(id)?.fact,
    };
    return { page: await showReport(data), needsNow: needsNow(data) };
  });
  const uninspected = trees.filter(({ of: { tree } }) => isUninspected(tree)).length;
  return { ...shown, uninspected, left: [...faulty, ...left], findings };
}

/** What could not be read in what rules the work besides the tree. */
function mistakesBeside(workspace: Workspace, path: string, { crew }: Prescription): readonly Finding[] {
  const named = crew && workspace.crews.get(crew.value);
  return [
    placedSiteOf(workspace, path),
    ...foldersUp(folderOf(path)).flatMap(at => workspace.practices.get(at) ?? []),
    named,
    ...(named?.fact.members ?? []).map(({ value }) => workspace.persons.get(value)),
  ].flatMap(placed => (placed ? mistakesIn(placed.node) : []));
}

/** Names of the prescriptions that a finding is about: at its own lines, also of work done, and at related lines. */
function prescriptionsAt(
  placed: PlacedFact<WrittenTree>,
  { line, file, related }: Finding,
): readonly string[] {
  const { block, firstLine, fact } = placed;
  const under = (at: number) => sectionAt(placed, at - firstLine - 1);
  const prescribed = (section: BlockSection | undefined): readonly string[] =>
    fact.prescriptions.filter(({ at }) => isHead(section, at.start)).map(({ id }) => id.value);
  const isHead = (section: BlockSection | undefined, start: number): boolean =>
    section !== undefined && lastAtMost(block.starts, start) === section.head;
  const own = under(line);
  const done = fact.works
    .filter(({ at }) => isHead(own, at.start))
    .map(({ prescription }) => prescription.value);
  const others = (related ?? []).filter(one => one.file === file).flatMap(one => prescribed(under(one.line)));
  return [...new Set([...prescribed(own), ...done, ...others])];
}

type Pictured = Pick<
  ReportTree,
  | 'tree'
  | 'site'
  | 'settings'
  | 'assessment'
  | 'urgency'
  | 'nestTreesNear'
  | 'elevation'
  | 'sections'
  | 'history'
  | 'photographs'
>;

function pictured(snapshot: DatedWorkspace, tree: Tree, { path }: FileSnapshot, block: Block): Pictured {
  const context = contextIn(snapshot, path, tree);
  const { site, settings, nestTreesNear } = context;
  const assessment = assess(context);
  const { strength } = assessment;
  const fileOf = filesNamed(snapshot.workspace, path);
  const sections = [
    ...strength.defects.flatMap(defect => sectionPicture(tree, defect, strength) ?? []),
    ...readTraces(tree, fileOf, settings).map(one => tracePicture(tree, one)),
  ];
  const photographs = treePhotos(tree, fileOf);
  const series = photoSeries(photographs, tree.works);
  const described = <P extends Picture | undefined>(picture: P): P =>
    picture && { ...picture, description: readInRegion(picture.description, settings.region) };
  const life =
    isSeenAgain(tree) || series.length > 0
      ? historyOf(context, path, lifeOf(tree, block, snapshot.today))
      : undefined;
  const history = life && { ...life, timeline: historyPicture(life), series };
  return {
    tree,
    site,
    settings,
    assessment,
    urgency: urgencyOf(context),
    nestTreesNear,
    elevation: described(elevationPicture(tree, settings)),
    sections: sections.map(described),
    history,
    photographs,
  };
}
