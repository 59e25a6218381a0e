import { describe, expect, test } from 'vitest';
import {
  liftedShare,
  mostDose,
  raisedRatio,
  shareDown,
  smallerDose,
  stagesFor,
} from '../../server/assess/dose-room.ts';
import { dayContext } from './inventory.ts';

const withPrescription = (lines: string, tree = '  age mature\n', more = '') => {
  const context = dayContext(`tree 1\n${tree}  prescription R1 ${lines}\n${more}`);
  return { context, prescription: context.tree.prescriptions[0]! };
};
const most = (...args: Parameters<typeof withPrescription>) => {
  const { context, prescription } = withPrescription(...args);
  return Number(mostDose(context, prescription).toFixed(9));
};

describe('the most that a prescription may take', () => {
  test('is the limit of a season by age, times its stages, and no more than 25 % in three years', () => {
    expect(most('thin')).toBe(0.15);
    expect(most('thin', '  age veteran\n')).toBe(0.1);
    expect(most('thin\n    stages 2')).toBe(0.25);
    // Three stages lie in three years.
    expect(most('thin\n    stages 3')).toBe(0.25);
  });

  test('is what work of the last three years left', () => {
    const work = '  prescription R0 thin\n    dose 15 %\n  work R0 2025-02-01\n';
    expect(most('thin\n    between 2026-09-15..2026-11-30', '  age mature\n', work)).toBe(0.1);
  });

  test('is what others in its season leave', () => {
    const season = '\n    between 2026-09-15..2026-11-30';
    expect(most(`thin${season}`, '  age mature\n', `  prescription R2 clean\n    dose 5 %${season}\n`)).toBe(
      0.1,
    );
  });

  test('of a protected tree without a permit is nothing where the dose would pass', () => {
    const tree = '  age mature\n  protected by "city list"\n';
    expect(most('thin', tree)).toBe(0.15);
    expect(most('thin\n    permit TR-1', tree)).toBe(0.15);
  });
});

test('a share is written down to a tenth of a percent', () => {
  expect([shareDown(0.1239), shareDown(0.15), shareDown(0.0009)]).toEqual(['12.3 %', '15 %', undefined]);
});

describe('a crown that is raised', () => {
  const raised = (line: string, tree = '  height 60 ft\n  crown from 10 ft, 40 ft wide\n') => {
    const { context, prescription } = withPrescription(`raise\n    ${line}`, tree);
    return {
      lifted: liftedShare(context.tree, prescription, context.settings),
      left: raisedRatio(context.tree, prescription, context.settings),
    };
  };

  test('from 10 to 20 of 60 ft loses 10/50 of its height, and leaves 40/60 of the tree', () => {
    const { lifted, left } = raised('base 10 ft to 20 ft');
    expect(lifted!.high).toBeCloseTo(0.2, 12);
    expect(left!.low).toBeCloseTo(2 / 3, 12);
  });

  test('keeps readings that belong together: 10..12 to 20 ft loses 8/48 to 10/50', () => {
    const { lifted } = raised('base 10..12 ft to 20 ft');
    expect(lifted!.low).toBeCloseTo(8 / 48, 12);
    expect(lifted!.high).toBeCloseTo(10 / 50, 12);
  });

  test('says nothing without a base, and leaves none above its top', () => {
    expect(raised('dose 10 %')).toEqual({ lifted: undefined, left: undefined });
    expect(raised('base 10 ft to 60 ft').left).toBeUndefined();
  });
});

describe('a dose that is too much', () => {
  const advice = (lines: string, tree?: string) => {
    const { context, prescription } = withPrescription(lines, tree);
    return { smaller: smallerDose(context, prescription), stages: stagesFor(context, prescription) };
  };

  test('is the limit instead, or is spread over the fewest stages that keep it', () => {
    expect(advice('thin\n    dose 25 %')).toEqual({
      smaller: { words: '15 % or less', lines: ['dose 15 %'] },
      stages: 2,
    });
    // More than 25 % in three years is in no three stages.
    expect(advice('thin\n    dose 30 %').stages).toBeUndefined();
  });

  test('that work went beyond already is not prescribed away', () => {
    const { context, prescription } = withPrescription(
      'thin\n    dose 40 %\n    stages 2',
      '  age mature\n',
      '  work R1 2026-05-01\n    dose 30 %\n',
    );
    expect(smallerDose(context, prescription)).toBeUndefined();
  });
});
