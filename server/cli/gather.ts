/** `soundwood gather`: puts the results of the parts of a check together, as if one run had checked all. */

import { resolve } from 'node:path';
import { readBytes } from '../host/folders.ts';
import { shown } from '../host/paths.ts';
import { readPart } from '../show/part-read.ts';
import { sanitizeLine } from '../show/sanitize.ts';
import { faultsOf, filesOf, type NamedPart } from './checking/merge-parts.ts';
import { type OutputOptions, writeFindings } from './checking/output.ts';
import { type Problem, reasonOf, showProblems } from './files.ts';
import { EXIT_FAILURE, type Io } from './io.ts';

export async function gather(paths: readonly string[], options: OutputOptions, io: Io): Promise<number> {
  const parts: NamedPart[] = [];
  const problems: Problem[] = [];
  for (const path of paths) {
    const name = shown(io.cwd, resolve(io.cwd, path));
    const read = await partIn(resolve(io.cwd, path));
    if ('problem' in read) problems.push({ file: name, message: `${read.problem}.` });
    else parts.push({ name, result: read });
  }
  showProblems(problems, io);
  if (problems.length > 0) return EXIT_FAILURE;
  const faults = faultsOf(parts);
  for (const fault of faults) io.err(`soundwood: ${sanitizeLine(fault)}\n`);
  if (faults.length > 0) return EXIT_FAILURE;

  const files = filesOf(parts);
  const byName = new Map(files.map(one => [one.file, one]));
  const { on, unread } = parts[0]!.result;
  const about = {
    on,
    trees: files.reduce((sum, { trees }) => sum + trees.length, 0),
    files: files.length,
    unread,
    listFiles: () => files,
    since: undefined,
    siteOf: (file: string) => byName.get(file)?.site,
    regionOf: (file: string) => byName.get(file)!.region,
    shown: (file: string) => file,
  };
  return writeFindings(about, options, io, all => {
    for (const { found, signs } of files) all.add(found, signs);
  });
}

async function partIn(path: string) {
  try {
    return readPart((await readBytes(path)).toString('utf8').replace(/^\uFEFF/, ''));
  } catch (error) {
    return { problem: reasonOf(error) };
  }
}
