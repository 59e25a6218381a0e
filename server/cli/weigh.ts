/** `soundwood weigh`: the options for a tree side by side, with figures. */

import { showSound } from '../assess/not-computed.ts';
import { capital } from '../base/words.ts';
import { weighedTrees } from '../show/papers.ts';
import { sanitizeForLog } from '../show/sanitize.ts';
import { showWeighed } from '../show/weigh.ts';
import { weighedJson } from '../show/weigh-json.ts';
import { askedTrees } from './asked-trees.ts';
import { showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { progressOf } from './progress.ts';

export interface WeighOptions {
  /** Day number. */
  readonly date?: number;
  readonly format: 'text' | 'json';
}

/**
 * Weighs the trees with the given tags in the given paths or the working folder; without tags, every tree with something
 * to show.
 */
export async function weigh(words: readonly string[], options: WeighOptions, io: Io): Promise<number> {
  const today = options.date ?? io.today;
  const { workspace, files, problems, nameOf, asked, isByTag } = await askedTrees(words, today, io);
  const progress = await progressOf(io, asked.length, 'weighing');
  const { items: weighed, faulty } = weighedTrees({ workspace, today }, asked, nameOf, isByTag, () =>
    progress.step(),
  );
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
      'No tree here has a sign to judge, a view, or an open prescription with crown dimensions after the work.\n',
    );
  // Also on standard output: a tree that was not computed must not look like one with nothing to show.
  if (options.format === 'text')
    for (const { what, file, fault } of unseen)
      io.out(sanitizeForLog(`${capital(what)} (${file})\n  Not computed: ${fault.reason}.\n`));
  const all = [...problems, ...unseen];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}
