/** Inventories on a disk: those below a folder, and the folders above it that may hold what applies to them. */

import { type Dirent, promises, readdir as readFolder, type Stats, stat as statOf } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { promisify } from 'node:util';
import type { FileSystemAdapter } from 'fast-glob';

// Loading fs/promises would cost a start several milliseconds.
const readdir = promisify(readFolder);
const stat = promisify(statOf);

/** Something else than a file; the message follows its name. */
export class NotAFile extends Error {}

/**
 * Why something is not read that is there and no folder; undefined for a file. To read a pipe or a socket would wait for
 * whoever writes to it, and a device may never end.
 */
export function notAFileReason(
  entry: Pick<Stats, 'isFIFO' | 'isSocket' | 'isFile' | 'isDirectory'>,
): string | undefined {
  if (entry.isFile() || entry.isDirectory()) return undefined;
  const kind = entry.isFIFO() ? 'pipe' : entry.isSocket() ? 'socket' : 'device';
  return `is a ${kind}, not a file, and was not read`;
}

/** The bytes of a file. Throws NotAFile for what could be waited for without end. */
export async function readBytes(path: string): Promise<Buffer> {
  const why = notAFileReason(await stat(path));
  if (why !== undefined) throw new NotAFile(why);
  return promises.readFile(path);
}

export interface FolderInventories {
  /** Absolute, in no order. */
  readonly paths: readonly string[];
  /** Pipes, sockets and devices that are called as an inventory is, and why they are not read. */
  readonly odd: readonly { readonly path: string; readonly why: string }[];
  /** The first folder that could not be read, and why; the others were. */
  readonly closed?: { readonly path: string; readonly error: unknown };
}

/**
 * The inventories in a folder at any depth, whatever they and the folders are called. Symbolic links are not followed,
 * node_modules and what begins with a dot are passed over.
 * @param folder absolute
 */
export async function inventoriesBelow(folder: string): Promise<FolderInventories> {
  // Not needed where only files are given, as hooks do for the files of a commit.
  const { default: glob } = await import('fast-glob');
  const broken = new Map<string, Dirent>();
  const odd = new Map<string, string>();
  const options = {
    cwd: folder,
    followSymbolicLinks: false,
    ignore: ['**/node_modules/**'],
    fs: { readdir: recordingReaddir(folder, broken, odd) },
  };
  // Absolute paths of the library have a slash for every backslash, which may be a letter of a name.
  const find = async (suppressErrors: boolean) =>
    (await glob('**/*.wood', { ...options, suppressErrors })).map(name => join(folder, name));
  let paths: readonly string[];
  let closed: FolderInventories['closed'];
  try {
    paths = await find(false);
  } catch (error) {
    // One closed folder must not hide the others.
    const { path = folder } = error as NodeJS.ErrnoException;
    closed = { path, error };
    paths = await find(true);
  }
  // Some of them the library finds as well.
  const all = new Set(paths);
  for (const [path, entry] of broken) {
    if (entry.isFile() && path.endsWith('.wood')) all.add(path);
    if (!entry.isDirectory()) continue;
    const below = await inventoriesBelow(path);
    for (const inside of below.paths) all.add(inside);
    for (const one of below.odd) odd.set(one.path, one.why);
    closed ??= below.closed;
  }
  const found = { paths: [...all], odd: [...odd].map(([path, why]) => ({ path, why })) };
  return closed ? { ...found, closed } : found;
}

/** Whatever a dot of a pattern does not stand for. */
const LINE_END = /[\r\n\u2028\u2029]/;

/**
 * Reads folders for the library, whose patterns match no name that holds a line end: those are noted, to be looked at
 * apart, so that no inventory can hide from a check by what it is called. What is no file the library passes over
 * without a word: it is noted, too.
 */
function recordingReaddir(
  folder: string,
  broken: Map<string, Dirent>,
  odd: Map<string, string>,
): FileSystemAdapter['readdir'] {
  const read = (
    at: string,
    options: { readonly withFileTypes: true },
    done: (error: NodeJS.ErrnoException | null, entries: Dirent[]) => void,
  ) =>
    readFolder(at, options, (error, entries) => {
      for (const entry of entries ?? []) {
        const isPassedOver = entry.name.startsWith('.') || LINE_END.test(relative(folder, at));
        if (isPassedOver) continue;
        if (LINE_END.test(entry.name)) broken.set(join(at, entry.name), entry);
        // Links are not followed, whatever they lead to.
        const why = entry.isSymbolicLink() ? undefined : notAFileReason(entry);
        if (why !== undefined && entry.name.endsWith('.wood')) odd.set(join(at, entry.name), why);
      }
      done(error, entries);
    });
  // The library also knows a form without options, but asks for the kinds of entries always.
  return read as unknown as FileSystemAdapter['readdir'];
}

/** The inventories right in a folder, absolute; none where it can't be read. */
export async function inventoriesIn(folder: string): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  return entries
    .filter(entry => entry.isFile() && entry.name.endsWith('.wood'))
    .map(({ name }) => join(folder, name));
}

/** How far up a site or a practice block is looked for where no repository bounds it. */
const FOLDERS_UP = 5;

export const isRepository = async (folder: string): Promise<boolean> =>
  (await namesIn(folder)).includes('.git');

/** What a folder contains; nothing where it can't be read. */
export const namesIn = (folder: string): Promise<string[]> => readdir(folder).catch(() => []);

/** The folder itself and those above it, up to the root of the repository or five levels. */
export async function foldersUp(folder: string): Promise<readonly string[]> {
  const folders = [folder];
  for (let level = 0, at = folder; level < FOLDERS_UP; level++) {
    if (await isRepository(at)) return folders;
    const above = dirname(at);
    if (above === at) break;
    folders.push(above);
    at = above;
  }
  return folders;
}
