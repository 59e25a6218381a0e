/** Reads the photographs below a folder: what each says of itself, and which are copies. */

import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { join, resolve } from 'node:path';
import { NotAFile } from '../host/folders.ts';
import { picturesBelow } from '../host/photos.ts';
import { readPicture } from '../host/pictures.ts';
import { type Shot, shotOf } from '../import/pictures.ts';
import { canBeNamed } from '../language/photos.ts';
import { reasonOf } from './files.ts';
import type { Io } from './io.ts';
import { progressOf } from './progress.ts';

export interface ReadPictures {
  readonly shots: readonly Shot[];
  /** With the same bytes as one of the shots. */
  readonly copies: readonly { readonly path: string; readonly of: string }[];
  readonly unread: readonly { readonly path: string; readonly reason: string }[];
}

/** Concurrent reads; more would only queue at the disk. */
const AT_A_TIME = 4;

/**
 * Of each picture only what it says of itself stays in memory; only pictures of equal length are read as a whole.
 * @param folder absolute
 * @param pathOf the path of a picture, given relative to the folder, in the workspace
 */
export async function readPictures(
  folder: string,
  pathOf: (path: string) => string,
  io: Io,
): Promise<ReadPictures> {
  const paths = (await picturesBelow(folder)).toSorted();
  const progress = await progressOf(io, paths.length, 'reading pictures');
  const shots: (Shot | undefined)[] = [];
  const lengths = new Map<number, number[]>();
  const unread: { path: string; reason: string }[] = [];
  let next = 0;
  const reader = async (): Promise<void> => {
    for (let i = next++; i < paths.length; i = next++) {
      const path = paths[i]!;
      try {
        if (!canBeNamed(path))
          throw new NotAFile(
            'has a name that cannot be used in a record: rename it with letters, digits and hyphens',
          );
        const { record, bytes } = await readPicture(resolve(folder, path));
        shots[i] = shotOf({ path: pathOf(path), record });
        const same = lengths.get(bytes);
        if (same) same.push(i);
        else lengths.set(bytes, [i]);
      } catch (error) {
        unread.push({ path: pathOf(path), reason: reasonOf(error) });
      }
      progress.step();
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_A_TIME }, reader));
  } finally {
    progress.end();
  }
  const copies: { path: string; of: string }[] = [];
  for (const same of lengths.values()) {
    if (same.length === 1) continue;
    const firsts = new Map<string, number>();
    // A copy has the longer name: `IMG_1 (2).jpg`.
    for (const i of same.sort((a, b) => paths[a]!.length - paths[b]!.length || a - b)) {
      const digest = await digestOf(join(folder, paths[i]!)).catch(() => undefined);
      const first = digest === undefined ? undefined : firsts.get(digest);
      if (first === undefined) {
        if (digest !== undefined) firsts.set(digest, i);
        continue;
      }
      copies.push({ path: shots[i]!.path, of: shots[first]!.path });
      shots[i] = undefined;
    }
  }
  return { shots: shots.filter(shot => shot !== undefined), copies, unread };
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const part of createReadStream(path)) hash.update(part as Buffer);
  return hash.digest('hex');
}
