import { expect, test } from 'vitest';
import { answeringReductions } from '../../server/assess/answers.ts';
import { treeIn } from './inventory.ts';

const decay = (name: string, wall: string, on = 'trunk') =>
  `  defect ${name} decay\n    on ${on} at 4 ft\n    diameter 30 in\n    bark 0 in\n    wall ${wall}\n`;
const answered = (defects: string, prescription: string) => {
  const { tree, settings } = treeIn(
    `tree 1\n  limb L1\n  inspection 2026-05-04 from ground\n${defects}  prescription R1 ${prescription}\n`,
  );
  return answeringReductions(tree, settings).map(one =>
    one.answered.map(({ hollow }) => hollow.defect.id.value),
  );
};

test('a reduction answers the hollows of the stem that may have lost more than the limit, and those it names', () => {
  expect(answered(decay('A', '3 in') + decay('B', '6 in'), 'reduce')).toEqual([['A']]);
  expect(answered(decay('A', '3..6 in'), 'reduce')).toEqual([['A']]);
  expect(answered(decay('A', '6 in') + decay('B', '6 in'), 'reduce\n    for B')).toEqual([['B']]);
});

test('none answers sound wood or a limb, and no other work does', () => {
  expect(answered(decay('A', '6 in'), 'reduce')).toEqual([]);
  expect(answered(decay('A', '3 in', 'L1'), 'reduce')).toEqual([]);
  expect(answered(decay('A', '3 in'), 'thin')).toEqual([]);
  expect(answered(decay('A', '3 in'), 'reduce\n    withdrawn 2026-05-30')).toEqual([]);
});
