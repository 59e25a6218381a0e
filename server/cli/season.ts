/** `soundwood compare --since DATE`: what was done in a period, what changed and what is due, by the days on record. */

import { resolve } from 'node:path';
import { attempt, Fault, type NotComputed, notComputed } from '../assess/not-computed.ts';
import { seasonOf } from '../assess/season.ts';
import { UserError } from '../base/user-error.ts';
import { settingsFor, siteOf, type Workspace } from '../facts/workspace.ts';
import { type PlacedSeason, showSeasons, showSeasonsMarkdown } from '../show/season.ts';
import { showSeasonsJson } from '../show/season-json.ts';
import { plain } from '../show/terminal.ts';
import { type Problem, showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { PERIOD_REVERSED } from './options.ts';

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
  const faulty: NotComputed[] = [];
  const seasons = [...workspace.files.values()].flatMap(({ path, trees }) =>
    trees.flatMap(({ fact, firstLine }): PlacedSeason[] => {
      const context = { site: siteOf(workspace, path), settings: settingsFor(workspace, path) };
      const one = attempt(() => seasonOf(fact, from, to, context));
      if (!(one instanceof Fault)) return [{ ...one, file: path }];
      faulty.push(notComputed({ file: path, line: firstLine + 1, what: `tree ${fact.tag.value}` }, one));
      return [];
    }),
  );
  const text = {
    text: () => showSeasons(seasons, from, to, options.output === undefined ? io.paint : plain),
    markdown: () => showSeasonsMarkdown(seasons, from, to),
    json: () => showSeasonsJson(seasons, from, to),
  }[options.format]();
  if (options.output === undefined) io.out(text);
  else await (await import('../host/write-text.ts')).writeText(resolve(io.cwd, options.output), text, io.cwd);
  const all = [...problems, ...faulty];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}
