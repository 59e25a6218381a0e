/** Edits of inventories that a command makes: shown as lines, and written. */

import { join } from 'node:path';
import { textWith } from '../../grammar/text.ts';
import { UserError } from '../base/user-error.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import type { Edit } from '../language/snapshot.ts';
import type { Io } from './io.ts';
import { writeBack } from './write-back.ts';

export interface EditedFile {
  readonly file: FileSnapshot;
  readonly edits: readonly Edit[];
}

/** The lines that go, behind `-`, and those that come, behind `+`. */
export function linesOfEdits(text: string, edits: readonly Edit[]): readonly string[] {
  return edits
    .toSorted((a, b) => a.start - b.start)
    .flatMap(({ start, end, text: put }) => {
      // Added behind a line: that line stays.
      if (start === end && /^\r?\n/.test(put))
        return put
          .split(/\r?\n/)
          .slice(1)
          .map(line => `+${line}`);
      const first = text.lastIndexOf('\n', start - 1) + 1;
      const next = text.indexOf('\n', end);
      const last = next < 0 ? text.length : next;
      const before = text.slice(first, last).trimEnd();
      const after = (text.slice(first, start) + put + text.slice(end, last)).trimEnd();
      return [
        ...before.split(/\r?\n/).map(line => `-${line}`),
        ...after.split(/\r?\n/).map(line => `+${line}`),
      ];
    });
}

/**
 * Writes files that are still as they were read.
 * @param root absolute folder of the workspace
 * @throws UserError; files before the one that failed are written
 */
export async function writeEdits(files: readonly EditedFile[], root: string, io: Io): Promise<void> {
  for (const { file, edits } of files) {
    const path = join(root, file.path);
    const problem = await writeBack({ path, text: file.text }, textWith(file.text, edits), io);
    if (problem) throw new UserError(`${problem.file} ${problem.message}.`);
  }
}
