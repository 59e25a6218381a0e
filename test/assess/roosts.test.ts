import { describe, expect, test } from 'vitest';
import { lastBatCheckBy, plannedBatCheck, roostFeatures, roostJobs } from '../../server/assess/roosts.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { treeIn } from './inventory.ts';

const day = (text: string) => parseDate(text)!;

test('bats get into open cavities, under loose bark and into woodpecker holes', () => {
  const { tree } = treeIn(`tree 1
  defect A cavity
    opening closed
  defect B cavity
  defect C loose bark
  defect D woodpecker holes
  defect E decay
  defect F cavity
    closed 2026-05-01
`);
  expect(roostFeatures(tree).map(({ id }) => id.value)).toEqual(['B', 'C', 'D']);
});

describe('work that meets them', () => {
  const met = (text: string) =>
    roostJobs(
      treeIn(`tree 1
  stem North
  stem South
  defect A cavity
    on South at 20 ft
  defect B dead wood
${text}`).tree,
      day('2026-06-01'),
    ).map(({ subject }) => subject);

  test.each([
    ['felling', '  prescription R1 fell\n', ['R1']],
    ['a monolith', '  prescription R1 monolith\n', ['R1']],
    ['felling of its stem', '  prescription R1 fell\n    remove South\n', ['R1']],
    ['not felling of another', '  prescription R1 fell\n    remove North\n', []],
    ['pruning for it', '  prescription R1 reduce\n    for A\n', ['R1']],
    ['pruning for nothing in particular', '  prescription R1 reduce\n', ['R1']],
    ['not pruning for another defect', '  prescription R1 clean\n    for B\n', []],
    ['not watching', '  prescription R1 watch\n', []],
    ['not work of years ago', '  prescription R1 clean\n  work R1 2023-02-02\n', []],
  ])('%s', (_what, text, expected) => {
    expect(met(text)).toEqual(expected);
  });
});

test('the last bat check by a day', () => {
  const { tree } = treeIn(`tree 1
  bat check 2026-05-20 from lift
    found none
  bat check 2026-04-20 from ground
    found none
`);
  const last = (by: string) => {
    const check = lastBatCheckBy(tree, day(by));
    return check && formatDate(check.date.value);
  };
  expect([last('2026-04-19'), last('2026-04-20'), last('2026-06-01')]).toEqual([
    undefined,
    '2026-04-20',
    '2026-05-20',
  ]);
});

test('a bat check is planned where it is due by the day and holds until then', () => {
  const { tree } = treeIn(`tree 1
  follow-up F1 bat check
    due 2026-10-01
`);
  const planned = (by: string) => plannedBatCheck(tree, day(by), 14)?.id.value;
  expect([
    planned('2026-09-30'),
    planned('2026-10-01'),
    planned('2026-10-15'),
    planned('2026-10-16'),
  ]).toEqual([undefined, 'F1', 'F1', undefined]);
});
