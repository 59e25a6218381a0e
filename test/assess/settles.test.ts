import { expect, test } from 'vitest';
import { settlesDefect } from '../../server/assess/settles.ts';
import { strengthOf } from '../../server/assess/strength.ts';
import { treeIn } from './inventory.ts';

const INCH = 0.0254;
const settles = (...fields: readonly string[]) => {
  const { tree, settings } = treeIn(
    `tree 1\n  inspection 2026-05-04 from rope\n  defect A decay\n    diameter 30 in\n    bark 0 in\n${fields.map(field => `    ${field}\n`).join('')}`,
  );
  return settlesDefect(strengthOf(tree, settings).defects[0]!, settings);
};

test('a ring loses 23 % at a wall of (1 − 0.23^¼)/2 of its diameter: 4.61 in of 30 in', () => {
  const found = settles('wall 4..5 in')!;
  expect(found.reading).toBe('sound wall');
  expect(found.decides).toBe('within');
  expect(found.threshold! / INCH).toBeCloseTo(((1 - 0.23 ** 0.25) / 2) * 30, 2);
  expect(found.text).toBe(
    'A sound wall of 4.7 in or more at A would settle it: the loss of the section is then within 23 %.',
  );
});

test('nothing is to be settled where the readings decide', () => {
  expect(settles('wall 5 in')).toBeUndefined();
  expect(settles('wall 3..4 in')).toBeUndefined();
});

test('a wall read on one bearing alone leaves the others to be read', () => {
  const found = settles('wall 5 in at N')!;
  expect(found.threshold).toBeUndefined();
  expect(found.text).toMatch(
    /^At A the sound wall was measured only at N. Measure it opposite, at S, and at /,
  );
});
