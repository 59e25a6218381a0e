/** Reads the first bytes of photographs below a folder; links that lead out of the folder are not followed. */

import fs, { constants } from 'node:fs';
import { join, sep } from 'node:path';
import {
  isPhotoPath,
  MOST_NAMED,
  NAMED_GLOB,
  PHOTO_GLOB,
  type PhotoFile,
  type PhotoIndex,
} from '../facts/photos.ts';
import { NotAFile } from './folders.ts';

/** Concurrent reads; more would only queue at the disk. */
const AT_A_TIME = 8;

const MEANINGS: Readonly<Record<string, PhotoFile>> = {
  ENOENT: { state: 'missing' },
  ENOTDIR: { state: 'missing' },
  EACCES: { state: 'unreadable', reason: 'cannot be read: permission denied' },
  EPERM: { state: 'unreadable', reason: 'cannot be read: permission denied' },
  ELOOP: { state: 'unreadable', reason: 'is a symbolic link that points back to itself' },
};

/**
 * The state of each photograph; those outside the folder are left out.
 * @param root absolute folder that they lie in
 * @param paths relative to it, with `/`
 */
export async function readPhotos(root: string, paths: Iterable<string>): Promise<PhotoIndex> {
  const waiting = [...new Set(paths)];
  const found = new Map<string, PhotoFile>();
  if (waiting.length === 0) return found;
  const bounds = await fs.promises.realpath(root).catch(() => undefined);
  if (bounds === undefined) return found;
  const reader = async (): Promise<void> => {
    for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
      const file = await readPhoto(bounds, path);
      if (file) found.set(path, file);
    }
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, reader));
  return found;
}

/** Undefined if a link leads out of the folder: files there must not be read. */
async function readPhoto(bounds: string, path: string): Promise<PhotoFile | undefined> {
  try {
    const file = await fs.promises.realpath(join(bounds, path));
    if (!file.startsWith(bounds.endsWith(sep) ? bounds : bounds + sep)) return undefined;
    // Loaded lazily: most inventories name no photograph.
    if (isPhotoPath(path)) {
      const { record } = await (await import('./pictures.ts')).readPicture(file);
      return record ? { state: 'read', record } : { state: 'read' };
    }
    const { PHOTO_HEAD_BYTES, photoFileOf } = await import('../facts/read-photo.ts');
    const head = await headOf(file, PHOTO_HEAD_BYTES);
    return head ? await photoFileOf(path, head) : { state: 'unreadable', reason: 'is not a file' };
  } catch (error) {
    if (error instanceof NotAFile) return { state: 'unreadable', reason: error.message };
    const { code = '', message } = error as NodeJS.ErrnoException;
    // The system's message without the call and the path, which differ from machine to machine.
    return MEANINGS[code] ?? { state: 'unreadable', reason: `cannot be read (${message.split(',')[0]})` };
  }
}

/** The first bytes; undefined if it is not a regular file. */
async function headOf(path: string, most: number): Promise<Uint8Array | undefined> {
  // Non-blocking, in case it is a pipe without a writer.
  const handle = await fs.promises.open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const status = await handle.stat();
    if (!status.isFile()) return undefined;
    const bytes = new Uint8Array(Math.min(most, status.size));
    const { bytesRead } = await handle.read(bytes, 0, bytes.length, 0);
    return bytes.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}

/**
 * The paths of the photographs and measured files below a folder, relative to it. Symbolic links are not followed; node_modules and names
 * that begin with a dot are skipped. Of very many, some.
 * @param folder absolute
 */
export const namedFilesBelow = (folder: string): Promise<readonly string[]> =>
  filesBelow(folder, NAMED_GLOB, MOST_NAMED);

/** The paths of all photographs below a folder, likewise. */
export const picturesBelow = (folder: string): Promise<readonly string[]> =>
  filesBelow(folder, PHOTO_GLOB, Number.POSITIVE_INFINITY);

async function filesBelow(folder: string, pattern: string, most: number): Promise<readonly string[]> {
  const { default: glob } = await import('fast-glob');
  const options = {
    cwd: folder,
    followSymbolicLinks: false,
    ignore: ['**/node_modules/**'],
    suppressErrors: true,
  };
  const paths: string[] = [];
  for await (const path of glob.stream(pattern, options)) {
    paths.push(String(path));
    if (paths.length === most) break;
  }
  return paths;
}

/** Whether a photograph is a file below the folder, with links followed. */
export async function isPhotoIn(folder: string, path: string): Promise<boolean> {
  const found = (await readPhotos(folder, [path])).get(path);
  return found?.state === 'read';
}
