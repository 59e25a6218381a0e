/** Writing files so that a crash leaves the old or the new one, never half of one. */

import { rmSync } from 'node:fs';
import { link, open, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import writeFileAtomic from 'write-file-atomic';
import { shown } from './files.ts';
import { CannotRun } from './io.ts';

/** Replaces the file whole; mode and owner of an old one are kept. Throws CannotRun. */
export async function writeText(path: string, text: string | Uint8Array, cwd: string): Promise<void> {
  try {
    const old = await stat(path).catch(() => undefined);
    // A device or a pipe is written to, not replaced.
    if (old && !old.isFile() && !old.isDirectory()) await writeFile(path, text);
    else await writeFileAtomic(path, text);
  } catch (error) {
    throw new CannotRun(`${shown(cwd, path)} can't be written: ${(error as Error).message}.`);
  }
}

/** Writes a file that must not exist yet. Throws CannotRun. */
export async function writeNewText(path: string, text: string, cwd: string): Promise<void> {
  try {
    await writeFile(path, text, { flag: 'wx' });
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    throw new CannotRun(
      code === 'EEXIST'
        ? `${shown(cwd, path)} exists already, and nothing is overwritten.`
        : `${shown(cwd, path)} can't be written: ${message}.`,
    );
  }
}

/** A file that is written piece by piece beside its place, and moved there when it is whole. */
export interface NewFile {
  readonly write: (text: string) => Promise<void>;
  /** Gives it its name. Throws CannotRun where something has this name by now. */
  readonly keep: () => Promise<void>;
  /** Leaves nothing behind. */
  readonly drop: () => Promise<void>;
}

/** Ends of the program that leave it the time to tidy up; after any other the file beside the place stays. */
const ENDS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** A file that must not exist yet, for texts too long to be held. Throws CannotRun. */
export async function newFile(path: string, cwd: string): Promise<NewFile> {
  const exists = () => new CannotRun(`${shown(cwd, path)} exists already, and nothing is overwritten.`);
  const failed = (error: unknown) =>
    new CannotRun(`${shown(cwd, path)} can't be written: ${(error as Error).message}.`);
  const isThere = () =>
    stat(path).then(
      () => true,
      () => false,
    );
  if (await isThere()) throw exists();
  // It does not end as an inventory does: no check takes half of one for the whole.
  const beside = join(dirname(path), `.${basename(path)}.${process.pid}.unfinished`);
  const file = await open(beside, 'w').catch((error: unknown) => {
    throw failed(error);
  });
  const tidyUp = (signal: NodeJS.Signals) => {
    rmSync(beside, { force: true });
    forget();
    process.kill(process.pid, signal);
  };
  const forget = () => {
    for (const signal of ENDS) process.off(signal, tidyUp);
  };
  for (const signal of ENDS) process.on(signal, tidyUp);
  return {
    write: text => file.appendFile(text).catch(error => Promise.reject(failed(error))),
    async keep() {
      try {
        await file.sync();
        await file.close();
        // Unlike a move, a second name never takes the place of a file.
        await link(beside, path).catch(async (error: NodeJS.ErrnoException) => {
          if (error.code === 'EEXIST' || (await isThere())) throw exists();
          // Some file systems have no second names.
          await rename(beside, path);
        });
      } catch (error) {
        throw error instanceof CannotRun ? error : failed(error);
      } finally {
        await rm(beside, { force: true });
        forget();
      }
    },
    async drop() {
      await file.close().catch(() => {});
      await rm(beside, { force: true });
      forget();
    },
  };
}
