import { describe, expect, test } from 'vitest';
import { crownReduction, jointReduction } from '../../server/assess/crowns.ts';
import type { Interval } from '../../server/base/interval.ts';
import { treeIn } from './inventory.ts';

const FOOT = 0.3048;
const inFeet = (value: Interval | undefined) =>
  value && [value.low, value.high].map(metres => Number((metres / FOOT).toFixed(9)));

const TREE = 'tree 1\n  height 60 ft\n  crown from 10 ft, 40 ft wide\n';

function reduction(lines: string, tree = TREE, joint = false) {
  const { tree: read, settings } = treeIn(`${tree}${lines}`);
  const found = joint
    ? jointReduction(read, read.prescriptions, settings)
    : crownReduction(read, read.prescriptions[0]!, settings);
  if (!found) return undefined;
  const { crown, change } = found;
  return {
    before: [inFeet(crown.base), inFeet(crown.top), inFeet(crown.spread)],
    after: [inFeet(change.base), inFeet(change.top), inFeet(change.spread)],
  };
}
const BEFORE = [
  [10, 10],
  [60, 60],
  [40, 40],
];

describe('one prescription', () => {
  test('changes the sizes that it states, and no others', () => {
    expect(
      reduction('  prescription R1 reduce\n    height 60 ft to 48 ft\n    spread 40 ft to 32 ft\n'),
    ).toEqual({
      before: BEFORE,
      after: [undefined, [48, 48], [32, 32]],
    });
    expect(reduction('  prescription R1 raise\n    base 10 ft to 14 ft\n')).toEqual({
      before: BEFORE,
      after: [[14, 14], undefined, undefined],
    });
    expect(reduction('  prescription R1 reduce\n    dose 10 %\n')).toBeUndefined();
  });

  test('begins with what it says of the crown itself', () => {
    const found = reduction('  prescription R1 reduce\n    height 62 ft to 50 ft\n');
    expect(found!.before[1]).toEqual([62, 62]);
  });

  test('keeps every reading, and a top that may be anything up to one is no higher than before', () => {
    const found = reduction('  prescription R1 reduce\n    height 55..65 ft to 50..70 ft\n');
    expect(found).toMatchObject({
      before: [
        [10, 10],
        [55, 65],
        [40, 40],
      ],
      after: [undefined, [50, 65], undefined],
    });
  });

  test.each([
    ['no base of the crown on record', 'tree 1\n  height 60 ft\n', 'height 60 ft to 50 ft'],
    ['a top without an end', 'tree 1\n  height > 60 ft\n  crown from 10 ft\n', 'spread 40 ft to 30 ft'],
    ['a crown that grows', TREE, 'height 50 ft to 60 ft'],
    ['a base that sinks', TREE, 'base 10 ft to 8 ft'],
    ['no crown left', TREE, 'height 60 ft to 9 ft'],
  ])('none of %s', (_, tree, line) => {
    expect(reduction(`  prescription R1 reduce\n    ${line}\n`, tree)).toBeUndefined();
  });
});

describe('several prescriptions', () => {
  const two = (first: string, second: string) =>
    reduction(
      `  prescription R1 reduce\n    ${first}\n  prescription R2 reduce\n    ${second}\n`,
      TREE,
      true,
    );

  test('leave the lowest top, the highest base and the least spread', () => {
    expect(
      two(
        'height 60 ft to 50 ft',
        'height 60 ft to 54 ft\n    spread 40 ft to 30 ft\n    base 10 ft to 12 ft',
      ),
    ).toEqual({
      before: BEFORE,
      after: [
        [12, 12],
        [50, 50],
        [30, 30],
      ],
    });
  });

  test('leave none where one of them, or both together, do', () => {
    expect(two('height 60 ft to 50 ft', 'dose 10 %')).toBeUndefined();
    expect(two('height 60 ft to 30 ft', 'base 10 ft to 35 ft')).toBeUndefined();
  });
});
