/** `soundwood check`: reads inventories, checks them, shows what was found. */

import { resolve } from 'node:path';
import { siteNameOf } from '../rules/identity.ts';
import type { Level } from '../rules/rule.ts';
import { showSummary } from '../show/terminal.ts';
import { type About, type Form, showing } from './checking/forms.ts';
import { type Hands, handsOf } from './checking/hands.ts';
import type { Found } from './checking/jobs.ts';
import { judgeAll, planFor } from './checking/judge-all.ts';
import { type Survey, sourcesOf, survey, tagsOf } from './checking/survey.ts';
import { showProblems } from './files.ts';
import { CLEAN, COULD_NOT_RUN, FINDINGS, type Io, plain } from './io.ts';
import { progressOf } from './progress.ts';
import { rejectedLevels } from './reject.ts';

export interface CheckOptions {
  /** Day number. */
  readonly on?: number;
  readonly reject: Level | 'never';
  readonly as: Form;
  readonly to?: string;
  /** A commit: only what is new against it counts. */
  readonly since?: string;
  /** Threads; as many as are good for it where this is left out. */
  readonly workers?: number;
}

export async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const today = options.on ?? io.today;
  const sources = await sourcesOf(paths, io);
  const { workers, keep } = planFor(sources, options.workers);
  const hands = handsOf(workers);
  try {
    const surveyed = await survey(sources, hands, { today, keep, digest: false }, io);
    return await report(surveyed, today, paths, options, hands, io);
  } finally {
    await hands.end();
  }
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
  const about: About = {
    on: today,
    trees: files.reduce((sum, { pieces }) => sum + pieces.reduce((own, piece) => own + piece.trees, 0), 0),
    files: files.length,
    unread: problems,
    listFiles: () => files.map(file => ({ file: file.path, trees: tagsOf(file) })),
    rejected: rejectedLevels(options.reject),
    since: options.since,
    siteOf: file => siteNameOf(workspace, file),
    shown: nameOf,
  };
  const kept: string[] = [];
  const isHere = options.to === undefined;
  const shown = showing(
    options.as,
    about,
    isHere ? io.paint : plain,
    isHere ? io.out : text => kept.push(text),
  );
  // What is printed as it is found shows the progress itself.
  const steps = isHere && options.as === 'text' ? 0 : files.length;
  const progress = await progressOf(io, steps, 'checking');
  const all: Found[] = [];
  await judgeAll(surveyed, files, hands, (_file, found, isLast) => {
    if (options.since === undefined) shown.add(found);
    else for (const one of found) all.push(one);
    if (isLast) progress.step();
  });
  progress.end();
  if (options.since !== undefined) shown.add(await newOf(all, options.since, paths, today, io));

  const { summary, failed } = shown.end();
  if (options.to !== undefined) {
    await (await import('./write-text.ts')).writeText(resolve(io.cwd, options.to), kept.join(''), io.cwd);
  }
  showProblems(problems, io);
  // Standard output is for the program that reads it.
  if (options.as === 'text' || options.to !== undefined)
    io.out(showSummary(summary, io.paint, options.since));
  if (problems.length > 0) return COULD_NOT_RUN;
  return failed ? FINDINGS : CLEAN;
}

/** Of two states trees are paired: for that the whole inventory has to be at hand. */
async function newOf(
  all: readonly Found[],
  since: string,
  paths: readonly string[],
  today: number,
  io: Io,
): Promise<readonly Found[]> {
  const [{ newSince }, { loadWorkspace }] = await Promise.all([import('./since.ts'), import('./load.ts')]);
  const { workspace } = await loadWorkspace(paths, io);
  const found = all.map(({ finding }) => finding);
  const news = await newSince(since, paths, workspace, found, today, io);
  return all.filter(({ finding }) => news.has(finding));
}
