/** `soundwood report`: one HTML file for the client, the crew and the office; of very many trees a page for each area. */

import { mkdir, readdir, stat } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { NotComputed } from '../assess/not-computed.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { fileWith, type PlacedNode } from '../facts/file.ts';
import { photosOf as photosNamedBy, resolveInside } from '../facts/photos.ts';
import type { Tree } from '../facts/types.ts';
import { type FileSnapshot, placedSiteOf, settingsFor, siteOf, type Workspace } from '../facts/workspace.ts';
import { shown } from '../host/paths.ts';
import { findBrowser, printPdf } from '../host/print-pdf.ts';
import { READERS, type Reader, type ReportPhoto } from '../report/data.ts';
import { type AreaPage, indexPage } from '../report/index-page.ts';
import { reportPage } from '../report/inventory-report.ts';
import type { LanguageCode } from '../report/languages/translation.ts';
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
  /** Day number: the client reads what was done from then on. */
  readonly since?: number;
  readonly for: Reader | 'all';
  readonly output?: string;
  readonly crewLanguage?: LanguageCode;
}

export async function report(paths: readonly string[], options: ReportOptions, io: Io): Promise<number> {
  // HTML is of no use on a terminal.
  if (options.output === undefined && io.interactive)
    throw new UserError(
      'a report is a page for a browser: say with --output which file to write, as report.html.',
    );
  const today = options.date ?? io.today;
  if (options.since !== undefined && options.since > today) throw new UserError(PERIOD_REVERSED);
  const { workspace, files, problems, root, nameOf } = await loadWithPhotos(paths, io);
  const readers = options.for === 'all' ? READERS : [options.for];
  const count = files.reduce((sum, { trees }) => sum + trees.length, 0);
  const inFolder = options.output !== undefined && (await isFolder(options.output, io));
  if (count > MOST_TREES && !inFolder)
    throw new UserError(
      `one page of ${counted(count, 'tree')} is more than browsers show well: give a folder, --output report/, for an index and a page for each area of at most ${MOST_TREES} trees; or name the files or folders of those that the report is about.`,
    );
  const wantsPdf = !inFolder && /\.pdf$/i.test(options.output ?? '');
  const browser = wantsPdf ? await findBrowser(process.env) : undefined;
  const progress = await progressOf(io, count, 'weighing');
  const request = {
    readers,
    since: options.since,
    crewLanguage: options.crewLanguage,
    unread: problems.map(problem => ({ ...problem, file: onPage(problem.file, root, io) })),
    shown: (path: string) => onPage(nameOf(path), root, io),
    photosOf: async (tree: Tree, file: FileSnapshot) =>
      readers.some(reader => reader !== 'crew') ? photosOf(tree, file, workspace, nameOf, io) : [],
    weighed: () => progress.step(),
  };
  const snapshot = { workspace, today };
  const left: NotComputed[] = [];
  let errors = 0;
  if (inFolder) {
    const folder = resolve(io.cwd, options.output!);
    await mkdir(folder, { recursive: true }).catch((error: NodeJS.ErrnoException) => {
      throw new UserError(`${options.output} can't be made: ${error.message.split(',')[0]}.`);
    });
    const areas: AreaPage[] = [];
    const treeless = files.filter(({ trees }) => trees.length === 0);
    for (const area of files.flatMap(areasOf)) {
      // What is found in files without trees is on the first page.
      const shown = areas.length === 0 ? [...treeless, area] : [area];
      const done = await reportPage(snapshot, { ...request, files: shown, index: INDEX });
      left.push(...done.left);
      const page = `area-${String(areas.length + 1).padStart(3, '0')}.html`;
      await writeOut(done.page, join(folder, page), io);
      const open = done.findings.filter(({ accepted }) => !accepted);
      const tags = area.trees.map(({ fact }) => fact.tag.value);
      areas.push({
        page,
        site: siteOf(workspace, area.path)?.name.value ?? '',
        file: nameOf(area.path),
        tags: [tags[0]!, tags.at(-1)!],
        trees: tags.length,
        needsNow: done.needsNow,
        uninspected: done.uninspected,
        region: settingsFor(workspace, area.path, today).region,
        errors: open.filter(({ level }) => level === 'error').length,
        warnings: open.filter(({ level }) => level === 'warning').length,
      });
    }
    errors = areas.reduce((sum, area) => sum + area.errors, 0);
    await writeOut(
      await indexPage(areas, [...request.unread, ...left], today, readers),
      join(folder, INDEX),
      io,
    );
    const written = new Set(areas.map(({ page }) => page));
    const old = (await readdir(folder)).filter(name => /^area-\d+\.html$/.test(name) && !written.has(name));
    if (old.length > 0)
      io.err(
        `soundwood: ${old.sort().join(', ')} in ${options.output} ${old.length > 1 ? 'are' : 'is'} of an earlier report and may be wrong now: delete ${old.length > 1 ? 'them' : 'it'}.\n`,
      );
  } else {
    const done = await reportPage(snapshot, { ...request, files });
    left.push(...done.left);
    errors = done.findings.filter(({ level, accepted }) => level === 'error' && !accepted).length;
    await writeOut(
      browser === undefined ? done.page : await printPdf(done.page, browser),
      options.output,
      io,
    );
  }
  progress.end();
  if (options.output !== undefined)
    io.out(
      `${options.output}: ${counted(count - left.length, 'tree')}${wantsPdf ? '.' : `; open ${inFolder ? `${INDEX} there` : 'it'} in a browser.`}\n${
        errors > 0
          ? `${counted(errors, 'error is', 'errors are')} not resolved: run soundwood check before the report leaves the office.\n`
          : ''
      }`,
    );
  const all = [...problems, ...left];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}

/** A file as the page names it: by its place in the inventory, not on the machine. */
function onPage(name: string, root: string, { cwd }: Io): string {
  const isInside = (path: string) => !path.startsWith('..') && !isAbsolute(path);
  if (isInside(name)) return name;
  const inInventory = shown(root, resolve(cwd, name));
  return isInside(inInventory) ? inInventory : basename(name);
}

/** Page that leads to the others. */
const INDEX = 'index.html';

/** Trees on a page of the report. */
const MOST_TREES = 500;

const isFolder = async (output: string, io: Io): Promise<boolean> =>
  /[\\/]$/.test(output) ||
  (await stat(resolve(io.cwd, output)).then(
    found => found.isDirectory(),
    () => false,
  ));

/** The blocks of a file, with so many trees each at most; none of a file without trees. */
function areasOf(file: FileSnapshot): readonly FileSnapshot[] {
  const count = file.trees.length;
  if (count === 0) return [];
  const pages = Math.ceil(count / MOST_TREES);
  const areas: PlacedNode[][] = Array.from({ length: pages }, () => []);
  let before = 0;
  for (const placed of file.blocks) {
    areas[Math.min(pages - 1, Math.floor((before * pages) / count))]!.push(placed);
    if (placed.fact?.kind === 'tree') before++;
  }
  return pages === 1 ? [file] : areas.map(blocks => fileWith(file.path, blocks));
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
