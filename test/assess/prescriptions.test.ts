import { describe, expect, it } from 'vitest';
import {
  areApart,
  daysLeft,
  lengthDown,
  lengthLimitLike,
  lengthUp,
  openWork,
} from '../../server/assess/prescriptions.ts';
import { parseDate } from '../../server/base/dates.ts';
import { exactly, UNSEEN, unitOf } from '../../server/base/quantity.ts';
import type { LimitName } from '../../server/practice/limits.ts';
import { treeIn } from './inventory.ts';

const FOOT = 0.3048;
const day = (text: string): number => parseDate(text)!;
const treeOf = (lines: string) => treeIn(`tree 1\n${lines}\n`);

describe('prescriptions', () => {
  it('are open while they stand and wait for a stage of their work', () => {
    const { tree } = treeOf(`prescription R1 reduce
prescription R2 reduce
replaces R1
prescription R3 fell
withdrawn 2026-05-02
prescription R4 clean
work R4 2026-02-02
prescription R5 reduce
stages 2
work R5 2026-02-02
prescription R6 keep
prescription R7 cable`);
    expect(openWork(tree).map(({ id }) => id.value)).toEqual(['R2', 'R5', 'R7']);
  });

  it('have left what is left of their window', () => {
    const { tree } = treeOf('prescription R1 reduce\n  between 2026-09-15..2026-11-30');
    const [one] = tree.prescriptions;
    expect(daysLeft(one!, day('2026-06-01'))).toEqual({ from: day('2026-09-15'), to: day('2026-11-30') });
    expect(daysLeft(one!, day('2026-11-30'))).toEqual({ from: day('2026-11-30'), to: day('2026-11-30') });
    expect(daysLeft(one!, day('2026-12-01'))).toBeUndefined();
  });

  it('are so many days apart from the last day of one to the first of the other', () => {
    const { tree } = treeOf(
      'prescription R1 reduce\n  between 2026-09-01..2026-09-30\nprescription R2 thin\n  between 2026-10-10..2026-10-20',
    );
    const [a, b] = [tree.prescriptions[0]!, tree.prescriptions[1]!];
    expect([areApart(a, b, 10), areApart(b, a, 10), areApart(a, b, 11)]).toEqual([true, true, false]);
  });
});

describe('a length that a limit requires', () => {
  it('is rounded to the strict side in the unit of the writer, and kept where it is round', () => {
    expect([lengthUp(26.21 * FOOT), lengthDown(26.29 * FOOT)]).toEqual(['26.3 ft', '26.2 ft']);
    expect([lengthUp(26.2 * FOOT), lengthDown(26.2 * FOOT)]).toEqual(['26.2 ft', '26.2 ft']);
    const metres = { ...exactly(UNSEEN('length'), 8), unit: unitOf('m')! };
    expect([lengthUp(8.001, metres), lengthDown(8.009, metres)]).toEqual(['8.1 m', '8 m']);
  });

  it('is a round number in small metric units, on the strict side', () => {
    const { settings } = treeIn('tree 1\n');
    const told = (limit: LimitName, unit: string) =>
      lengthLimitLike(settings.limit(limit), { unit: unitOf(unit) });
    expect([told('cut-diameter', 'mm'), told('cut-diameter', 'cm')]).toEqual(['100 mm', '10 cm']);
    expect([told('cut-diameter', 'in'), told('salvage-diameter', 'cm')]).toEqual(['4 in', '50 cm']);
    expect(told('nest-stand-off', 'm')).toBe('15.3 m');
  });

  it('is none where nothing is left, or it has no end', () => {
    expect([lengthDown(0.01 * FOOT), lengthUp(Number.POSITIVE_INFINITY)]).toEqual([undefined, undefined]);
  });
});
