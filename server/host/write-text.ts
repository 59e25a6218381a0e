/** Writing files so that a crash leaves the old or the new one, never half of one. */

import { rmSync } from 'node:fs';
import {
  type FileHandle,
  link,
  open,
  readdir,
  realpath,
  rename,
  rm,
  stat,
  writeFile,
} from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { shown } from './paths.ts';

/** Replaces the file whole; mode and owner of an old one are kept. Throws CannotRun. */
export async function writeText(path: string, text: string | Uint8Array, cwd: string): Promise<void> {
  try {
    const target = await realpath(path).catch(() => path);
    const old = await stat(target).catch(() => undefined);
    // A device or a pipe is written to, not replaced.
    if (old && !old.isFile() && !old.isDirectory()) return await writeFile(target, text);
    // Its folder alone would let it be replaced; who made it read-only did not mean that.
    if (old?.isFile()) await (await open(target, 'r+')).close();
    const { name, file, end } = await openTemporary(target);
    try {
      await file.writeFile(text);
      if (old) {
        await file.chmod(old.mode);
        // Only root may give files away; to anybody else the file belongs already.
        await file.chown(old.uid, old.gid).catch(() => {});
      }
      await file.sync();
      await file.close();
      await rename(name, target);
    } finally {
      await end();
    }
  } catch (error) {
    throw failed(path, cwd, error);
  }
}

/** Writes a file that must not exist yet. Throws CannotRun. */
export async function writeNewText(path: string, text: string, cwd: string): Promise<void> {
  const file = await newFile(path, cwd);
  try {
    await file.write(text);
    await file.keep();
  } finally {
    await file.drop();
  }
}

/** A file that is written piece by piece beside its place, and moved there when it is whole. */
export interface NewFile {
  readonly write: (text: string) => Promise<void>;
  /** Gives it its name. Throws CannotRun where something has this name by now. */
  readonly keep: () => Promise<void>;
  /** Leaves nothing behind but what was kept. */
  readonly drop: () => Promise<void>;
}

/** A file that must not exist yet, for texts too long to be held. Throws CannotRun. */
export async function newFile(path: string, cwd: string): Promise<NewFile> {
  const exists = () => new UserError(`${shown(cwd, path)} exists already, and nothing is overwritten.`);
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
    write: text => file.appendFile(text).catch(error => Promise.reject(failed(path, cwd, error))),
    async keep() {
      try {
        await file.sync();
        await file.close();
        // Unlike a move, a second name never takes the place of a file.
        await link(name, path).catch(async (error: NodeJS.ErrnoException) => {
          if (error.code === 'EEXIST' || (await isThere())) throw exists();
          // Some file systems have no second names.
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
  // Without the call and the name under which it is written until it is whole.
  return message.split(',')[0]!;
}

interface TemporaryFile {
  readonly name: string;
  readonly file: FileHandle;
  /** Takes it away, unless it has another name by now. */
  readonly end: () => Promise<void>;
}

/** Ends of the program that leave it the time to tidy up; after any other the next one that writes there does. */
const ENDS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** A new file beside a place. Its name does not end as an inventory's does: no check takes half of one for the whole. */
async function openTemporary(path: string): Promise<TemporaryFile> {
  await removeAbandoned(path);
  const name = join(dirname(path), `.${basename(path)}.${process.pid}.unfinished`);
  // Never through a link that somebody laid there.
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

/** Removes what programs left beside a place that were killed in the middle of their work. */
async function removeAbandoned(path: string): Promise<void> {
  const [start, finish] = [`.${basename(path)}.`, '.unfinished'];
  for (const name of await readdir(dirname(path)).catch((): string[] => [])) {
    if (!name.startsWith(start) || !name.endsWith(finish)) continue;
    const writer = name.slice(start.length, -finish.length);
    if (/^[1-9]\d*$/.test(writer) && !isRunning(Number(writer)))
      await rm(join(dirname(path), name), { force: true });
  }
}

/** Another process of this number. Our own has not begun yet. */
function isRunning(id: number): boolean {
  if (id === process.pid) return false;
  try {
    return process.kill(id, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
