/** `soundwood calendar`: appointments as iCalendar. */

import type { Appointment } from '../assess/appointments.ts';
import type { NotComputed } from '../assess/not-computed.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import type { Workspace } from '../facts/workspace.ts';
import { calendarWriter } from '../show/calendar.ts';
import { calendarOf } from '../show/papers.ts';
import { sanitizeLine } from '../show/sanitize.ts';
import { showProblems } from './files.ts';
import { isTreeBlock, loadInventory } from './inventory.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { inPieces } from './write-out.ts';

export interface CalendarOptions {
  /** Day number. */
  readonly date?: number;
  /** Short names of persons and crews: only their days. */
  readonly for?: readonly string[];
  readonly output?: string;
}

export async function calendar(paths: readonly string[], options: CalendarOptions, io: Io): Promise<number> {
  const today = options.date ?? io.today;
  const { workspace, files, problems, nameOf } = await loadInventory(paths, {}, io);
  const whose = options.for && whoseDays(options.for, workspace);
  const { head, eventsOf, end } = calendarWriter(today);
  const faulty: NotComputed[] = [];
  let [dates, trees] = [0, 0];
  await inPieces(options.output, io, async write => {
    write(head);
    for (const { path, blocks } of files) {
      const daysOf = calendarOf({ workspace, today }, path, nameOf(path));
      for (const some of blocks()) {
        const found = some
          .filter(isTreeBlock)
          .map(daysOf)
          .map(({ tree, faulty: fault }) => ({
            tree: whose ? { ...tree, appointments: tree.appointments.filter(whose) } : tree,
            faulty: fault,
          }))
          .filter(({ tree }) => !whose || tree.appointments.length > 0);
        trees += found.length;
        for (const { tree, faulty: fault } of found) {
          dates += tree.appointments.length;
          if (fault) faulty.push(fault);
        }
        write(found.map(({ tree }) => eventsOf(tree)).join(''));
      }
    }
    write(end);
  });
  if (options.output !== undefined)
    io.out(`${options.output}: ${counted(dates, 'date')} of ${counted(trees, 'tree')}.\n`);
  const all = [...problems, ...faulty];
  showProblems(all, io);
  return all.length > 0 ? EXIT_FAILURE : EXIT_CLEAN;
}

/** Days of these persons and crews, with those of a person's crews. A day of nobody is everybody's. @throws UserError */
function whoseDays(
  names: readonly string[],
  { persons, crews }: Workspace,
): (appointment: Appointment) => boolean {
  for (const name of names)
    if (!persons.has(name) && !crews.has(name)) {
      const known = [...persons.keys(), ...crews.keys()];
      throw new UserError(
        `no person or crew is named ${sanitizeLine(name)}${known.length > 0 ? `; on record: ${sanitizeLine(known.join(', '))}` : ''}.`,
      );
    }
  const wanted = new Set(names);
  for (const [id, { fact }] of crews) if (fact.members.some(({ value }) => wanted.has(value))) wanted.add(id);
  return ({ who, kind }) => kind === 'not computed' || who.length === 0 || who.some(name => wanted.has(name));
}
