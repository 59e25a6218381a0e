import { expect, test } from 'vitest';
import { appointmentsOf } from '../../server/assess/appointments.ts';
import { formatDate } from '../../server/base/dates.ts';
import { dayContext } from './inventory.ts';

const PRACTICE = 'practice "Office"\n  season nesting 02-01..08-31\n    because "county permit"\n\n';
const appointments = (lines: string, today = '2026-06-01') =>
  appointmentsOf(dayContext(`${PRACTICE}tree 1\n${lines}`, today)).map(({ kind, subject, from, to }) => [
    kind,
    subject,
    formatDate(from),
    formatDate(to),
  ]);
const of = (kind: string, ...args: Parameters<typeof appointments>) =>
  appointments(...args).filter(one => one[0] === kind);

const WORK = '  prescription R1 reduce\n    dose 10 %\n    between 2026-08-20..2026-09-20\n';

test('the window of work, and the last day on which nothing written down forbids it', () => {
  expect(of('window', WORK)).toEqual([['window', 'R1', '2026-08-20', '2026-09-20']]);
  expect(of('last day for work', WORK)).toEqual([['last day for work', 'R1', '2026-09-20', '2026-09-20']]);
  expect(of('window', WORK, '2026-09-21')).toEqual([]);
});

test('a look for nests, seven days before the first day of work in the season at the earliest', () => {
  expect(of('nest check', WORK)).toEqual([['nest check', 'R1', '2026-08-13', '2026-08-20']]);
  const checked = `${WORK}  nest check 2026-08-18 from ground\n    found none\n`;
  // It holds up to the 25th; from the 26th on, until the season ends, there has to be another one.
  expect(of('nest check ends', checked, '2026-08-19')).toEqual([
    ['nest check ends', 'R1', '2026-08-25', '2026-08-25'],
  ]);
  expect(of('nest check', checked, '2026-08-19')).toEqual([['nest check', 'R1', '2026-08-19', '2026-08-26']]);
});

test('a re-inspection: a sound tree after 36 months, one with a defect after 12, one that moves today', () => {
  const seen = '  inspection 2026-03-14 from ground\n';
  // 36 × 30.436875 = 1095 days, 12 × 30.436875 = 365 days.
  expect(of('re-inspection', seen)).toEqual([['re-inspection', 'tree', '2029-03-13', '2029-03-13']]);
  expect(of('re-inspection', `${seen}  defect A canker\n    share 10 % of circumference\n`)).toEqual([
    ['re-inspection', 'tree', '2027-03-14', '2027-03-14'],
  ]);
  expect(of('re-inspection', `${seen}  defect A hanger\n`)).toEqual([
    ['re-inspection', 'tree', '2026-06-01', '2026-06-01'],
  ]);
});

test('last days of permits and exceptions, as long as they are to come; follow-ups also when they are overdue', () => {
  const permit = '  protected permit TR-1, until 2026-06-30\n';
  expect(of('permit ends', permit)).toEqual([['permit ends', 'TR-1', '2026-06-30', '2026-06-30']]);
  expect(of('permit ends', permit, '2026-07-01')).toEqual([]);
  expect(of('follow-up', '  follow-up F1 tomogram\n    due 2026-05-01\n')).toEqual([
    ['follow-up', 'F1', '2026-05-01', '2026-05-01'],
  ]);
});

test('nothing of a felled tree', () => {
  expect(appointments(`  felled 2026-05-30\n${WORK}`)).toEqual([]);
});

test('supports: a look each year, and the end of their service life; none of one that was taken out', () => {
  const cable = '  support C1 cable\n    installed 2020-05-04\n    inspected 2025-06-10\n';
  // 8 × 365.2425 = 2921 days, and 365 days.
  expect(of('support inspection', cable)).toEqual([['support inspection', 'C1', '2026-06-10', '2026-06-10']]);
  expect(of('support ends', cable)).toEqual([['support ends', 'C1', '2028-05-03', '2028-05-03']]);
  const late = '  support C1 cable\n    installed 2015-05-04\n';
  expect(of('support inspection', late)).toEqual([['support inspection', 'C1', '2016-05-03', '2016-05-03']]);
  expect(appointments(`${late}    removed 2026-05-01\n`)).toEqual([]);
});

test('a wall is read again in half the time to its limit, a year after the reading at the soonest', () => {
  const hollow = (wall: string) => `  species Quercus robur
  vigor good
  inspection 2026-03-14 from ground
  defect A decay
    on trunk at 1 m
    diameter 60 cm
    wall ${wall}
`;
  expect(of('wall reading', hollow('11 cm'))).toEqual([['wall reading', 'A', '2027-03-14', '2027-03-14']]);
  expect(of('wall reading', '  defect A decay\n    on trunk at 1 m\n    diameter 60 cm\n')).toEqual([]);
});
