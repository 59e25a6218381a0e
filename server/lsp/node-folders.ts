/** Inventories on a disk: those below a folder, and the folders above it that may hold what applies to them. */

import { readdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';

export interface Below {
  /** Absolute, in no order. */
  readonly paths: readonly string[];
  /** The first folder that could not be read, and why; the others were. */
  readonly closed?: { readonly path: string; readonly error: unknown };
}

/**
 * The inventories in a folder at any depth. Symbolic links are not followed, node_modules and folders that begin with
 * a dot are passed over.
 * @param folder absolute
 */
export async function inventoriesBelow(folder: string): Promise<Below> {
  // Not needed where only files are given, as hooks do for the files of a commit.
  const { default: glob } = await import('fast-glob');
  const options = { cwd: folder, followSymbolicLinks: false, ignore: ['**/node_modules/**'] };
  // Absolute paths of the library have a slash for every backslash, which may be a letter of a name.
  const absolute = (names: readonly string[]) => names.map(name => join(folder, name));
  try {
    return { paths: absolute(await glob('**/*.wood', options)) };
  } catch (error) {
    // One closed folder must not hide the others.
    const { path = folder } = error as NodeJS.ErrnoException;
    const open = await glob('**/*.wood', { ...options, suppressErrors: true });
    return { paths: absolute(open), closed: { path, error } };
  }
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

/** The folder itself and those above it, up to the root of the repository or five levels. */
export async function foldersUp(folder: string): Promise<readonly string[]> {
  const folders = [folder];
  for (let level = 0, at = folder; level < FOLDERS_UP; level++) {
    if ((await readdir(at).catch((): string[] => [])).includes('.git')) return folders;
    const above = dirname(at);
    if (above === at) break;
    folders.push(above);
    at = above;
  }
  return folders;
}
