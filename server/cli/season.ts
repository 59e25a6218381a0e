/** `soundwood compare --since DATE`: what was done in a period, what changed and what is due, by the days on record. */

import { UserError } from '../base/user-error.ts';
import type { Workspace } from '../facts/workspace.ts';
import { seasons } from '../show/papers.ts';
import { showSeasons, showSeasonsMarkdown } from '../show/season.ts';
import { showSeasonsJson } from '../show/season-json.ts';
import { plain } from '../show/terminal.ts';
import { type Problem, showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { PERIOD_REVERSED } from './options.ts';
import { writeOut } from './write-out.ts';

export async function season(
  workspace: Workspace,
  problems: readonly Problem[],
  from: number,
  options: {
    readonly date?: number;
    readonly format: 'text' | 'markdown' | 'json';
    readonly output?: string;
  },
  io: Io,
): Promise<number> {
  const to = options.date ?? io.today;
  if (from > to) throw new UserError(PERIOD_REVERSED);
  const { items, faulty } = seasons(
    { workspace, today: to },
    [...workspace.files.values()],
    from,
    path => path,
  );
  const all = items.map(({ of }) => of);
  const text = {
    text: () => showSeasons(all, from, to, options.output === undefined ? io.paint : plain),
    markdown: () => showSeasonsMarkdown(all, from, to),
    json: () => showSeasonsJson(all, from, to),
  }[options.format]();
  await writeOut(text, options.output, io);
  const unread = [...problems, ...faulty];
  showProblems(unread, io);
  return unread.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}
