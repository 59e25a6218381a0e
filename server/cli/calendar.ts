/** `soundwood calendar`: appointments as iCalendar. */

import { counted } from '../base/words.ts';
import { showCalendar } from '../show/calendar.ts';
import { calendarTrees } from '../show/papers.ts';
import { showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';
import { writeOut } from './write-out.ts';

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
  await writeOut(text, options.output, io);
  if (options.output !== undefined) {
    const dates = trees.reduce((sum, { appointments }) => sum + appointments.length, 0);
    io.out(`${options.output}: ${counted(dates, 'date')} of ${counted(trees.length, 'tree')}.\n`);
  }
  const all = [...problems, ...faulty];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}
