/** `soundwood calendar`: appointments as iCalendar. */

import { resolve } from 'node:path';
import { type Appointment, appointmentsOf } from '../assess/appointments.ts';
import { attempt, Fault, type NotComputed, notComputed } from '../assess/not-computed.ts';
import { counted } from '../base/words.ts';
import { treeOn } from '../facts/state.ts';
import { nestTreesAround, personIn, settingsFor, siteOf } from '../facts/workspace.ts';
import { writeText } from '../host/write-text.ts';
import { type CalendarTree, showCalendar } from '../show/calendar.ts';
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
  const faulty: NotComputed[] = [];
  const person = personIn(workspace);
  const crew = (id: string) => workspace.crews.get(id)?.fact;
  const trees = files.flatMap(({ path, trees }) =>
    trees.map(({ fact, firstLine }): CalendarTree => {
      const tree = treeOn(fact, today);
      const site = siteOf(workspace, path);
      const settings = settingsFor(workspace, path, today);
      const file = nameOf(path);
      const nestTreesNear = nestTreesAround(workspace, path);
      const days = attempt(() =>
        appointmentsOf({ tree, site, settings, today, person, crew, nestTreesNear }),
      );
      if (!(days instanceof Fault)) return { tree, site, file, appointments: days };
      faulty.push(notComputed({ file, line: firstLine + 1, what: `tree ${tree.tag.value}` }, days));
      return { tree, site, file, appointments: [missing(today)] };
    }),
  );
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

/** A placeholder: a tree whose days were not computed must not look like one without appointments. */
const missing = (today: number): Appointment => ({
  kind: 'not computed',
  subject: 'tree',
  title: 'the days to keep were not computed',
  notes: ['A mistake in the program: read the record for windows, checks and follow-ups.'],
  from: today,
  to: today,
});
