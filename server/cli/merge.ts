/** `soundwood merge`: the merge driver for git. The result replaces the second file. */

import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { mergeInventories } from '../../grammar/merge.ts';
import { UserError } from '../base/user-error.ts';
import { notAFileReason } from '../host/folders.ts';
import { git } from '../host/git.ts';
import { shown } from '../host/paths.ts';
import { writeText } from '../host/write-text.ts';
import { isProblem, readSource } from './files.ts';
import { EXIT_CLEAN, EXIT_FINDINGS, type Io } from './io.ts';

export interface MergeOptions {
  readonly markerSize: number;
}

/** Exits with 1 if both sides changed the same fact, which git treats as a conflict. */
export async function merge(
  base: string,
  ours: string,
  theirs: string,
  { markerSize }: MergeOptions,
  io: Io,
): Promise<number> {
  const paths = [base, ours, theirs].map(path => resolve(io.cwd, path));
  for (const path of paths) {
    const why = await stat(path).then(notAFileReason, () => undefined);
    // Reading it could block without end.
    if (why !== undefined) throw new UserError(`${shown(io.cwd, path)} ${why}.`);
  }
  const sources = await Promise.all(paths.map(path => readSource(path, io.cwd)));
  const texts = sources.flatMap(source => {
    if (!isProblem(source)) return [(source.byteOrderMark ? '\uFEFF' : '') + source.text];
    io.err(`soundwood: ${source.file} ${source.message}; merged by lines instead.\n`);
    return [];
  });
  if (texts.length < paths.length) return mergeLines(paths, markerSize, io.cwd);
  const [b, o, t] = texts;
  const { text, conflicts } = mergeInventories(b!, o!, t!, markerSize);
  await writeText(paths[1]!, text, io.cwd);
  return conflicts > 0 ? EXIT_FINDINGS : EXIT_CLEAN;
}

/** Merges by lines with git: for files that are not text, so that neither version is lost. */
async function mergeLines(
  [base, ours, theirs]: readonly string[],
  markerSize: number,
  cwd: string,
): Promise<number> {
  const files = [ours!, base!, theirs!];
  try {
    await git(cwd, [
      'merge-file',
      '-L',
      'ours',
      '-L',
      'base',
      '-L',
      'theirs',
      `--marker-size=${markerSize}`,
      '--',
      ...files,
    ]);
    return EXIT_CLEAN;
  } catch (error) {
    if (error instanceof UserError) throw error;
    const { code, stderr } = error as { readonly code?: number | string; readonly stderr?: string };
    // The exit code is the number of conflicts, at most 127, or greater on failure.
    if (typeof code === 'number' && code > 0 && code <= 127) return EXIT_FINDINGS;
    throw new UserError(`git merge-file failed: ${(stderr ?? String(error)).trim()}`);
  }
}
