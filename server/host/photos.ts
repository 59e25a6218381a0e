/** Photographs on a disk: only below a folder, never through a link out of it, and no more than their first bytes. */

import fs, { constants } from 'node:fs';
import { join, sep } from 'node:path';
import type { PhotoFile, PhotoIndex } from '../facts/photos.ts';

/** As many at a time: more only queue up in front of one disk. */
const AT_A_TIME = 8;

const MEANINGS: Readonly<Record<string, PhotoFile>> = {
  ENOENT: { state: 'missing' },
  ENOTDIR: { state: 'missing' },
  EACCES: { state: 'unreadable', reason: 'may not be read: permission denied' },
  EPERM: { state: 'unreadable', reason: 'may not be read: permission denied' },
  ELOOP: { state: 'unreadable', reason: 'is a symbolic link that leads in a circle' },
};

/**
 * What is known of these photographs.
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

/** Undefined where a link leads out of the folder: what lies there is not ours to look at. */
async function readPhoto(bounds: string, path: string): Promise<PhotoFile | undefined> {
  try {
    const file = await fs.promises.realpath(join(bounds, path));
    if (!file.startsWith(bounds.endsWith(sep) ? bounds : bounds + sep)) return undefined;
    // Only where there is one: most inventories name none.
    const { PHOTO_HEAD_BYTES, photoFileOf } = await import('../facts/read-photo.ts');
    const head = await headOf(file, PHOTO_HEAD_BYTES);
    return head ? await photoFileOf(head) : { state: 'unreadable', reason: 'is no file' };
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException;
    // What the system says, without the call and the path, which are another on every machine.
    return MEANINGS[code] ?? { state: 'unreadable', reason: `can not be read (${message.split(',')[0]})` };
  }
}

/** The first bytes; undefined for what is no plain file. */
async function headOf(path: string, most: number): Promise<Uint8Array | undefined> {
  // Without waiting for somebody at the other end, should it be a pipe.
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
