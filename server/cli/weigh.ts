/** `soundwood weigh`: what is open to a tree, side by side, with figures. */

import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { nearest } from '../../grammar/nearest.ts';
import { assess } from '../assess/assessment.ts';
import { stemSafety } from '../assess/safety.ts';
import type { Tree } from '../facts/types.ts';
import { settingsFor, siteOf } from '../facts/workspace.ts';
import { isWeighable, showWeighed, type Weighed } from '../show/weigh.ts';
import { weighedJson } from '../show/weigh-json.ts';
import { showProblems } from './files.ts';
import { CannotRun, CLEAN, COULD_NOT_RUN, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';
import { progressOf } from './progress.ts';

export interface WeighOptions {
  /** Day number. */
  readonly on?: number;
  readonly as: 'text' | 'json';
}

/** Whether a word of the command line is a file or folder; else it is the tag of a tree. */
async function isPath(word: string, cwd: string): Promise<boolean> {
  return (
    /[\\/]|\.wood$/.test(word) ||
    (await stat(resolve(cwd, word))
      .then(() => true)
      .catch(() => false))
  );
}

/**
 * Weighs the trees with these tags, in the inventories of the paths given beside them or of the working folder;
 * without tags every tree of which there is something to say.
 */
export async function weigh(words: readonly string[], options: WeighOptions, io: Io): Promise<number> {
  const paths: string[] = [];
  const tags = new Set<string>();
  for (const word of words) {
    if (await isPath(word, io.cwd)) paths.push(word);
    else tags.add(word);
  }
  const today = options.on ?? io.today;
  const { workspace, files, problems, nameOf } = await loadWorkspace(paths, io);
  const placed = files.flatMap(({ path, trees }) => trees.map(({ fact }) => ({ path, tree: fact })));
  const asked = tags.size > 0 ? placed.filter(({ tree }) => tags.has(tree.tag.value)) : placed;
  for (const tag of tags) requireTree(tag, asked, placed, paths);

  const progress = await progressOf(io, asked.length, 'weighing');
  const trees = asked.flatMap(({ path, tree }): Weighed[] => {
    const settings = settingsFor(workspace, path);
    const site = siteOf(workspace, path);
    const assessment = assess({ tree, site, settings, today });
    progress.step();
    if (tags.size === 0 && !isWeighable(assessment)) return [];
    const safety = stemSafety(tree, assessment.strength, site, settings);
    return [{ tree, file: nameOf(path), site, settings, assessment, safety }];
  });
  progress.end();

  if (options.as === 'json') io.out(weighedJson({ on: today, trees, unread: problems }));
  else if (trees.length > 0) io.out(showWeighed(trees, io.paint));
  else
    io.out(
      'No tree here has a measured hollow, a view, or an open prescription that states the crown afterwards.\n',
    );
  showProblems(problems, io);
  return problems.length > 0 ? COULD_NOT_RUN : CLEAN;
}

function requireTree(
  tag: string,
  asked: readonly { readonly tree: Tree }[],
  all: readonly { readonly tree: Tree }[],
  paths: readonly string[],
): void {
  if (asked.some(({ tree }) => tree.tag.value === tag)) return;
  const near = nearest(
    tag,
    all.map(({ tree }) => tree.tag.value),
  );
  const where = paths.length > 0 ? paths.join(', ') : 'the inventories of this folder';
  throw new CannotRun(
    `there is no tree ${tag} in ${where}, and no file or folder of that name${near ? `; there is ${near}` : ''}.`,
  );
}
