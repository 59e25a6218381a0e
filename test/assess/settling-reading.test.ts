import { expect, test } from 'vitest';
import { hollowVerdict } from '../../server/assess/hollow-verdict.ts';
import { hollowOf } from '../../server/assess/hollows.ts';
import { readingThatSettles } from '../../server/assess/settling-reading.ts';
import { dayContext } from './inventory.ts';

const contextWith = (...fields: readonly string[]) =>
  dayContext(
    `tree 1\n  inspection 2026-05-04 from rope\n  defect A decay\n    diameter 30 in\n    bark 0 in\n${fields.map(field => `    ${field}\n`).join('')}`,
  );
const settling = (...fields: readonly string[]) => {
  const context = contextWith(...fields);
  const [defect] = context.tree.defects;
  return readingThatSettles(context, hollowOf(defect!, context.tree, context.settings)!);
};
const standing = (...fields: readonly string[]) => {
  const context = contextWith(...fields);
  return hollowVerdict(context.tree.defects[0]!, context).standing;
};

test('the wall that keeps the strictest limit, Wagener’s third: d/D 0.33^⅓, 4.64 in of 30 in, up to a tenth', () => {
  expect(((1 - 0.33 ** (1 / 3)) / 2) * 30).toBeCloseTo(4.634, 3);
  expect(settling('wall 3..6 in')).toEqual({
    words: 'a sound wall of 4.7 in or more all round',
    line: 'wall 4.7 in',
  });
});

test('of a hollow with an opening the depth of the void', () => {
  const fields = ['opening 3 in wide', 'depth 2..28 in'] as const;
  const found = settling(...fields)!;
  expect(found.words).toMatch(/^a void of [\d.]+ in or less through the opening$/);
  expect(standing(...fields)).toBe('may exceed');
  expect(standing(fields[0], found.line)).toBe('within');
});

test('a tenth more than the reading that settles does not', () => {
  expect(standing('wall 4.7 in')).toBe('within');
  expect(standing('wall 4.6 in')).not.toBe('within');
});

test('none is named that the readings on record do not allow', () => {
  expect(settling('wall 3..4.6 in')).toBeUndefined();
  expect(settling('wall 3..6 in at N, 2..4 in at E, 3..6 in at S, 3..6 in at W')).toBeUndefined();
  expect(settling('opening 3 in wide', 'depth 26..28 in')).toBeUndefined();
});
