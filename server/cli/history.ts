/** `soundwood history`: the life of trees, as text, JSON or a picture. */

import { showSound } from '../assess/not-computed.ts';
import { UserError } from '../base/user-error.ts';
import { capital } from '../base/words.ts';
import type { PlacedFact } from '../facts/workspace.ts';
import { historyPicture } from '../show/drawing/pictures.ts';
import { type History, showHistories } from '../show/history.ts';
import { historyJson } from '../show/history-json.ts';
import { histories } from '../show/papers.ts';
import { sanitizeForLog } from '../show/sanitize.ts';
import { plain } from '../show/terminal.ts';
import { askedTrees } from './asked-trees.ts';
import { showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { progressOf } from './progress.ts';
import { writeOut } from './write-out.ts';

export interface HistoryOptions {
  /** Day number. */
  readonly date?: number;
  readonly format: 'text' | 'json' | 'svg';
  readonly output?: string;
  /** Whether to tell who changed what, by git. */
  readonly git?: boolean;
}

export async function history(words: readonly string[], options: HistoryOptions, io: Io): Promise<number> {
  const today = options.date ?? io.today;
  const { workspace, problems, nameOf, asked } = await askedTrees(words, today, io);
  if (options.format === 'svg' && asked.length !== 1)
    throw new UserError(
      `--format svg draws a single tree, and ${asked.length === 0 ? 'none' : asked.length} were found: name the tag of one.`,
    );
  const progress = await progressOf(io, asked.length, 'reading histories');
  const editsAt = options.git ? (await import('./git-edits.ts')).editsByGit(io) : undefined;
  const edits = new Map<PlacedFact, History['edits']>();
  if (editsAt) for (const { path, placed } of asked) edits.set(placed, await editsAt(nameOf(path), placed));
  const { items, faulty } = histories({ workspace, today }, asked, nameOf, () => progress.step(), edits);
  progress.end();

  const { shown, left } = await showSound(items, (trees, left) => {
    const unread = [...problems, ...faulty, ...left].map(({ file, message }) => ({ file, message }));
    switch (options.format) {
      case 'json':
        return historyJson({ on: today, trees, unread });
      case 'svg':
        return trees.map(tree => `${historyPicture(tree).svg}\n`).join('');
      default:
        return trees.length > 0 ? showHistories(trees, options.output === undefined ? io.paint : plain) : '';
    }
  });
  const unseen = [...faulty, ...left];
  const text = shown === '' && unseen.length === 0 && options.format === 'text' ? 'No trees found.\n' : shown;
  await writeOut(text, options.output, io);
  // Also on standard output: a tree that was not computed must not look like one without a history.
  if (options.format === 'text' && options.output === undefined)
    for (const { what, file, fault } of unseen)
      io.out(sanitizeForLog(`${capital(what)} (${file})\n  Not computed: ${fault.reason}.\n`));
  const all = [...problems, ...unseen];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}
