/** A git repository of its own for a test, with a terminal in its working tree. */

import { execFile } from 'node:child_process';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { promisify } from 'node:util';
import { type Folder, folderWith } from '../cli/folder.ts';

const run = promisify(execFile);

export interface Repository extends Folder {
  readonly git: (...args: string[]) => Promise<string>;
  /** Writes these files; undefined removes one. */
  readonly write: (files: Readonly<Record<string, string | undefined>>) => Promise<void>;
  /** Commits all that is there. */
  readonly commit: (message: string) => Promise<void>;
}

/** What the machine's own settings say must not reach a test. */
const ENVIRONMENT = { ...process.env, GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_NOSYSTEM: '1' };

export const gitIn = async (cwd: string, ...args: string[]): Promise<string> =>
  (await run('git', args, { cwd, env: ENVIRONMENT })).stdout;

/** A repository whose branch main has one commit with these files. */
export async function repositoryWith(
  files: Readonly<Record<string, string>>,
  ...initOptions: string[]
): Promise<Repository> {
  const folder = await folderWith({});
  const git = (...args: string[]) => gitIn(folder.path, ...args);
  const write = async (contents: Readonly<Record<string, string | undefined>>) => {
    for (const [name, content] of Object.entries(contents)) {
      if (content === undefined) await rm(folder.file(name));
      else {
        await mkdir(dirname(folder.file(name)), { recursive: true });
        await writeFile(folder.file(name), content);
      }
    }
  };
  const commit = async (message: string) => {
    await git('add', '--all');
    await git('commit', '--quiet', '--allow-empty', '--no-verify', '--message', message);
  };
  await git('init', '--quiet', '--initial-branch=main', ...initOptions);
  await git('config', 'user.name', 'Ruth Varga');
  await git('config', 'user.email', 'ruth@example.org');
  await git('config', 'commit.gpgsign', 'false');
  await write(files);
  await commit('First state');
  return { ...folder, git, write, commit };
}
