/** `soundwood print`: prints a file in canonical form; git shows diffs of it. */

import { resolve } from 'node:path';
import { tidy } from '../../grammar/tidy.ts';
import { UserError } from '../base/user-error.ts';
import { readBytes } from '../host/folders.ts';
import { LONGEST_TEXT, readText } from '../host/read-text.ts';
import { reasonOf } from './files.ts';
import { EXIT_CLEAN, type Io } from './io.ts';
import { fromStandardInput, isStandardInput } from './standard-input.ts';

/** Files that are not UTF-8 are printed as far as they can be decoded, because a diff must not fail. */
export async function print(file: string, io: Io): Promise<number> {
  const given = isStandardInput(file) ? fromStandardInput() : readBytes(resolve(io.cwd, file));
  const bytes = await given.catch((error: unknown) => {
    throw new UserError(`${file} ${reasonOf(error)}.`);
  });
  const read = readText(bytes);
  if ('problem' in read) {
    if (bytes.length > LONGEST_TEXT) throw new UserError(`${file} ${read.problem}.`);
    io.err(`soundwood: ${file} ${read.problem}\n`);
    io.out(new TextDecoder().decode(bytes));
  } else io.out(tidy(read.text).text);
  return EXIT_CLEAN;
}
