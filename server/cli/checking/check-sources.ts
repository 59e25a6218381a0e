/** Reads inventories, checks them, shows what was found. */

import { counted } from '../../base/words.ts';
import { settingsFor } from '../../facts/workspace.ts';
import { shown } from '../../host/paths.ts';
import { siteNameOf } from '../../rules/identity.ts';
import { sanitizeLine } from '../../show/sanitize.ts';
import type { CheckOptions } from '../check.ts';
import type { Io } from '../io.ts';
import { progressOf } from '../progress.ts';
import { give } from './give.ts';
import type { Hands } from './hands.ts';
import type { Found } from './jobs.ts';
import { judgeAll } from './judge-all.ts';
import type { Sources } from './sources.ts';
import { type Survey, survey, tagsOf } from './survey.ts';

/**
 * @param keep whether the texts are kept from the survey
 * @param paths as they were asked for
 */
export async function checkSources(
  sources: Sources,
  hands: Hands,
  keep: boolean,
  paths: readonly string[],
  options: CheckOptions,
  io: Io,
): Promise<number> {
  const today = options.on ?? io.today;
  const surveyed = await survey(sources, hands, { today, keep, digest: options.part !== undefined }, io);
  if (options.part) {
    const { checkPart } = await import('./part.ts');
    return await checkPart(surveyed, options.part, options.to, hands, io);
  }
  const code = await report(surveyed, today, paths, options, hands, io);
  // Hints for whoever sits there; what programs read is the findings.
  if (io.interactive && options.as === 'text') {
    showUnplaced(surveyed, io);
    showUnbounded(sources, io);
  }
  return code;
}

async function report(
  surveyed: Survey,
  today: number,
  paths: readonly string[],
  options: CheckOptions,
  hands: Hands,
  io: Io,
): Promise<number> {
  const { files, problems, workspace, nameOf } = surveyed;
  const about = {
    on: today,
    trees: files.reduce((sum, { pieces }) => sum + pieces.reduce((own, piece) => own + piece.trees, 0), 0),
    files: files.length,
    unread: problems,
    listFiles: () => files.map(file => ({ file: file.path, trees: tagsOf(file) })),
    since: options.since,
    siteOf: (file: string) => siteNameOf(workspace, file),
    shown: nameOf,
  };
  // What is printed as it is found shows the progress itself.
  const steps = options.to === undefined && options.as === 'text' ? 0 : files.length;
  return await give(about, options, io, async shown => {
    const progress = await progressOf(io, steps, 'checking');
    const all: Found[] = [];
    await judgeAll(surveyed, files, hands, (_file, found, isLast, signs) => {
      shown.add(options.since === undefined ? found : [], signs);
      if (options.since !== undefined) for (const one of found) all.push(one);
      if (isLast) progress.step();
    });
    progress.end();
    if (options.since !== undefined) shown.add(await newOf(all, options.since, paths, today, io));
  });
}

/** Says where nobody stated the country: the seasons and laws that are held against the work are those of no place. */
function showUnplaced({ files, workspace, nameOf }: Survey, io: Io): void {
  const unplaced = files.filter(
    ({ path, pieces }) =>
      pieces.some(({ trees }) => trees > 0) && settingsFor(workspace, path).regionApplied === 'unstated',
  );
  const [first] = unplaced;
  if (!first) return;
  const others = unplaced.length > 1 ? ` and ${counted(unplaced.length - 1, 'more file')}` : '';
  io.err(
    `soundwood: nothing says where the trees of ${sanitizeLine(nameOf(first.path))}${others} stand, so no seasons and laws of the place are known, only common ones. Add a site with its region: site "name", and below it region US-OR\n`,
  );
}

/** Says which files far above hold too: outside of a repository one may lie there that nobody thinks of. */
function showUnbounded({ unbounded }: Sources, io: Io): void {
  const [first, ...others] = unbounded;
  if (first === undefined) return;
  const more = others.length > 0 ? ` and ${counted(others.length, 'more file')}` : '';
  io.err(
    `soundwood: sites, persons and practice of folders above apply too: ${sanitizeLine(shown(io.cwd, first))}${more}. soundwood explain --here PATH says what is set where; git init in the folder of the inventory keeps them out\n`,
  );
}

/** Of two states trees are paired: for that the whole inventory has to be at hand. */
async function newOf(
  all: readonly Found[],
  since: string,
  paths: readonly string[],
  today: number,
  io: Io,
): Promise<readonly Found[]> {
  const [{ newSince }, { loadWorkspace }] = await Promise.all([import('../since.ts'), import('../load.ts')]);
  const { workspace } = await loadWorkspace(paths, io);
  const found = all.map(({ finding }) => finding);
  const news = await newSince(since, paths, workspace, found, today, io);
  return all.filter(({ finding }) => news.has(finding));
}
