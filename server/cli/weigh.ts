/** `soundwood weigh`: the options for a tree side by side, with figures. */

import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { nearest } from '../../grammar/nearest.ts';
import { assess, contextIn } from '../assess/assessment.ts';
import {
  attempt,
  Fault,
  type LocatedItem,
  type NotComputed,
  notComputed,
  showSound,
} from '../assess/not-computed.ts';
import { stemSafety } from '../assess/safety.ts';
import { UserError } from '../base/user-error.ts';
import { capital } from '../base/words.ts';
import { treeOn } from '../facts/state.ts';
import type { Tree } from '../facts/types.ts';
import { sanitizeForLog } from '../show/sanitize.ts';
import { isWeighable, showWeighed } from '../show/weigh.ts';
import { weighedJson } from '../show/weigh-json.ts';
import type { Weighed } from '../show/weighed.ts';
import { showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';
import { progressOf } from './progress.ts';

export interface WeighOptions {
  /** Day number. */
  readonly date?: number;
  readonly format: 'text' | 'json';
}

/** Whether an argument is a file or folder; otherwise it is the tag of a tree. */
async function isPath(word: string, cwd: string): Promise<boolean> {
  return (
    /[\\/]|\.wood$|^-$/.test(word) ||
    (await stat(resolve(cwd, word))
      .then(() => true)
      .catch(() => false))
  );
}

/**
 * Weighs the trees with the given tags in the given paths or the working folder; without tags, every tree with something
 * to show.
 */
export async function weigh(words: readonly string[], options: WeighOptions, io: Io): Promise<number> {
  const paths: string[] = [];
  const tags = new Set<string>();
  for (const word of words) {
    if (await isPath(word, io.cwd)) paths.push(word);
    else tags.add(word);
  }
  const today = options.date ?? io.today;
  const { workspace, files, problems, nameOf } = await loadWorkspace(paths, io);
  const placed = files.flatMap(({ path, trees }) =>
    trees.map(({ fact, firstLine }) => ({ path, tree: treeOn(fact, today), line: firstLine + 1 })),
  );
  const asked = tags.size > 0 ? placed.filter(({ tree }) => tags.has(tree.tag.value)) : placed;
  for (const tag of tags) requireTree(tag, asked, placed, paths);

  const progress = await progressOf(io, asked.length, 'weighing');
  const faulty: NotComputed[] = [];
  const weighed = asked.flatMap(({ path, tree, line }): LocatedItem<Weighed>[] => {
    const file = nameOf(path);
    const place = { file, line, what: `tree ${tree.tag.value}` };
    const context = contextIn({ workspace, today }, path, tree);
    const { site, settings } = context;
    const of = attempt(() => {
      const assessment = assess(context);
      if (tags.size === 0 && !isWeighable(assessment)) return undefined;
      const safety = stemSafety(tree, assessment.strength, site, settings);
      return { tree, file, site, settings, assessment, safety };
    });
    progress.step();
    if (of instanceof Fault) faulty.push(notComputed(place, of));
    return of === undefined || of instanceof Fault ? [] : [{ place, of }];
  });
  progress.end();

  const { shown, left } = await showSound(weighed, (trees, left) => {
    const unread = [...problems, ...faulty, ...left].map(({ file, message }) => ({ file, message }));
    if (options.format === 'json') return weighedJson({ on: today, trees, unread });
    return trees.length > 0 ? showWeighed(trees, io.paint) : '';
  });
  const unseen = [...faulty, ...left];
  if (shown !== '') io.out(shown);
  // Only if everything could be read: otherwise the message would mislead.
  else if (unseen.length === 0 && (files.length > 0 || problems.length === 0))
    io.out(
      'No tree here has a measured hollow, a view, or an open prescription that states the crown afterwards.\n',
    );
  // Also on standard output: a tree that was not computed must not look like one with nothing to show.
  if (options.format === 'text')
    for (const { what, file, fault } of unseen)
      io.out(sanitizeForLog(`${capital(what)} (${file})\n  Not computed: ${fault.reason}.\n`));
  const all = [...problems, ...unseen];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
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
  throw new UserError(
    `there is no tree ${tag} in ${where}, and no file or folder of that name${near ? `; there is ${near}` : ''}.`,
  );
}
