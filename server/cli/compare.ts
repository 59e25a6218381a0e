/** `soundwood compare`: the changes between two states, each a folder or a commit. */

import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { compareStates } from '../compare/compare.ts';
import { buildWorkspace, readFile, type Workspace } from '../facts/workspace.ts';
import { filesAt, openRepository, type Repository } from '../host/git.ts';
import { readText } from '../host/read-text.ts';
import type { Level } from '../rules/rule.ts';
import { showComparisonJson } from '../show/comparison-json.ts';
import { showComparisonMarkdown } from '../show/comparison-markdown.ts';
import { showComparison } from '../show/comparison-text.ts';
import { plain } from '../show/terminal.ts';
import { findFiles, inWorkspace, isProblem, type Problem, readSource, showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, EXIT_FINDINGS, type Io } from './io.ts';
import { lookUpPhotos } from './load.ts';
import { rejectedLevels, someRejected } from './reject.ts';
import { writeOut } from './write-out.ts';

export interface CompareOptions {
  /** Day number: the period from then on, instead of two states. */
  readonly since?: number;
  /** Day number. */
  readonly date?: number;
  readonly failOn: Level | 'never';
  readonly format: 'text' | 'markdown' | 'json';
  readonly output?: string;
}

interface State {
  readonly name: string;
  readonly workspace: Workspace;
  readonly problems: readonly Problem[];
}

export async function compare(
  before: string | undefined,
  after: string | undefined,
  options: CompareOptions,
  io: Io,
): Promise<number> {
  if (options.since !== undefined) {
    if (after !== undefined)
      throw new UserError(
        '--since tells of one inventory over a period: name one folder or commit, or none.',
      );
    const { workspace, problems } = await stateOf(before ?? '.', io);
    return (await import('./season.ts')).season(workspace, problems, options.since, options, io);
  }
  if (before === undefined)
    throw new UserError(
      'say with what to compare: a git commit or a folder; or --since with a date, for what was done since.',
    );
  const today = options.date ?? io.today;
  const [old, now] = [
    await stateOf(before, io),
    after === undefined ? await workingTree(io) : await stateOf(after, io),
  ];
  const comparison = compareStates(old.workspace, now.workspace, today);
  const title = `${old.name} → ${now.name}`;
  const report = {
    text: () => showComparison(comparison, options.output === undefined ? io.paint : plain),
    markdown: () => showComparisonMarkdown(comparison, title),
    json: () => showComparisonJson(comparison, today, old.name, now.name),
  }[options.format]();
  await writeOut(report, options.output, io);
  const problems = [...old.problems, ...now.problems, ...comparison.notComputed];
  showProblems(problems, io);
  if (problems.length > 0) return EXIT_FAILURE;
  return someRejected(comparison.came, rejectedLevels(options.failOn)) ? EXIT_FINDINGS : EXIT_CLEAN;
}

/** The name of an existing folder means that folder; any other names a commit. */
async function stateOf(name: string, io: Io): Promise<State> {
  const path = resolve(io.cwd, name);
  const isFolder = await stat(path).then(
    found => found.isDirectory(),
    () => false,
  );
  return isFolder && name !== ''
    ? folderState(name, path, io)
    : commitState(name, await repositoryFor(name, io));
}

const repositoryFor = (name: string, io: Io): Promise<Repository> =>
  openRepository(io.cwd, io.cwd).catch((error: unknown) => {
    if (!(error instanceof UserError)) throw error;
    throw new UserError(`${name} is no folder, and to look for a commit of that name: ${error.message}`);
  });

/** A folder by itself: settings of folders above do not apply. */
async function folderState(name: string, folder: string, io: Io): Promise<State> {
  const found = await findFiles([folder], io.cwd);
  const problems = [...found.problems];
  const files = [];
  for (const path of found.paths) {
    const source = await readSource(path, io.cwd);
    if (isProblem(source)) problems.push(source);
    else files.push(readFile(inWorkspace(folder, path), source.text));
  }
  return { name, workspace: await lookUpPhotos(buildWorkspace(files), files, folder), problems };
}

const workingTree = async (io: Io): Promise<State> =>
  folderState('working tree', (await openRepository(io.cwd, io.cwd)).top, io);

async function commitState(ref: string, repository: Repository): Promise<State> {
  const problems: Problem[] = [];
  const files = (await filesAt(repository, ref)).flatMap(({ path, bytes }) => {
    const read = readText(bytes);
    if (!('problem' in read)) return [readFile(path, read.text)];
    problems.push({ file: `${ref}:${path}`, message: read.problem });
    return [];
  });
  const workspace = await lookUpPhotos(buildWorkspace(files), files, repository.top);
  return { name: ref, workspace, problems };
}
