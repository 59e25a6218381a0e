import { describe, expect, test } from 'vitest';
import { currentJobs, jobs, openPrescriptions } from '../../server/assess/jobs.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { stagesLeft } from '../../server/facts/stages.ts';
import { treeIn } from './inventory.ts';

const today = parseDate('2026-06-01')!;
const told = (text: string) =>
  jobs(treeIn(text).tree, today).map(
    ({ subject, days }) =>
      `${subject} ${days ? `${formatDate(days.from)}..${formatDate(days.to)}` : 'any day'}`,
  );

describe('jobs', () => {
  test('work on its day, open prescriptions with what remains of their window', () => {
    expect(
      told(`tree 1
  prescription R1 thin
    between 2026-01-10..2026-02-20
  work R1 2026-01-28
  prescription R2 reduce
    between 2026-05-15..2026-06-20
  prescription R3 clean
  prescription R4 raise
    between 2026-03-01..2026-05-31
`),
    ).toEqual(['2026-01-28 2026-01-28..2026-01-28', 'R2 2026-06-01..2026-06-20', 'R3 any day', 'R4 any day']);
  });

  test('prescriptions that replace each other, or themselves, stay open: nobody knows which one holds', () => {
    expect(
      told(`tree 1
  prescription R1 thin
    replaces R3
  prescription R2 reduce
    replaces R1
  prescription R3 clean
    replaces R2
  prescription R4 raise
    replaces R4
  prescription R5 thin
    replaces R4
`),
    ).toEqual(['R1 any day', 'R2 any day', 'R3 any day', 'R5 any day']);
  });

  test('nothing that leaves the tree as it is, nor withdrawn, overtaken, or under no prescription', () => {
    expect(
      told(`tree 1
  prescription R1 keep
  prescription R2 investigate
  prescription R3 fell
    withdrawn 2026-05-02
  prescription R4 thin
  prescription R5 thin
    replaces R4
  work R9 2026-01-28
`),
    ).toEqual(['R5 any day']);
  });

  test('one that overtakes another and is withdrawn gives it back', () => {
    expect(
      told(`tree 1
  prescription R4 thin
  prescription R5 thin
    replaces R4
    withdrawn 2026-05-02
`),
    ).toEqual(['R4 any day']);
  });

  test('of a felled tree none is open', () => {
    const text = 'tree 1\n  felled 2025-11-20\n  prescription R1 fell\n  prescription R2 thin\n';
    expect(told(text)).toEqual([]);
    expect(told(`${text}  work R1 2025-11-20\n`)).toEqual(['2025-11-20 2025-11-20..2025-11-20']);
  });

  test('stages stay open until each is done', () => {
    const { tree } = treeIn('tree 1\n  prescription R1 reduce\n    stages 3\n  work R1 2025-11-20\n');
    expect(openPrescriptions(tree).map(({ id }) => id.value)).toEqual(['R1']);
    expect(stagesLeft(tree, tree.prescriptions[0]!)).toBe(2);
  });

  test('work is current for a year', () => {
    const { tree } = treeIn(
      'tree 1\n  prescription R1 clean\n    stages 2\n  work R1 2025-05-30\n  work R1 2025-06-01\n',
    );
    expect(currentJobs(tree, today).map(({ subject }) => subject)).toEqual(['2025-06-01']);
  });
});
