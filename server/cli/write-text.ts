/** Writing files so that a crash leaves the old or the new one, never half of one. */

import { stat, writeFile } from 'node:fs/promises';
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
