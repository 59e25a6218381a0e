import { expect, test } from 'vitest';
import { showDays } from '../../server/assess/days.ts';
import { workDays } from '../../server/assess/work-days.ts';
import { dayContext, treeIn } from './inventory.ts';

const PRACTICE = `practice "Office limits"
  limit nest-check-validity 5 days
    because "second broods"
  season nesting 02-01..08-31
    because "hummingbirds"

`;

function told(lines: string, today = '2026-06-01') {
  const text = `${PRACTICE}tree 1\n${lines}`;
  // With the checks that will be made before the work.
  const context = { ...dayContext(text, today), tree: treeIn(text).tree };
  const { window, open, because } = workDays(context, context.tree.prescriptions[0]!);
  return {
    window: window && showDays(window),
    open: open.map(showDays),
    because: because.map(({ why }) => why),
  };
}

const job = (window: string, kind = 'thin') => `  prescription R1 ${kind}\n    between ${window}\n`;

test('the season closes its days; those out of it stay', () => {
  expect(told(job('2026-08-20..2026-10-10'))).toEqual({
    window: '2026-08-20..2026-10-10',
    open: ['2026-09-01..2026-10-10'],
    because: [
      'Days in the nesting season 02-01..08-31 (Office limits) need a nest check at most 5 days old.',
    ],
  });
});

test('a check that found none opens the days on which it holds', () => {
  const check = (found: string) => `  nest check 2026-06-10 from ground\n    found ${found}\n`;
  expect(told(check('none') + job('2026-06-08..2026-06-20')).open).toEqual(['2026-06-10..2026-06-15']);
  expect(told(check('none') + job('2026-06-08..2026-06-20')).because).toHaveLength(1);
  const active = told(check('active Turdus migratorius at 9 ft') + job('2026-06-08..2026-09-04'));
  expect(active.open).toEqual(['2026-09-01..2026-09-04']);
});

test('an active nest closes days that the season alone leaves', () => {
  const nest = '  nest check 2026-10-20 from ground\n    found active Columba livia\n';
  expect(told(nest + job('2026-10-25..2026-11-10'))).toEqual({
    window: '2026-10-25..2026-11-10',
    open: [],
    because: ['A nest found active on 2026-10-20 closes the work.'],
  });
});

test('no day after the permit of a protected tree', () => {
  const permit = '  protected by "heritage list" permit TR-1, until 2026-09-30\n';
  expect(told(permit + job('2026-09-15..2026-11-30'))).toMatchObject({
    open: ['2026-09-15..2026-09-30'],
    because: ['Permit TR-1 ends on 2026-09-30.'],
  });
});

test('the maternity season of bats closes days where the work meets their roosts', () => {
  const roost = '  defect A cavity\n    on trunk at 9 ft\n';
  const none = '  nest check 2026-06-10 from ground\n    found none\n';
  const window = job('2026-06-10..2026-06-12', 'fell');
  expect(told(none + window).open).toEqual(['2026-06-10..2026-06-12']);
  expect(told(roost + none + window)).toMatchObject({
    open: [],
    because: ['The maternity season of bats 05-01..08-31 (common practice) is excluded.'],
  });
});

test('weeks closed for pruning close days of cuts, not of felling', () => {
  const elm = '  species Ulmus americana\n  nest check 2026-06-10 from ground\n    found none\n';
  expect(told(elm + job('2026-06-10..2026-06-12'))).toMatchObject({
    open: [],
    because: [
      'Weeks closed for pruning (Dutch elm disease: no cutting of Ulmus 04-01..08-31, common practice) are excluded.',
    ],
  });
  expect(told(elm + job('2026-06-10..2026-06-12', 'fell')).open).toEqual(['2026-06-10..2026-06-12']);
});

test('a window that has begun, is past, or is not stated', () => {
  expect(told(job('2026-09-15..2026-09-30'), '2026-09-20').open).toEqual(['2026-09-20..2026-09-30']);
  expect(told(job('2026-09-15..2026-09-30'), '2026-10-01')).toEqual({
    window: undefined,
    open: [],
    because: [],
  });
  expect(told('  prescription R1 thin\n    dose 10 %\n')).toMatchObject({ window: undefined, open: [] });
});
