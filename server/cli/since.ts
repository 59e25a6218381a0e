/** What is new against a commit: `check --since`. */

import { stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { byFormerIdentity, byIdentity, notAmong } from '../compare/findings.ts';
import { pairTrees } from '../compare/pairs.ts';
import { folderOf, foldersUp, liesIn } from '../facts/paths.ts';
import { buildWorkspace, type FileSnapshot, readFile, type Workspace } from '../facts/workspace.ts';
import { type CommittedFile, filesAt, openRepository } from '../host/git.ts';
import { readText } from '../host/read-text.ts';
import { checkFile, type Finding } from '../rules/check.ts';
import type { Inventory } from './inventory.ts';
import type { Io } from './io.ts';
import { lookUpPhotos } from './load.ts';

/**
 * The findings that a commit does not have. Its inventory is read twice where only a part of it is asked for:
 * as that part, so that the same sites and persons are known; and as a whole, where a tree may have come from.
 * @param paths of the command line
 */
export async function newSince(
  ref: string,
  paths: readonly string[],
  { workspace, root }: Pick<Inventory, 'workspace' | 'root'>,
  findings: readonly Finding[],
  today: number,
  io: Io,
): Promise<ReadonlySet<Finding>> {
  const given = (paths.length > 0 ? paths : ['.']).map(path => resolve(io.cwd, path));
  const repository = await openRepository(await folderAt(given[0]!, io.cwd), io.cwd);
  const committed = await filesAt(repository, ref);
  const asked = given.flatMap(path => repository.pathOf(path) ?? []);
  const part = partOf(committed, asked);
  const states = [
    part,
    ...(part.files.length + part.around.length < committed.length ? [{ files: committed, around: [] }] : []),
  ];
  let news: ReadonlySet<Finding> = new Set(findings);
  const inRepository = repository.pathOf(root);
  for (const state of states) {
    if (news.size === 0) break;
    const named = inRepository === undefined ? undefined : localTo(inRepository, state);
    const { files, around } = named ?? state;
    // What did not change since is neither read nor judged again.
    const previous = named && workspace;
    const snapshots = (some: readonly CommittedFile[]) => some.flatMap(file => snapshot(file, previous));
    const read = snapshots(files);
    const unseen = { ...buildWorkspace([...read, ...snapshots(around)], previous), now: workspace.now };
    const before = await lookUpPhotos(unseen, read, named ? root : repository.top);
    const known = byIdentity(
      before,
      read.flatMap(file => checkFile(before, file, today)),
    );
    const here = notAmong(byFormerIdentity(workspace, findings, pairTrees(before, workspace)), known);
    news = new Set([...news].filter(finding => here.has(finding)));
  }
  return news;
}

/** The folder of a path; of one that does not exist, which is a problem of its own, the working folder. */
const folderAt = (path: string, cwd: string): Promise<string> =>
  stat(path).then(
    found => (found.isDirectory() ? path : dirname(path)),
    () => cwd,
  );

interface Part {
  readonly files: readonly CommittedFile[];
  /** Those that only apply to them. */
  readonly around: readonly CommittedFile[];
}

/** With the paths of the workspace; undefined where a file lies outside of its folder. */
function localTo(folder: string, { files, around }: Part): Part | undefined {
  const start = folder === '' ? '' : `${folder}/`;
  if (![...files, ...around].every(({ path }) => path.startsWith(start))) return undefined;
  const local = (some: readonly CommittedFile[]) =>
    some.map(file => ({ ...file, path: file.path.slice(start.length) }));
  return { files: local(files), around: local(around) };
}

/** As in a working tree: the files of the given files and folders, and around them what their folders and those above hold. */
function partOf(committed: readonly CommittedFile[], asked: readonly string[]): Part {
  const files = committed.filter(({ path }) => liesIn(path, asked));
  const folders = new Set([...files.map(({ path }) => folderOf(path)), ...asked].flatMap(foldersUp));
  const chosen = new Set(files);
  return { files, around: committed.filter(file => !chosen.has(file) && folders.has(folderOf(file.path))) };
}

/** A file that is no text says nothing: all that is found in it today is new. */
function snapshot({ path, bytes }: CommittedFile, previous: Workspace | undefined): readonly FileSnapshot[] {
  const read = readText(bytes);
  return 'problem' in read ? [] : [readFile(path, read.text, previous?.files.get(path))];
}
