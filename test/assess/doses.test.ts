import { describe, expect, test } from 'vitest';
import { cumulations, doseLimitsOf, doseOf } from '../../server/assess/doses.ts';
import { jobs } from '../../server/assess/jobs.ts';
import { parseDate } from '../../server/base/dates.ts';
import { treeIn } from './inventory.ts';

const today = parseDate('2026-06-01')!;
const shares = (text: string) => {
  const { tree, settings } = treeIn(text);
  return jobs(tree, today).map(job => doseOf(tree, job, settings)?.share);
};
const sums = (text: string) => {
  const { tree, settings } = treeIn(text);
  return cumulations(tree, today, settings.limit('cumulative-years').value, settings).map(
    ({ job, count, total }) => ({ subject: job.subject, count, low: total.low, high: total.high }),
  );
};

describe('the dose of one season', () => {
  test('of work as recorded, else as prescribed; in equal parts for stages', () => {
    expect(
      shares(
        'tree 1\n  prescription R1 thin\n    dose 20 %\n    stages 2\n  work R1 2025-11-01\n    dose 12 %\n',
      ),
    ).toEqual([
      { low: 0.12, high: 0.12 },
      { low: expect.closeTo(0.08, 9), high: expect.closeTo(0.08, 9) },
    ]);
    expect(shares('tree 1\n  prescription R1 thin\n    dose 20 %\n  work R1 2025-11-01\n')).toEqual([
      { low: 0.2, high: 0.2 },
    ]);
    expect(shares('tree 1\n  prescription R1 thin\n')).toEqual([undefined]);
  });

  test('of what work left unfinished is the rest; anything up to the whole where that work states none', () => {
    const left = (dose: string) =>
      shares(
        `tree 1\n  prescription R1 thin\n    dose 20 %\n  work R1 2025-11-01\n    unfinished "the top"\n${dose}`,
      ).at(-1);
    expect(left('    dose 5 %\n')).toEqual({ low: expect.closeTo(0.15, 9), high: expect.closeTo(0.15, 9) });
    expect(left('')).toEqual({ low: 0, high: 0.2 });
  });

  test('without one the new size tells it: from volume to silhouette for the cut, and to its square for the spread', () => {
    const [dose] = shares(`tree 1
  crown from 10 ft
  prescription R1 reduce
    height 60 ft to 50 ft
    spread 50 ft to 45 ft
`);
    // Cut at 0.6 of the upper half: 10.4 % of the volume, 14.2 % of the silhouette. Spread 0.9 of what it was.
    expect(dose!.low).toBeCloseTo(1 - 0.896 * 0.9, 9);
    expect(dose!.high).toBeCloseTo(1 - 0.857622 * 0.9 ** 2, 6);
  });

  test('nor where the crown has no base, or the change adds to it', () => {
    expect(shares('tree 1\n  prescription R1 reduce\n    height 60 ft to 50 ft\n')).toEqual([undefined]);
    expect(
      shares('tree 1\n  crown from 10 ft\n  prescription R1 reduce\n    height 50 ft to 60 ft\n'),
    ).toEqual([undefined]);
  });

  test('an estimate spreads by the margin of practice, and no dose is more than all', () => {
    const [about, above] = [
      shares(
        'practice "Office"\n  limit estimate-margin 20 %\n\ntree 1\n  prescription R1 thin\n    dose ~20 %\n',
      ),
      shares('tree 1\n  prescription R1 thin\n    dose > 20 %\n'),
    ];
    expect(about[0]!.low).toBeCloseTo(0.16, 12);
    expect(about[0]!.high).toBeCloseTo(0.24, 12);
    expect(above).toEqual([{ low: 0.2, high: 1 }]);
  });

  test.each([
    ['', ['dose']],
    ['  age mature\n', ['dose-mature']],
    ['  age veteran\n  vigor poor\n', ['dose-veteran', 'dose-stressed']],
    ['  age young\n  vigor good\n  stressed by drought\n', ['dose-young', 'dose-stressed']],
  ])('limits by age, vigor and stress: %j', (fields, names) => {
    const { tree } = treeIn(`tree 1\n${fields}`);
    expect(doseLimitsOf(tree, 'clean')).toEqual(names);
    expect(doseLimitsOf(tree, 'thin')).toEqual([...names, 'thinning-share']);
  });
});

describe('doses over the years', () => {
  const earlierWork = (date: string, dose = '    dose 15 %\n') =>
    `tree 1\n  prescription R1 thin\n${dose}  work R1 ${date}\n  prescription R2 thin\n    dose 10 %\n    between 2026-09-15..2026-11-30\n`;

  test('work counts for three years to the first day of the next', () => {
    expect(sums(earlierWork('2023-09-17'))).toEqual([{ subject: 'R2', count: 2, low: 0.25, high: 0.25 }]);
    expect(sums(earlierWork('2023-09-14'))).toEqual([]);
  });

  test('work of which nobody wrote the dose may have taken anything', () => {
    expect(sums(earlierWork('2025-02-03', ''))).toEqual([{ subject: 'R2', count: 2, low: 0.1, high: 1.1 }]);
  });

  test('stages to come count as far as the years reach', () => {
    const [sum] = sums('tree 1\n  prescription R1 reduce\n    dose 50 %\n    stages 5\n');
    expect(sum).toMatchObject({ subject: 'R1', count: 3 });
    expect(sum!.high).toBeCloseTo(0.3, 12);
  });

  test('without anything open the last work is taken', () => {
    const text = `tree 1
  prescription R1 thin
    dose 10 %
  work R1 2024-02-03
  prescription R2 thin
    dose 20 %
  work R2 2026-02-03
`;
    const [sum] = sums(text);
    expect(sum).toMatchObject({ subject: '2026-02-03', count: 2 });
    expect(sum!.low).toBeCloseTo(0.3, 12);
  });
});
