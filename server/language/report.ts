/** What a report on files of a workspace is made of, tree by tree. */

import { asOf, assess } from '../assess/assessment.ts';
import type { Tree } from '../facts/types.ts';
import { type FileSnapshot, personIn, placedSiteOf } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import type { ReportData, ReportPhoto, ReportTree } from '../show/report/data.ts';
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
    for (const { fact } of file.trees) {
      const tree = asOf(fact, today);
      trees.push({
        ...pictured(snapshot, tree, file),
        file: wanted.shown(file.path),
        findings: found.filter(finding => finding.tree === tree.tag.value),
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

type Pictured = Pick<ReportTree, 'tree' | 'site' | 'settings' | 'assessment' | 'elevation' | 'sections'>;

function pictured(snapshot: Snapshot, tree: Tree, { path }: FileSnapshot): Pictured {
  const site = placedSiteOf(snapshot.workspace, path)?.fact;
  const settings = settingsOf(snapshot, path);
  const assessment = assess({
    tree,
    site,
    settings,
    person: personIn(snapshot.workspace),
    today: snapshot.today,
  });
  const { strength } = assessment;
  const sections = strength.defects.flatMap(defect => sectionPicture(tree, defect, strength) ?? []);
  return { tree, site, settings, assessment, elevation: elevationPicture(tree, settings), sections };
}
