/** The trees that a command line asks for: by tag, in files and folders. */

import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { nearest } from '../../grammar/nearest.ts';
import { UserError } from '../base/user-error.ts';
import { type AskedTree, treesIn } from '../show/papers.ts';
import type { Io } from './io.ts';
import { loadWorkspace } from './load.ts';

/** Whether an argument is a file or folder; otherwise it is the tag of a tree. */
async function isPath(word: string, cwd: string): Promise<boolean> {
  return (
    /[\\/]|\.wood$|^-$/.test(word) ||
    (await stat(resolve(cwd, word))
      .then(() => true)
      .catch(() => false))
  );
}

/** The trees with the given tags in the given paths or the working folder; without tags, all. @throws UserError */
export async function askedTrees(words: readonly string[], today: number, io: Io) {
  const paths: string[] = [];
  const tags = new Set<string>();
  for (const word of words) {
    if (await isPath(word, io.cwd)) paths.push(word);
    else tags.add(word.normalize('NFC'));
  }
  const loaded = await loadWorkspace(paths, io);
  const all = treesIn(loaded.files, today);
  const asked = tags.size > 0 ? all.filter(({ tree }) => tags.has(tree.tag.value)) : all;
  for (const tag of tags) requireTree(tag, asked, all, paths);
  return { ...loaded, asked, isByTag: tags.size > 0 };
}

function requireTree(
  tag: string,
  asked: readonly AskedTree[],
  all: readonly AskedTree[],
  paths: readonly string[],
): void {
  if (asked.some(({ tree }) => tree.tag.value === tag)) return;
  const near = nearest(
    tag,
    all.map(({ tree }) => tree.tag.value),
  );
  const where = paths.length > 0 ? paths.join(', ') : 'the inventories of this folder';
  throw new UserError(
    `there is no tree ${tag} in ${where}, and no file or folder of that name${near ? `; there is ${near}` : ''}.`,
  );
}
