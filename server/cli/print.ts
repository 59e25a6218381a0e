/** `soundwood print`: the canonical print of a file on standard output, which git shows in diffs. */

import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { tidy } from '../../grammar/tidy.ts';
import { reasonOf } from './files.ts';
import { CannotRun, CLEAN, type Io } from './io.ts';
import { readText } from './read-text.ts';

/** A file that is no UTF-8 text is shown as far as it can be read: a diff must not fail for it. */
export async function print(file: string, io: Io): Promise<number> {
  const bytes = await readFile(resolve(io.cwd, file)).catch((error: unknown) => {
    throw new CannotRun(`${file} ${reasonOf(error)}.`);
  });
  const read = readText(bytes);
  if ('problem' in read) {
    io.err(`soundwood: ${file} ${read.problem}\n`);
    io.out(new TextDecoder().decode(bytes));
  } else io.out(tidy(read.text).text);
  return CLEAN;
}
