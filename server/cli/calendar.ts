/** `soundwood calendar`: the days to keep, for a calendar. */

import { resolve } from 'node:path';
import { appointmentsOf } from '../assess/appointments.ts';
import { counted } from '../assess/counted.ts';
import { settingsFor, siteOf } from '../facts/workspace.ts';
import { type CalendarTree, showCalendar } from '../show/calendar.ts';
import { showProblems } from './files.ts';
import { CLEAN, COULD_NOT_RUN, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';
import { writeText } from './write-text.ts';

export interface CalendarOptions {
  /** Day number. */
  readonly on?: number;
  readonly to?: string;
}

export async function calendar(paths: readonly string[], options: CalendarOptions, io: Io): Promise<number> {
  const today = options.on ?? io.today;
  const { workspace, files, problems, nameOf } = await loadWorkspace(paths, io);
  const person = (id: string) => workspace.persons.get(id)?.fact;
  const crew = (id: string) => workspace.crews.get(id)?.fact;
  const trees = files.flatMap(({ path, trees }) =>
    trees.map(({ fact: tree }): CalendarTree => {
      const site = siteOf(workspace, path);
      const settings = settingsFor(workspace, path);
      const appointments = appointmentsOf({ tree, site, settings, today, person, crew });
      return { tree, site, file: nameOf(path), appointments };
    }),
  );
  const text = showCalendar(trees, today);
  if (options.to === undefined) io.out(text);
  else {
    await writeText(resolve(io.cwd, options.to), text, io.cwd);
    const dates = trees.reduce((sum, { appointments }) => sum + appointments.length, 0);
    io.out(`${options.to}: ${counted(dates, 'date')} of ${counted(trees.length, 'tree')}.\n`);
  }
  showProblems(problems, io);
  return problems.length > 0 ? COULD_NOT_RUN : CLEAN;
}
