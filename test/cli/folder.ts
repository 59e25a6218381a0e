/** A folder of its own for a test, and a terminal that keeps what is written to it. */

import { mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import type { Io } from '../../server/cli/io.ts';
import { run } from '../../server/cli/program.ts';
import { plain } from '../../server/show/terminal.ts';

export interface Folder {
  readonly path: string;
  readonly file: (name: string) => string;
  /** Runs `soundwood` in the folder. */
  readonly run: (...args: string[]) => Promise<Result>;
  /** The same in a folder of it. */
  readonly runIn: (folder: string, ...args: string[]) => Promise<Result>;
  /** The same, with a person at the terminal who gives these answers. */
  readonly talk: (answers: readonly string[], ...args: string[]) => Promise<Result>;
}

export interface Result {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export const ON = '2026-06-01';

/** A temporary folder with these files, removed after the test; its .git keeps the world above out of it. */
export async function folderWith(files: Readonly<Record<string, string | Uint8Array>>): Promise<Folder> {
  const path = await realpath(await mkdtemp(join(tmpdir(), 'soundwood-')));
  onTestFinished(() => rm(path, { recursive: true, force: true }));
  await mkdir(join(path, '.git'));
  for (const [name, content] of Object.entries(files)) {
    await mkdir(dirname(join(path, name)), { recursive: true });
    await writeFile(join(path, name), content);
  }
  const start = async (args: readonly string[], more: Partial<Io>): Promise<Result> => {
    let out = '';
    let err = '';
    const io: Io = {
      cwd: path,
      out: text => {
        out += text;
      },
      err: text => {
        err += text;
      },
      paint: plain,
      columns: 80,
      interactive: false,
      debug: false,
      progress: false,
      today: parseDate(ON)!,
      ask: () => Promise.reject(new Error('There is nobody to ask.')),
      ...more,
    };
    const code = await run(args, io);
    return { code, out, err };
  };
  return {
    path,
    file: name => join(path, name),
    run: (...args) => start(args, {}),
    runIn: (folder, ...args) => start(args, { cwd: join(path, folder) }),
    talk: (answers, ...args) => {
      const left = [...answers];
      return start(args, {
        interactive: true,
        ask: async (_question, proposal) => left.shift() || proposal,
      });
    },
  };
}
