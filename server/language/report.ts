/** What a report on files of a workspace is made of, tree by tree. */

import type { Section } from '../../grammar/syntax.ts';
import { lastAtMost } from '../../grammar/text.ts';
import { asOf, assess } from '../assess/assessment.ts';
import type { Tree } from '../facts/types.ts';
import { type FileSnapshot, type PlacedFact, placedSiteOf } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import type { ReportData, ReportPhoto, ReportTree } from '../show/report/data.ts';
import { sectionAt } from './cursor.ts';
import { elevationPicture, sectionPicture } from './pictures.ts';
import { findingsOf, type Snapshot, settingsOf } from './snapshot.ts';

export interface ReportWanted extends Pick<ReportData, 'readers' | 'unread' | 'shown'> {
  readonly files: readonly FileSnapshot[];
  readonly photosOf: (tree: Tree, file: FileSnapshot) => Promise<readonly ReportPhoto[]>;
  /** Called after each tree; may take its time, or reject to stop. */
  readonly weighed: () => Promise<void> | void;
}

export async function reportOn(snapshot: Snapshot, wanted: ReportWanted): Promise<ReportData> {
  const { workspace, today } = snapshot;
  const { files, photosOf, weighed, ...rest } = wanted;
  const trees: ReportTree[] = [];
  const findings: Finding[] = [];
  for (const file of files) {
    const found = findingsOf(snapshot, file);
    findings.push(...found);
    for (const placed of file.trees) {
      const tree = asOf(placed.fact, today);
      trees.push({
        ...pictured(snapshot, tree, file),
        file: wanted.shown(file.path),
        findings: found.filter(finding => finding.tree === tree.tag.value),
        prescriptionsOf: finding => prescriptionsAt(placed, finding),
        photos: await photosOf(tree, file),
      });
      await weighed();
    }
  }
  return {
    ...rest,
    on: today,
    trees,
    findings,
    person: id => workspace.persons.get(id)?.fact,
    crew: id => workspace.crews.get(id)?.fact,
  };
}

/** Which prescriptions the lines of a finding belong to: its own, also under work done, and those it points to. */
function prescriptionsAt(placed: PlacedFact<Tree>, { line, file, related }: Finding): readonly string[] {
  const { block, firstLine, fact } = placed;
  const under = (at: number) => sectionAt(placed, at - firstLine - 1);
  const prescribed = (section: Section | undefined): readonly string[] =>
    fact.prescriptions.filter(({ at }) => isHead(section, at.start)).map(({ id }) => id.value);
  const isHead = (section: Section | undefined, start: number): boolean =>
    section !== undefined && lastAtMost(block.starts, start) === section.head;
  const own = under(line);
  const done = fact.works
    .filter(({ at }) => isHead(own, at.start))
    .map(({ prescription }) => prescription.value);
  const others = (related ?? []).filter(one => one.file === file).flatMap(one => prescribed(under(one.line)));
  return [...new Set([...prescribed(own), ...done, ...others])];
}

type Pictured = Pick<ReportTree, 'tree' | 'site' | 'settings' | 'assessment' | 'elevation' | 'sections'>;

function pictured(snapshot: Snapshot, tree: Tree, { path }: FileSnapshot): Pictured {
  const site = placedSiteOf(snapshot.workspace, path)?.fact;
  const settings = settingsOf(snapshot, path);
  const assessment = assess({ tree, site, settings, today: snapshot.today });
  const { strength } = assessment;
  const sections = strength.defects.flatMap(defect => sectionPicture(tree, defect, strength) ?? []);
  return { tree, site, settings, assessment, elevation: elevationPicture(tree, settings), sections };
}
