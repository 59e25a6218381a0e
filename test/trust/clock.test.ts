/** Dates are plain dates: neither the place of the machine nor the turning of its clock moves them. */

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, test, vi } from 'vitest';
import { addMonths, dayNumber, formatDate, parseDate } from '../../server/base/dates.ts';
import { localToday } from '../../server/host/clock.ts';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { sources } from './sources.ts';

const ZONES = ['UTC', 'Pacific/Kiritimati', 'America/St_Johns', 'Pacific/Apia', 'Europe/Berlin'];

/** May make a date of a number that it is given; what day it is they do not ask. */
const CALENDARS = [
  'server/base/dates.ts',
  'server/base/yearly-window.ts',
  'server/mechanics/exif.ts',
  'server/show/export-parquet.ts',
];
/** May measure how long something takes. */
const WATCHES = ['client/server-state.ts', 'server/lsp/session.ts'];

test('what day it is comes from one place', () => {
  const asking = sources.filter(path => /new Date\(\)|Date\.now\(/.test(readFileSync(path, 'utf8')));
  expect(asking.filter(path => !WATCHES.includes(path))).toEqual(['server/host/clock.ts']);
  const dates = sources.filter(path => /new Date\(/.test(readFileSync(path, 'utf8')));
  expect(dates.filter(path => !CALENDARS.includes(path))).toEqual(['server/host/clock.ts']);
});

test('every day from 1999 to 2101 is written and read as itself', () => {
  for (let day = dayNumber(1999, 1, 1)!; day <= dayNumber(2101, 1, 1)!; day++)
    expect(parseDate(formatDate(day))).toBe(day);
});

test.each([
  ['2024-02-29', 12, '2025-02-28'],
  ['2024-01-31', 1, '2024-02-29'],
  ['2023-12-31', 2, '2024-02-29'],
  ['2026-12-31', 1, '2027-01-31'],
  ['2000-02-29', 1200, '2100-02-28'],
])('%s and %i months are %s', (from, months, to) => {
  expect(formatDate(addMonths(parseDate(from)!, months))).toBe(to);
});

test.each(['2026-02-29', '2100-02-29', '2026-13-01', '2026-00-10', '2026-04-31'])('%s is no day', text => {
  expect(parseDate(text)).toBeUndefined();
});

test.each(['2026-12-31T23:59:59', '2027-01-01T00:00:00', '2028-02-29T12:00:00', '2026-03-29T02:30:00'])(
  'at %s it is the day of the local calendar',
  time => {
    vi.useFakeTimers({ now: new Date(time) });
    try {
      expect(formatDate(localToday())).toBe(formatDate(parseDate(time.slice(0, 10))!));
    } finally {
      vi.useRealTimers();
    }
  },
);

test('findings and calendars of a day are the same in every zone', async () => {
  const tree =
    'tree 1\n  dbh 9 in\n  inspection 2024-02-29 from ground\n  prescription R1 thin\n    dose 10 %\n    between 2026-03-28..2026-03-30\n  follow-up F1 probe\n    due 2026-12-31\n';
  const folder = await folderWith({
    'a.wood': `site "Fernhollow Court"\n  region US-OR\n  interval 12 months\n${tree}`,
  });
  const out = (TZ: string, ...args: string[]) =>
    spawnSync(process.execPath, [PROGRAM, ...args, '--on', '2026-12-31'], {
      cwd: folder.path,
      encoding: 'utf8',
      env: { ...process.env, TZ },
    }).stdout;
  for (const args of [['check'], ['calendar'], ['check', '--as', 'json']]) {
    const [first, ...others] = ZONES.map(zone => out(zone, ...args));
    expect(first).toContain(args[0] === 'calendar' ? '20261231' : 'a.wood');
    for (const other of others) expect(other).toBe(first);
  }
});
