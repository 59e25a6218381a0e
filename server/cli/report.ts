/** `soundwood report`: one HTML file for the owner, the crew and the office. */

import { dirname, relative, resolve, sep } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { photosOf as photosNamedBy, resolveInside } from '../facts/photos.ts';
import type { Tree } from '../facts/types.ts';
import { type FileSnapshot, placedSiteOf, type Workspace } from '../facts/workspace.ts';
import { READERS, type Reader, type ReportPhoto } from '../report/data.ts';
import { reportPage } from '../report/inventory-report.ts';
import { showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { loadWithPhotos } from './load.ts';
import { PERIOD_REVERSED } from './options.ts';
import { progressOf } from './progress.ts';
import { readPhoto } from './report-photos.ts';
import { writeOut } from './write-out.ts';

export interface ReportOptions {
  /** Day number. */
  readonly date?: number;
  /** Day number: the owner is told what was done from then on. */
  readonly since?: number;
  readonly for: Reader | 'all';
  readonly output?: string;
}

export async function report(paths: readonly string[], options: ReportOptions, io: Io): Promise<number> {
  // HTML is of no use on a terminal.
  if (options.output === undefined && io.interactive)
    throw new UserError(
      'a report is a page for a browser: say with --output which file to write, as report.html.',
    );
  const today = options.date ?? io.today;
  if (options.since !== undefined && options.since > today) throw new UserError(PERIOD_REVERSED);
  const { workspace, files, problems, nameOf } = await loadWithPhotos(paths, io);
  const readers = options.for === 'all' ? READERS : [options.for];
  const count = files.reduce((sum, { trees }) => sum + trees.length, 0);
  const progress = await progressOf(io, count, 'weighing');
  const { page, left } = await reportPage(
    { workspace, today },
    {
      files,
      readers,
      since: options.since,
      unread: problems,
      shown: nameOf,
      photosOf: async (tree, file) =>
        readers.some(reader => reader !== 'crew') ? photosOf(tree, file, workspace, nameOf, io) : [],
      weighed: () => progress.step(),
    },
  );
  progress.end();
  await writeOut(page, options.output, io);
  if (options.output !== undefined)
    io.out(`${options.output}: ${counted(count - left.length, 'tree')}; open it in a browser.\n`);
  const all = [...problems, ...left];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}

/** Each photograph once, from the folder of the tree's site, or of its file if it has none, and below. */
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
