/** What a command has to say, on standard output or in a file. */

import { resolve } from 'node:path';
import type { Io } from './io.ts';

/** Throws UserError. */
export async function writeOut(text: string, output: string | undefined, io: Io): Promise<void> {
  if (output === undefined) io.out(text);
  // Loaded lazily: most runs write no file.
  else await (await import('../host/write-text.ts')).writeText(resolve(io.cwd, output), text, io.cwd);
}
