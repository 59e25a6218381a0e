/** Inventories on a disk: those below a folder, and the folders above it whose settings may apply to them. */

import { type Dirent, promises, readdir as readFolder, type Stats, stat as statOf } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { promisify } from 'node:util';
import type { FileSystemAdapter } from 'fast-glob';
import { slashed } from './paths.ts';

// Loading fs/promises would cost a start several milliseconds.
const readdir = promisify(readFolder);
const stat = promisify(statOf);

/** The path is not a regular file; the message is written after its name. */
export class NotAFile extends Error {}

/**
 * Why an entry is not read; undefined for files and folders. Reading a pipe or socket blocks until somebody writes to it,
 * and a device may never end.
 */
export function notAFileReason(
  entry: Pick<Stats, 'isFIFO' | 'isSocket' | 'isFile' | 'isDirectory'>,
): string | undefined {
  if (entry.isFile() || entry.isDirectory()) return undefined;
  const kind = entry.isFIFO() ? 'pipe' : entry.isSocket() ? 'socket' : 'device';
  return `is a ${kind}, not a file, and was not read`;
}

/** The bytes of a file. Throws NotAFile for pipes, sockets and devices. */
export async function readBytes(path: string): Promise<Buffer> {
  const why = notAFileReason(await stat(path));
  if (why !== undefined) throw new NotAFile(why);
  return promises.readFile(path);
}

export interface FolderInventories {
  /** Absolute, in no order. */
  readonly paths: readonly string[];
  /** Pipes, sockets and devices with the name of an inventory, and names that end in .WOOD: why they are not read. */
  readonly odd: readonly { readonly path: string; readonly why: string }[];
  /** The first folder that could not be read, and why; all others were read. */
  readonly closed?: { readonly path: string; readonly error: unknown };
}

/**
 * The inventories in a folder at any depth. Symbolic links are not followed; node_modules and names that begin with a
 * dot are skipped.
 * @param folder absolute
 */
export async function inventoriesBelow(folder: string): Promise<FolderInventories> {
  // Loaded lazily: hooks that pass only files do not need it.
  const { default: glob } = await import('fast-glob');
  const broken = new Map<string, Dirent>();
  const odd = new Map<string, string>();
  const options = {
    cwd: folder,
    followSymbolicLinks: false,
    ignore: ['**/node_modules/**'],
    fs: { readdir: recordingReaddir(folder, broken, odd) },
  };
  // The library's absolute paths turn backslashes into slashes, but a backslash may be part of a name.
  const find = async (suppressErrors: boolean) =>
    (await glob('**/*.wood', { ...options, suppressErrors })).map(name => join(folder, name));
  let paths: readonly string[];
  let closed: FolderInventories['closed'];
  try {
    paths = await find(false);
  } catch (error) {
    // One unreadable folder must not hide the others.
    const { path = folder } = error as NodeJS.ErrnoException;
    closed = { path, error };
    paths = await find(true);
  }
  // The library finds some of them too.
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

/** `TREES.WOOD`: on some systems the name of an inventory, on others not. */
const isMisspelled = (name: string): boolean => /\.wood$/i.test(name) && !name.endsWith('.wood');

/** What `.` does not match in a regular expression. */
const LINE_END = /[\r\n\u2028\u2029]/;

/**
 * A readdir for the library that records what the library misses: its patterns match no name with a line end, so an
 * inventory could hide from the check by its name; and it silently skips what is not a regular file.
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
        // Links are not followed, whatever their target.
        const why = entry.isSymbolicLink() ? undefined : notAFileReason(entry);
        if (why !== undefined && entry.name.endsWith('.wood')) odd.set(join(at, entry.name), why);
        if (entry.isFile() && isMisspelled(entry.name))
          odd.set(
            join(at, entry.name),
            `is not read under this name: rename it to ${entry.name.replace(/\.wood$/i, '.wood')}`,
          );
      }
      done(error, entries);
    });
  // The library's type includes an overload without options, which it never calls.
  return read as unknown as FileSystemAdapter['readdir'];
}

/** The inventories directly in a folder, as absolute paths; none if it cannot be read. */
export async function inventoriesIn(folder: string): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  return entries
    .filter(entry => entry.isFile() && entry.name.endsWith('.wood'))
    .map(({ name }) => join(folder, name));
}

/** How many levels up site and practice blocks are searched for outside a repository. */
const FOLDERS_UP = 5;

export const isRepository = async (folder: string): Promise<boolean> =>
  (await namesIn(folder)).includes('.git');

/** The folder relative to the root of the repository that holds it, with slashes; undefined outside of one. */
export async function fromRepositoryRoot(folder: string): Promise<string | undefined> {
  for (let at = folder; ; at = dirname(at)) {
    if (await isRepository(at)) return slashed(relative(at, folder));
    if (dirname(at) === at) return undefined;
  }
}

/** Names of the entries of a folder; none if it cannot be read. */
export const namesIn = (folder: string): Promise<string[]> => readdir(folder).catch(() => []);

/** The folder and its ancestors, up to the root of the repository or FOLDERS_UP levels. */
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
