/** Writes a file that a command has read and changed. */

import { shown } from '../host/paths.ts';
import { writeText } from '../host/write-text.ts';
import { isProblem, type Problem, readSource, type SourceFile } from './files.ts';
import type { Io } from './io.ts';

/** Replaces the text of a file, unless it was changed meanwhile; its byte order mark stays. Throws UserError. */
export async function writeBack(
  source: Pick<SourceFile, 'path' | 'text'>,
  text: string,
  io: Io,
): Promise<Problem | undefined> {
  const now = await readSource(source.path, io.cwd);
  if (isProblem(now)) return now;
  if (now.text !== source.text)
    return { file: shown(io.cwd, source.path), message: 'was changed in the meantime and was left as it is' };
  await writeText(source.path, (now.byteOrderMark ? '\uFEFF' : '') + text, io.cwd);
  return undefined;
}
