import { expect, test } from 'vitest';
import { closedDays, seasonStanding, showDays, without } from '../../server/assess/days.ts';
import { parseDate } from '../../server/base/dates.ts';

const day = (text: string): number => parseDate(text)!;
const span = (from: string, to = from) => ({ from: day(from), to: day(to) });
const window = (from: readonly [number, number], to: readonly [number, number]) => ({
  from: { month: from[0], day: from[1] },
  to: { month: to[0], day: to[1] },
});

test('closed days are those in any window, joined where they meet, every year anew', () => {
  const nesting = window([2, 1], [8, 31]);
  const roosting = window([9, 1], [10, 15]);
  expect(closedDays(span('2026-01-15', '2026-12-31'), [roosting, nesting])).toEqual([
    span('2026-02-01', '2026-10-15'),
  ]);
  expect(closedDays(span('2026-08-01', '2027-02-10'), [nesting])).toEqual([
    span('2026-08-01', '2026-08-31'),
    span('2027-02-01', '2027-02-10'),
  ]);
  expect(closedDays(span('2026-11-01', '2026-11-30'), [nesting])).toEqual([]);
});

test('a window over the new year', () => {
  expect(closedDays(span('2026-12-01', '2027-03-31'), [window([12, 15], [1, 31])])).toEqual([
    span('2026-12-15', '2027-01-31'),
  ]);
});

test('what closed days leave of a stretch', () => {
  const year = [span('2026-01-01', '2026-12-31')];
  expect(without(year, [span('2026-02-01', '2026-08-31')])).toEqual([
    span('2026-01-01', '2026-01-31'),
    span('2026-09-01', '2026-12-31'),
  ]);
  expect(without(year, year)).toEqual([]);
  expect(without(year, [])).toEqual(year);
});

test('work is in the season wholly, partly or not', () => {
  const june = span('2026-06-01', '2026-06-30');
  expect(seasonStanding(june, [june])).toBe('exceeds');
  expect(seasonStanding(june, [span('2026-06-01', '2026-06-15')])).toBe('may exceed');
  expect(seasonStanding(june, [])).toBe('within');
});

test('one day is one date', () => {
  expect(showDays(span('2026-06-08'))).toBe('2026-06-08');
  expect(showDays(span('2026-06-08', '2026-07-03'))).toBe('2026-06-08..2026-07-03');
});
