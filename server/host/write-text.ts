/** Writes files atomically: a crash leaves the old or the new content, never a part. */

import { appendFileSync, rmSync } from 'node:fs';
import { type FileHandle, link, open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { shown } from './paths.ts';

/** Replaces the whole file and keeps its mode and owner. Throws UserError. */
export async function writeText(path: string, text: string | Uint8Array, cwd: string): Promise<void> {
  const file = await replacement(path, cwd);
  try {
    file.write(text);
    await file.keep();
  } finally {
    await file.drop();
  }
}

/** A file written in pieces under a temporary name, which gets its own when it is complete. */
export interface FileInPieces {
  /** Throws UserError. */
  readonly write: (piece: string | Uint8Array) => void;
  /** Gives the file its final name. Throws UserError. */
  readonly keep: () => Promise<void>;
  /** Removes the temporary file; does nothing to a file that was kept. */
  readonly drop: () => Promise<void>;
}

/** For texts too long for memory: replaces the file when all is written. Throws UserError. */
export async function replacement(path: string, cwd: string): Promise<FileInPieces> {
  const told = tellingOf(path, cwd);
  return told(async () => {
    const target = await realpath(path).catch(() => path);
    const old = await stat(target).catch(() => undefined);
    // Devices and pipes are written to, not replaced.
    if (old && !old.isFile() && !old.isDirectory()) {
      const device = await open(target, 'w');
      const close = () => device.close().catch(() => {});
      return { write: writingTo(device, path, cwd), keep: close, drop: close };
    }
    // Renaming needs write permission only on the folder; this honors a read-only file too.
    if (old?.isFile()) await (await open(target, 'r+')).close();
    const { name, file, end } = await openTemporary(target);
    return {
      write: writingTo(file, path, cwd),
      keep: () =>
        told(async () => {
          if (old) {
            await file.chmod(old.mode);
            // Fails for anybody but root, whose files already have the right owner.
            await file.chown(old.uid, old.gid).catch(() => {});
          }
          await file.sync();
          await file.close();
          await rename(name, target);
        }),
      drop: end,
    };
  });
}

const writingTo =
  ({ fd }: FileHandle, path: string, cwd: string): FileInPieces['write'] =>
  piece => {
    try {
      appendFileSync(fd, piece);
    } catch (error) {
      throw failed(path, cwd, error);
    }
  };

/** Turns errors of the system into ones for users. */
const tellingOf =
  (path: string, cwd: string) =>
  async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      throw failed(path, cwd, error);
    }
  };

/** Writes a file that must not exist yet. Throws UserError. */
export async function writeNewText(path: string, text: string, cwd: string): Promise<void> {
  const file = await newFile(path, cwd);
  try {
    file.write(text);
    await file.keep();
  } finally {
    await file.drop();
  }
}

/** A file that must not exist yet, for texts too long for memory. Throws UserError. */
export async function newFile(path: string, cwd: string): Promise<FileInPieces> {
  const exists = () => new UserError(`${shown(cwd, path)} already exists and will not be overwritten.`);
  const isThere = () =>
    stat(path).then(
      () => true,
      () => false,
    );
  if (await isThere()) throw exists();
  const { name, file, end } = await openTemporary(path).catch((error: unknown) => {
    throw failed(path, cwd, error);
  });
  return {
    write: writingTo(file, path, cwd),
    async keep() {
      try {
        await file.sync();
        await file.close();
        // Unlike rename, link never replaces an existing file.
        await link(name, path).catch(async (error: NodeJS.ErrnoException) => {
          if (error.code === 'EEXIST' || (await isThere())) throw exists();
          // Some file systems have no hard links.
          await rename(name, path);
        });
      } catch (error) {
        throw error instanceof UserError ? error : failed(path, cwd, error);
      } finally {
        await end();
      }
    },
    drop: end,
  };
}

const failed = (path: string, cwd: string, error: unknown): UserError =>
  new UserError(`${shown(cwd, path)} can't be written: ${whyNot(error as NodeJS.ErrnoException)}.`);

function whyNot({ code, message }: NodeJS.ErrnoException): string {
  if (code === 'ENOENT') return 'its folder does not exist';
  if (code === 'EACCES' || code === 'EPERM') return 'permission denied';
  // Without the call and the temporary name.
  return message.split(',')[0]!;
}

interface TemporaryFile {
  readonly name: string;
  readonly file: FileHandle;
  /** Closes the file and removes the temporary name. */
  readonly end: () => Promise<void>;
}

/** Signals after which the program can still clean up; after any other, the next writer does. */
const ENDS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** A new temporary file in the folder of `path`. Its name does not end in .wood, so no check reads it. */
async function openTemporary(path: string): Promise<TemporaryFile> {
  await removeAbandoned(path);
  const name = join(dirname(path), `.${basename(path)}.${process.pid}.unfinished`);
  // `x`: fails on an existing file or link.
  const file = await open(name, 'wx');
  const tidyUp = (signal: NodeJS.Signals) => {
    rmSync(name, { force: true });
    forget();
    process.kill(process.pid, signal);
  };
  const forget = () => {
    for (const signal of ENDS) process.off(signal, tidyUp);
  };
  for (const signal of ENDS) process.on(signal, tidyUp);
  return {
    name,
    file,
    async end() {
      await file.close().catch(() => {});
      await rm(name, { force: true });
      forget();
    },
  };
}

/** Removes temporary files of processes that were killed. */
async function removeAbandoned(path: string): Promise<void> {
  const [start, finish] = [`.${basename(path)}.`, '.unfinished'];
  for (const name of await readdir(dirname(path)).catch((): string[] => [])) {
    if (!name.startsWith(start) || !name.endsWith(finish)) continue;
    const writer = name.slice(start.length, -finish.length);
    if (/^[1-9]\d*$/.test(writer) && !isRunning(Number(writer)))
      await rm(join(dirname(path), name), { force: true });
  }
}

/** Whether another process has this number; our own has not started writing yet. */
function isRunning(id: number): boolean {
  if (id === process.pid) return false;
  try {
    return process.kill(id, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
