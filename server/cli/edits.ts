/** Edits of inventories that a command makes: shown as lines, and written. */

import { join } from 'node:path';
import { UserError } from '../base/user-error.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { writeText } from '../host/write-text.ts';
import type { Edit } from '../language/snapshot.ts';
import { isProblem, readSource } from './files.ts';
import type { Io } from './io.ts';

export interface EditedFile {
  readonly file: FileSnapshot;
  readonly edits: readonly Edit[];
}

const inOrder = (edits: readonly Edit[]): readonly Edit[] =>
  edits
    .map((edit, i) => ({ edit, i }))
    .sort((a, b) => a.edit.start - b.edit.start || a.i - b.i)
    .map(({ edit }) => edit);

/** The text with the edits; those at one place in their order. */
function textWith(text: string, edits: readonly Edit[]): string {
  let at = 0;
  let changed = '';
  for (const { start, end, text: put } of inOrder(edits)) {
    changed += text.slice(at, start) + put;
    at = end;
  }
  return changed + text.slice(at);
}

/** The lines that go, behind `-`, and those that come, behind `+`. */
export function linesOfEdits(text: string, edits: readonly Edit[]): readonly string[] {
  return inOrder(edits).flatMap(({ start, end, text: put }) => {
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
    const now = await readSource(path, io.cwd);
    if (isProblem(now)) throw new UserError(`${now.file} ${now.message}; it stays as it is.`);
    if (now.text !== file.text) throw new UserError(`${file.path} was changed meanwhile and stays as it is.`);
    await writeText(path, (now.byteOrderMark ? '\uFEFF' : '') + textWith(now.text, edits), io.cwd);
  }
}
