/** `soundwood compare`: the changes between two states, each a folder or a commit. */

import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { compareStates } from '../compare/compare.ts';
import { liesIn } from '../facts/paths.ts';
import {
  buildWorkspace,
  type FileSnapshot,
  readFile,
  settingsFor,
  type Workspace,
} from '../facts/workspace.ts';
import { filesAt, forkPoint, openRepository, type Repository } from '../host/git.ts';
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

/**
 * @param before a commit, a folder, or two commits as A..B, where either may be left out for HEAD and the working tree
 * @param after likewise; behind a range, the first of the paths
 * @param paths files and folders that the comparison is limited to, behind a range
 */
export async function compare(
  before: string | undefined,
  after: string | undefined,
  paths: readonly string[],
  options: CompareOptions,
  io: Io,
): Promise<number> {
  if (options.since !== undefined) {
    if (after !== undefined)
      throw new UserError(
        '--since describes one inventory over a period: name one folder or commit, or none.',
      );
    const { workspace, problems } = await stateOf(before ?? '.', io);
    return (await import('./season.ts')).season(workspace, problems, options.since, options, io);
  }
  if (before === undefined)
    throw new UserError(
      'name what to compare with: a git commit or a folder; or use --since DATE for what was done since then.',
    );
  const today = options.date ?? io.today;
  const range = (await isFolder(before, io)) ? undefined : await rangeOf(before, io);
  if (!range && paths.length > 0)
    throw new UserError(
      `with paths, write the two commits as one word: soundwood compare ${before}..${after} ${paths.join(' ')}`,
    );
  const asked = range && after !== undefined ? await within([after, ...paths], io) : undefined;
  const [from, to] = range ?? [before, after];
  const now = to === undefined ? await workingTree(io) : await stateOf(to, io);
  const old = await stateOf(from, io, now.workspace);
  const comparison = compareStates(old.workspace, now.workspace, today, asked);
  const title = `${old.name} → ${now.name}`;
  const regionOf = (file: string) => settingsFor(now.workspace, file, today).region;
  const report = {
    text: () => showComparison(comparison, options.output === undefined ? io.paint : plain, regionOf),
    markdown: () => showComparisonMarkdown(comparison, title, regionOf),
    json: () => showComparisonJson(comparison, today, old.name, now.name),
  }[options.format]();
  await writeOut(report, options.output, io);
  const problems = [...old.problems, ...now.problems, ...comparison.notComputed];
  showProblems(problems, io);
  if (problems.length > 0) return EXIT_FAILURE;
  return someRejected(comparison.came, rejectedLevels(options.failOn)) ? EXIT_FINDINGS : EXIT_CLEAN;
}

const isFolder = async (name: string, io: Io): Promise<boolean> =>
  name !== '' &&
  (await stat(resolve(io.cwd, name)).then(
    found => found.isDirectory(),
    () => false,
  ));

/**
 * The name of an existing folder means that folder; any other names a commit.
 * @param other the state that it is compared with: what both have in common is read and judged once
 */
const stateOf = async (name: string, io: Io, other?: Workspace): Promise<State> =>
  (await isFolder(name, io))
    ? folderState(name, resolve(io.cwd, name), io, other)
    : commitState(name, await repositoryFor(name, io), other);

/** As git has it: A..B, A.. up to the working tree, ..B from HEAD, and A...B from where the two parted. */
async function rangeOf(name: string, io: Io): Promise<[string, string | undefined] | undefined> {
  const [whole, from = '', dots, to = ''] = /^([^/].*?|)(\.{2,3})([^/.].*|)$/.exec(name) ?? [];
  if (whole === undefined || (from === '' && to === '')) return undefined;
  if (dots === '..') return [from || 'HEAD', to || undefined];
  const { top } = await repositoryFor(name, io);
  return [await forkPoint(top, from || 'HEAD', to || 'HEAD'), to || undefined];
}

/** Whether a path of the states lies in what was asked for. @throws UserError for a path outside of the repository */
async function within(paths: readonly string[], io: Io): Promise<(path: string) => boolean> {
  const repository = await openRepository(io.cwd, io.cwd);
  const folders = paths.map(path => {
    const inside = repository.pathOf(resolve(io.cwd, path));
    if (inside === undefined) throw new UserError(`${path} is outside this repository.`);
    return inside;
  });
  return path => liesIn(path, folders);
}

const repositoryFor = (name: string, io: Io): Promise<Repository> =>
  openRepository(io.cwd, io.cwd).catch((error: unknown) => {
    if (!(error instanceof UserError)) throw error;
    throw new UserError(`${name} is not a folder, and looking it up as a commit failed: ${error.message}`);
  });

/** A folder by itself: settings of folders above do not apply. */
async function folderState(name: string, folder: string, io: Io, other?: Workspace): Promise<State> {
  const found = await findFiles([folder], io.cwd);
  const problems = [...found.problems];
  const files = [];
  for (const path of found.paths) {
    const source = await readSource(path, io.cwd);
    if (isProblem(source)) problems.push(source);
    else files.push(fileIn(inWorkspace(folder, path), source.text, other));
  }
  return { name, workspace: await lookUpPhotos(buildWorkspace(files, other), files, folder), problems };
}

const workingTree = async (io: Io): Promise<State> =>
  folderState('working tree', (await openRepository(io.cwd, io.cwd)).top, io);

const fileIn = (path: string, text: string, other: Workspace | undefined): FileSnapshot =>
  readFile(path, text, other?.files.get(path));

async function commitState(ref: string, repository: Repository, other?: Workspace): Promise<State> {
  const problems: Problem[] = [];
  const files = (await filesAt(repository, ref)).flatMap(({ path, bytes }) => {
    const read = readText(bytes);
    if (!('problem' in read)) return [fileIn(path, read.text, other)];
    problems.push({ file: `${ref}:${path}`, message: read.problem });
    return [];
  });
  const workspace = await lookUpPhotos(buildWorkspace(files, other), files, repository.top);
  return { name: ref, workspace, problems };
}
