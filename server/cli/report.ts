/** `soundwood report`: one HTML file for the owner, the crew and the office. */

import { dirname, relative, resolve, sep } from 'node:path';
import { asOf, assess } from '../assess/assessment.ts';
import { photosOf as photosNamedBy, resolveInside } from '../facts/photos.ts';
import type { Tree } from '../facts/types.ts';
import { type FileSnapshot, placedSiteOf, settingsFor, type Workspace } from '../facts/workspace.ts';
import { elevationPicture, sectionPicture } from '../language/pictures.ts';
import { checkFile, type Finding } from '../rules/check.ts';
import { READERS, type Reader, type ReportPhoto, type ReportTree } from '../show/report/data.ts';
import { showReport } from '../show/report/page.ts';
import { showProblems } from './files.ts';
import { CLEAN, COULD_NOT_RUN, type Io } from './io.ts';
import { loadWithPhotos } from './load.ts';
import { progressOf } from './progress.ts';
import { readPhoto } from './report-photos.ts';

export interface ReportOptions {
  /** Day number. */
  readonly on?: number;
  readonly for: Reader | 'all';
  readonly to?: string;
}

export async function report(paths: readonly string[], options: ReportOptions, io: Io): Promise<number> {
  const today = options.on ?? io.today;
  const { workspace, files, problems, nameOf } = await loadWithPhotos(paths, io);
  const readers = options.for === 'all' ? READERS : [options.for];
  const count = files.reduce((sum, { trees }) => sum + trees.length, 0);
  const progress = await progressOf(io, count, 'weighing');
  const trees: ReportTree[] = [];
  const findings: Finding[] = [];
  for (const file of files) {
    const found = checkFile(workspace, file, today);
    findings.push(...found);
    for (const { fact } of file.trees) {
      const tree = asOf(fact, today);
      const own = found.filter(finding => finding.tree === tree.tag.value);
      const photos = readers.includes('client') ? await photosOf(tree, file, workspace, nameOf, io) : [];
      trees.push({
        ...weighed(tree, file, workspace, today),
        file: nameOf(file.path),
        findings: own,
        photos,
      });
      progress.step();
    }
  }
  progress.end();
  const page = await showReport({
    on: today,
    readers,
    trees,
    findings,
    person: id => workspace.persons.get(id)?.fact,
    crew: id => workspace.crews.get(id)?.fact,
    unread: problems,
    shown: nameOf,
  });
  if (options.to === undefined) io.out(page);
  else await (await import('./write-text.ts')).writeText(resolve(io.cwd, options.to), page, io.cwd);
  showProblems(problems, io);
  return problems.length > 0 ? COULD_NOT_RUN : CLEAN;
}

type Weighed = Pick<ReportTree, 'tree' | 'site' | 'settings' | 'assessment' | 'elevation' | 'sections'>;

function weighed(tree: Tree, { path }: FileSnapshot, workspace: Workspace, today: number): Weighed {
  const site = placedSiteOf(workspace, path)?.fact;
  const settings = settingsFor(workspace, path);
  const assessment = assess({ tree, site, settings, today });
  const { strength } = assessment;
  const sections = strength.defects.flatMap(defect => sectionPicture(tree, defect, strength) ?? []);
  return { tree, site, settings, assessment, elevation: elevationPicture(tree, settings), sections };
}

/** Each photograph once. They are looked for in the folder of the tree's site, else of its file, and below. */
async function photosOf(
  tree: Tree,
  { path }: FileSnapshot,
  workspace: Workspace,
  nameOf: (path: string) => string,
  io: Io,
): Promise<readonly ReportPhoto[]> {
  const written = photosNamedBy(tree).map(photo => photo.path);
  if (written.length === 0) return [];
  const folder = dirname(resolve(io.cwd, nameOf(path)));
  const site = placedSiteOf(workspace, path)?.path;
  const bounds = site === undefined ? folder : dirname(resolve(io.cwd, nameOf(site)));
  const within = relative(bounds, folder).split(sep).join('/');
  const photos: ReportPhoto[] = [];
  for (const photo of new Set(written))
    photos.push(await readPhoto(photo, resolveInside(within, photo), bounds));
  return photos;
}
