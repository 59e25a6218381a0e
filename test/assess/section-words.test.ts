import { describe, expect, test } from 'vitest';
import { judge, showShare } from '../../server/assess/judge.ts';
import { weakestAlong, weakestBearing } from '../../server/assess/section-words.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import { interval } from '../../server/base/interval.ts';
import { treeIn } from './inventory.ts';

const strength = (...fields: readonly string[]) => {
  const { tree, settings } = treeIn(
    `tree 1\n  inspection 2026-05-04 from rope\n  defect A cavity\n    diameter 30 in\n    bark 0 in\n${fields.map(field => `    ${field}\n`).join('')}`,
  );
  return strengthOf(tree, settings).defects[0]!;
};

describe('the direction in which a section is weakest', () => {
  test('is along the mouth of a shallow cavity', () => {
    const open = strength('on trunk at 4 ft, facing SW', 'opening 9 in wide', 'depth 10 in');
    expect(weakestBearing(open)).toBeDefined();
    // Wood is missing at 225°: bending toward 45° and 225° strains what is left most.
    expect(Math.abs(weakestBearing(open)! - 45)).toBeLessThanOrEqual(5);
    expect(weakestAlong(open)).toBe('NE–SW');
  });

  test('is not known of a ring, nor where nobody wrote which way it faces', () => {
    expect(weakestBearing(strength('wall 3 in'))).toBeUndefined();
    expect(weakestAlong(strength('opening 9 in wide', 'depth 10 in'))).toBe('not known');
  });
});

test('a loss is told by the ends that say something', () => {
  const { settings } = treeIn('tree 1\n');
  const words = (low: number, high: number) =>
    showShare(judge(interval(low, high), 'section-loss', settings));
  expect(words(0.34, 0.48)).toBe('34..48 %');
  expect(words(0.34, 1)).toBe('at least 34 %');
  expect(words(0, 1)).toBe('an unknown share');
  expect(words(0, 0.2)).toBe('at most 20 %');
  // The limit is 23 %: three digits do not tell them apart, four would be more than was measured.
  expect(words(0.2304, 1)).toBe('at least 23 %');
});
