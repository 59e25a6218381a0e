/** `soundwood calendar`: appointments as iCalendar. */

import type { NotComputed } from '../assess/not-computed.ts';
import { counted } from '../base/words.ts';
import { calendarWriter } from '../show/calendar.ts';
import { calendarOf } from '../show/papers.ts';
import { showProblems } from './files.ts';
import { isTreeBlock, loadInventory } from './inventory.ts';
import { EXIT_CLEAN, EXIT_FAILURE, type Io } from './io.ts';
import { inPieces } from './write-out.ts';

export interface CalendarOptions {
  /** Day number. */
  readonly date?: number;
  readonly output?: string;
}

export async function calendar(paths: readonly string[], options: CalendarOptions, io: Io): Promise<number> {
  const today = options.date ?? io.today;
  const { workspace, files, problems, nameOf } = await loadInventory(paths, {}, io);
  const { head, eventsOf, end } = calendarWriter(today);
  const faulty: NotComputed[] = [];
  let [dates, trees] = [0, 0];
  await inPieces(options.output, io, async write => {
    write(head);
    for (const { path, blocks } of files) {
      const daysOf = calendarOf({ workspace, today }, path, nameOf(path));
      for (const some of blocks()) {
        const found = some.filter(isTreeBlock).map(daysOf);
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
