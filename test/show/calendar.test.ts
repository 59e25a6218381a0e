import fc from 'fast-check';
import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { appointmentsOf } from '../../server/assess/appointments.ts';
import { parseDate } from '../../server/base/dates.ts';
import { treeOn } from '../../server/facts/state.ts';
import {
  buildWorkspace,
  nestTreesAround,
  readFile,
  settingsFor,
  siteOf,
} from '../../server/facts/workspace.ts';
import { showCalendar } from '../../server/show/calendar.ts';

const ON = parseDate('2026-06-01')!;
const SITE = 'site "Fernhollow Court"\n  region US-OR\n  interval 24 months\n';

/** The calendar of an inventory at the site. */
function calendarOf(text: string, on = ON): string {
  const workspace = buildWorkspace([readFile('a.wood', `${SITE}\n${text}`)]);
  const person = (id: string) => workspace.persons.get(id)?.fact;
  const crew = (id: string) => workspace.crews.get(id)?.fact;
  const trees = [...workspace.files.values()].flatMap(({ path, trees }) =>
    trees.map(({ fact }) => {
      const tree = treeOn(fact, on);
      const site = siteOf(workspace, path);
      const settings = settingsFor(workspace, path);
      const nestTreesNear = nestTreesAround(workspace, path);
      return {
        tree,
        site,
        file: path,
        appointments: appointmentsOf({ tree, site, settings, today: on, person, crew, nestTreesNear }),
      };
    }),
  );
  return showCalendar(trees, on);
}

/** As another implementation reads it: the last day belongs to the event. */
function events(calendar: string) {
  const component = new ICAL.Component(ICAL.parse(calendar));
  return component.getAllSubcomponents('vevent').map(part => {
    const event = new ICAL.Event(part);
    const end = event.endDate.clone();
    expect([event.startDate.isDate, end.isDate]).toEqual([true, true]);
    end.adjust(-1, 0, 0, 0);
    const [from, to] = [event.startDate.toString(), end.toString()];
    return {
      uid: event.uid,
      summary: event.summary,
      description: event.description,
      days: from === to ? from : `${from}..${to}`,
      kind: part.getFirstPropertyValue('categories') as string,
    };
  });
}
const told = (text: string, on = ON) =>
  events(calendarOf(text, on)).map(({ kind, days, summary }) => `${kind} | ${days} | ${summary}`);

test('a window in autumn: its days, and its last day', () => {
  expect(
    told(
      'tree 14 "Lawn maple"\n  prescription R1 reduce\n    between 2026-09-15..2026-11-30\n    because "lighter; less sail"\n',
    ),
  ).toEqual([
    'window | 2026-09-15..2026-11-30 | 14 "Lawn maple": reduce R1',
    'last day for work | 2026-11-30 | 14 "Lawn maple": last day for reduce R1',
  ]);
});

test('in the nesting season: when to look, how long the look holds, and no day after it', () => {
  const job = '  prescription R1 thin\n    between 2026-06-08..2026-06-30\n';
  expect(told(`tree 1\n${job}`)).toEqual([
    'window | 2026-06-08..2026-06-30 | 1: thin R1',
    // A check holds for seven days.
    'nest check | 2026-06-01..2026-06-08 | 1: check for nests before thin R1',
  ]);
  expect(told(`tree 1\n${job}  nest check 2026-05-31 from lift\n    found none\n`)).toEqual([
    'window | 2026-06-08..2026-06-30 | 1: thin R1',
    'nest check ends | 2026-06-07 | 1: last day on which the nest check for thin R1 is valid',
    'nest check | 2026-06-01..2026-06-08 | 1: check for nests before thin R1',
  ]);
  expect(
    told(`tree 1\n${job}  nest check 2026-06-05 from lift\n    found none\n`, parseDate('2026-06-05')),
  ).toEqual([
    'window | 2026-06-08..2026-06-30 | 1: thin R1',
    'last day for work | 2026-06-12 | 1: last day for thin R1',
    'nest check ends | 2026-06-12 | 1: last day on which the nest check for thin R1 is valid',
    'nest check | 2026-06-06..2026-06-13 | 1: check for nests before thin R1',
  ]);
});

test('a window that runs into the season ends, for those who did not look, on the day before it', () => {
  expect(told('tree 1\n  prescription R1 thin\n    between 2027-01-10..2027-03-31\n')[1]).toBe(
    'last day for work | 2027-01-31 | 1: last day for thin R1',
  );
});

test('a season without cuts closes its days', () => {
  const text =
    'practice "Office"\n  season pruning 11-01..12-31\n    because "frost"\n\ntree 1\n  prescription R1 thin\n    between 2026-10-01..2026-11-20\n';
  expect(told(text)[1]).toBe('last day for work | 2026-10-31 | 1: last day for thin R1');
});

test('follow-ups, re-inspections, permits and exceptions', () => {
  const text = `tree 15
  protected permit TR-1, until 2026-12-31
  inspection 2025-04-22 from ground
  defect A crack
  follow-up F1 root inspection
    of A
    due 2026-05-15
    by TL
  follow-up F2 re-inspection
    due 2026-01-01
    done 2025-12-20
  prescription R1 clean
    permit TR-1, until 2026-10-31
  accept ground-only for A
    until 2026-06-01
    by RV
    because "seen from the window"
  accept inspection-old
    until 2026-05-31

tree 16
  inspection 2025-10-10 from ground

tree 17
  felled 2026-01-10
  inspection 2025-10-10 from ground
`;
  expect(told(text)).toEqual([
    'follow-up | 2026-05-15 | 15: root inspection F1 of A (TL) is due',
    // Twelve months of 30.436875 days after the re-inspection of 2025-12-20, whole days.
    're-inspection | 2026-12-20 | 15: re-inspection is due',
    'permit ends | 2026-10-31 | 15: last day of permit TR-1',
    'exception ends | 2026-06-01 | 15: last day of the exception to ground-only for A',
    // The site's 24 months.
    're-inspection | 2027-10-10 | 16: re-inspection is due',
  ]);
});

test('UIDs stay while days move, and no two events share one', () => {
  const at = (day: string) =>
    events(
      calendarOf(
        `tree 1\n  follow-up F1 probe\n    due ${day}\n\ntree 1\n  follow-up F1 probe\n    due ${day}\n`,
      ),
    );
  const [first, second] = at('2026-07-01');
  expect(at('2026-08-01').map(({ uid }) => uid)).toEqual([first!.uid, second!.uid]);
  expect(first!.uid).toBe('Fernhollow%20Court/1/follow-up/F1@soundwood');
  expect(second!.uid).not.toBe(first!.uid);
});

test('lines: CRLF, at most 75 octets, no character torn; texts come back as they were', () => {
  const text = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 120 })
    .map(read => read.replace(/[\p{Cc}\u2028\u2029\uFEFF\uFFFD]/gu, '') || 'x');
  fc.assert(
    fc.property(text, name => {
      const calendar = calendarOf(
        `tree 1 "${name.replaceAll('"', '""')}"\n  follow-up F1 probe\n    due 2026-07-01\n`,
      );
      expect(calendar.endsWith('END:VCALENDAR\r\n')).toBe(true);
      expect(calendar.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      for (const line of calendar.split('\r\n')) {
        expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
        // With the flag u only half of a pair matches.
        expect(line).not.toMatch(/[\uD800-\uDFFF]/u);
      }
      const read = buildWorkspace([readFile('a.wood', `tree 1 "${name.replaceAll('"', '""')}"\n`)]);
      const stored = [...read.files.values()][0]!.trees[0]!.fact.name?.value;
      expect(events(calendar)[0]!.summary).toBe(
        `1${stored === undefined ? '' : ` "${stored}"`}: probe F1 is due`,
      );
    }),
    { numRuns: 60 },
  );
});

test('the written form, octet by octet', () => {
  expect(
    calendarOf(
      'tree 1 "Oak; old, \\"\n  position 44.31281, -122.87131\n  follow-up F1 probe\n    due 2026-07-01\n',
    ),
  ).toBe(
    [
      'BEGIN:VCALENDAR',
      'VERSION:2.0',
      'PRODID:-//Soundwood//Soundwood//EN',
      'CALSCALE:GREGORIAN',
      'BEGIN:VEVENT',
      'UID:Fernhollow%20Court/1/follow-up/F1@soundwood',
      'DTSTAMP:20260601T000000Z',
      'DTSTART;VALUE=DATE:20260701',
      'DTEND;VALUE=DATE:20260702',
      'SUMMARY:1 "Oak\\; old\\, \\\\": probe F1 is due',
      'DESCRIPTION:a.wood',
      'LOCATION:Fernhollow Court',
      'GEO:44.312810;-122.871310',
      'CATEGORIES:follow-up',
      'TRANSP:TRANSPARENT',
      'END:VEVENT',
      'END:VCALENDAR',
      '',
    ].join('\r\n'),
  );
});
