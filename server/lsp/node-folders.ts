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
 * The inventories in a folder at any depth, whatever they and the folders are called. Symbolic links are not followed,
 * node_modules and what begins with a dot are passed over.
 * @param folder absolute
 */
export async function inventoriesBelow(folder: string): Promise<Below> {
  const paths: string[] = [];
  let closed: Below['closed'];
  const waiting = [folder];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    try {
      for (const entry of await readdir(at, { withFileTypes: true })) {
        const { name } = entry;
        if (name.startsWith('.') || name === 'node_modules') continue;
        if (entry.isDirectory()) waiting.push(join(at, name));
        else if (entry.isFile() && name.endsWith('.wood')) paths.push(join(at, name));
      }
    } catch (error) {
      // One closed folder must not hide the others.
      closed ??= { path: at, error };
    }
  }
  return closed ? { paths, closed } : { paths };
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
