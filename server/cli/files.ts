/** Finding and reading the files of an inventory. */

import { type Stats, statSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import type { Fault } from '../assess/not-computed.ts';
import {
  foldersUp,
  inventoriesBelow,
  inventoriesIn,
  isRepository,
  NotAFile,
  namesIn,
  notAFileReason,
  readBytes,
} from '../host/folders.ts';
import { shown, slashed } from '../host/paths.ts';
import { readText } from '../host/read-text.ts';
import { sanitizeLine } from '../show/sanitize.ts';
import type { Io } from './io.ts';
import { fromStandardInput, isStandardInput, STANDARD_INPUT } from './standard-input.ts';

/** Something that kept a file or folder from being read, or a tree from being computed. */
export interface Problem {
  /** As shown: relative to the working folder. */
  readonly file: string;
  readonly message: string;
  /** The internal error behind it, for debugging. */
  readonly fault?: Fault;
}

export interface SourceFile {
  /** Absolute. */
  readonly path: string;
  readonly text: string;
  readonly byteOrderMark: boolean;
}

export interface FoundFiles {
  /** Absolute paths, sorted, each once. */
  readonly paths: readonly string[];
  readonly problems: readonly Problem[];
}

/** What a failed file operation means, in plain words. */
export function reasonOf(error: unknown): string {
  if (error instanceof NotAFile) return error.message;
  const { code, message } = error as NodeJS.ErrnoException;
  switch (code) {
    case 'ENOENT':
      return 'does not exist';
    case 'EACCES':
    case 'EPERM':
      return 'cannot be read: permission denied';
    case 'ELOOP':
      return 'is a symbolic link that points back to itself';
    case 'EISDIR':
      return 'is a folder';
    case 'ENOTDIR':
      return 'is inside something that is not a folder';
    default:
      // Without the call and the path, which is named already.
      return `can't be read: ${message.split(',')[0]}`;
  }
}

/** Whether an error is about the file, not about the program that reads it. */
export const isReadError = (error: unknown): boolean =>
  error instanceof NotAFile || (error instanceof Error && 'syscall' in error);

/** Why what was named is not read; undefined for files and folders. */
export function refusalOf(there: Stats): string | undefined {
  const why = notAFileReason(there);
  return why !== undefined && there.isFIFO() ? `${why}: give ${STANDARD_INPUT} to read from a pipe` : why;
}

/**
 * The inventory files of the given files and folders, `-` for standard input. Folders are searched to any depth;
 * symbolic links in them are not followed, node_modules and folders that begin with a dot are passed over.
 */
export async function findFiles(paths: readonly string[], cwd: string): Promise<FoundFiles> {
  const found = new Set<string>();
  const problems: Problem[] = [];
  for (const given of paths.length > 0 ? paths : ['.']) {
    const path = resolve(cwd, given);
    try {
      if (given === STANDARD_INPUT) {
        await fromStandardInput();
        found.add(path);
        continue;
      }
      const there = statSync(path);
      const why = refusalOf(there);
      if (why !== undefined) throw new NotAFile(why);
      if (!there.isDirectory()) {
        if (!path.endsWith('.wood'))
          problems.push({
            file: shown(cwd, path),
            message: `does not end in .wood, so it is not an inventory${hintFor(path)}`,
          });
        else found.add(path);
        continue;
      }
      const told = problems.length;
      const inside = await search(path, problems, cwd);
      if (inside.length === 0 && problems.length === told)
        problems.push({ file: shown(cwd, path), message: await nothingIn(path, given) });
      for (const file of inside) found.add(file);
    } catch (error) {
      problems.push({ file: given, message: reasonOf(error) });
    }
  }
  return { paths: [...found].sort(), problems };
}

const hintFor = (path: string): string =>
  /\.[ct]sv$/i.test(path) ? '; soundwood import converts a table' : '';

/** That a folder holds no inventory, and what to do: names that were meant for one, a table, else a new one. */
async function nothingIn(folder: string, given: string): Promise<string> {
  const names = (await namesIn(folder)).sort();
  const meant = names.find(name => /\.wood(\.\w+)?$/i.test(name));
  if (meant !== undefined)
    return `contains no .wood files: rename ${sanitizeLine(meant)} to ${sanitizeLine(meant.replace(/\.wood.*$/i, '.wood'))}`;
  const table = names.find(name => /\.[ct]sv$/i.test(name));
  const from = table === undefined ? '' : ` --from ${sanitizeLine(join(given, table))}`;
  return `contains no .wood files; soundwood init${given === '.' ? '' : ` ${given}`}${from} starts an inventory there`;
}

async function search(folder: string, problems: Problem[], cwd: string): Promise<readonly string[]> {
  const { paths, odd, closed } = await inventoriesBelow(folder);
  for (const { path, why } of odd) problems.push({ file: shown(cwd, path), message: why });
  if (closed) problems.push({ file: shown(cwd, closed.path), message: reasonOf(closed.error) });
  return paths;
}

export async function readSource(path: string, cwd: string): Promise<SourceFile | Problem> {
  try {
    const read = readText(isStandardInput(path) ? await fromStandardInput() : await readBytes(path));
    if ('problem' in read) return { file: shown(cwd, path), message: read.problem };
    return { path, ...read };
  } catch (error) {
    return { file: shown(cwd, path), message: reasonOf(error) };
  }
}

export const isProblem = (read: SourceFile | Problem): read is Problem => 'message' in read;

/** The nearest folder that holds all of the files; the working folder where there are none. */
export function commonFolder(paths: readonly string[], cwd: string): string {
  if (paths.length === 0) return cwd;
  return paths
    .map(path => dirname(path))
    .reduce((common, folder) => {
      let shared = common;
      while (shared !== folder && !folder.startsWith(shared.endsWith(sep) ? shared : shared + sep))
        shared = dirname(shared);
      return shared;
    });
}

export interface ApplicableFiles {
  /** Folder that all paths of the workspace are relative to. */
  readonly root: string;
  /** Files that apply to the given ones without being checked themselves, absolute. */
  readonly paths: readonly string[];
  /** Those of them that lie in folders above, where no repository says how far up an inventory reaches. */
  readonly unbounded: readonly string[];
}

/**
 * What applies to files: the .wood files in their own folders and in every folder above, so that a site,
 * persons and practice blocks up there apply.
 */
export async function applicableFiles(paths: readonly string[], cwd: string): Promise<ApplicableFiles> {
  const common = commonFolder(paths, cwd);
  const up = await foldersUp(common);
  const between = paths.flatMap(path => {
    const folders: string[] = [];
    for (let at = dirname(path); at !== common; at = dirname(at)) folders.push(at);
    return folders;
  });
  const given = new Set(paths);
  const beside = new Map<string, readonly string[]>();
  for (const folder of new Set([...up, ...between])) {
    const files = await inventoriesIn(folder);
    beside.set(
      folder,
      files.filter(path => !given.has(path)),
    );
  }
  const root = up.findLast(folder => (beside.get(folder) ?? []).length > 0) ?? common;
  // A folder above that holds nothing needs not be part of the workspace.
  const others = [...beside.values()].flat().sort();
  const above = up.slice(1).flatMap(folder => beside.get(folder) ?? []);
  return {
    root: root.length < common.length ? root : common,
    paths: others,
    unbounded: above.length === 0 || (await isRepository(up.at(-1)!)) ? [] : above.sort(),
  };
}

/** A path as the workspace names it: relative to its root, with slashes. */
export const inWorkspace = (root: string, path: string): string => slashed(relative(root, path));

/** Says on standard error what could not be read or computed. */
export function showProblems(problems: readonly Problem[], io: Io): void {
  for (const { file, message, fault } of problems) {
    io.err(`soundwood: ${sanitizeLine(`${file} ${message}`)}\n`);
    if (io.debug && fault?.error instanceof Error) io.err(`${fault.error.stack}\n`);
  }
}
