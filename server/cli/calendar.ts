/** `soundwood calendar`: appointments as iCalendar. */

import { resolve } from 'node:path';
import { counted } from '../base/words.ts';
import { writeText } from '../host/write-text.ts';
import { showCalendar } from '../show/calendar.ts';
import { calendarTrees } from '../show/papers.ts';
import { showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';

export interface CalendarOptions {
  /** Day number. */
  readonly date?: number;
  readonly output?: string;
}

export async function calendar(paths: readonly string[], options: CalendarOptions, io: Io): Promise<number> {
  const today = options.date ?? io.today;
  const { workspace, files, problems, nameOf } = await loadWorkspace(paths, io);
  const { trees, faulty } = calendarTrees({ workspace, today }, files, nameOf);
  const text = showCalendar(trees, today);
  if (options.output === undefined) io.out(text);
  else {
    await writeText(resolve(io.cwd, options.output), text, io.cwd);
    const dates = trees.reduce((sum, { appointments }) => sum + appointments.length, 0);
    io.out(`${options.output}: ${counted(dates, 'date')} of ${counted(trees.length, 'tree')}.\n`);
  }
  const all = [...problems, ...faulty];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}
