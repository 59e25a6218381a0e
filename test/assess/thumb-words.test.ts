import { expect, test } from 'vitest';
import { hollowsOf } from '../../server/assess/hollows.ts';
import { judge } from '../../server/assess/judge.ts';
import { readingThatSettles } from '../../server/assess/settling-reading.ts';
import { lossWords, thinnestWallWords } from '../../server/assess/thumb-words.ts';
import { treeIn } from './inventory.ts';

const hollow = (fields: string) => {
  const { tree, settings } = treeIn(
    `tree 1\n  inspection 2026-05-04 from lift\n  defect A cavity\n    on trunk at 18 ft, facing SW\n    diameter 26 in\n${fields}`,
  );
  const read = hollowsOf(tree, settings)[0]!;
  return { hollow: read, settings, settling: readingThatSettles({ tree, site: undefined, settings }, read) };
};

function loss(fields: string) {
  const { hollow: read, settings, settling } = hollow(fields);
  const judged = judge(read.thumbs.cubic.value, 'strength-loss', settings);
  return lossWords(read, judged, 'd³/D³', settling);
}

test('a loss that may exceed names what was not read, and what would settle every figure of the hollow', () => {
  expect(loss('    opening 9 in wide\n    depth unseen\n')).toEqual({
    message:
      'Cavity A (18 ft up): d³/D³ gives a strength loss of 0..100 %, which may exceed the limit of 33 % (Wagener 1963); the depth is unseen.',
    remedy:
      'Measure the section (resistance drill, tomograph, or a probe where it is open): a void of 9 in or less through the opening settles it.',
  });
});

test('a loss that exceeds asks for a measurement and for action', () => {
  const { message, remedy } = loss('    wall 2 in\n');
  expect(message).toBe(
    'Cavity A (18 ft up): d³/D³ gives a strength loss of 60.6 %, which exceeds the limit of 33 % (Wagener 1963).',
  );
  expect(remedy).toMatch(/^Have the section measured/);
});

test('a wall is told against the least one that will do, in the writer’s unit', () => {
  const { hollow: read, settings, settling } = hollow('    wall 3..5 in at SW\n');
  const { wallRatio } = read.thumbs;
  expect(wallRatio.applies).toBe(true);
  const value = wallRatio.applies ? wallRatio.value : { low: 0, high: 0 };
  expect(thinnestWallWords(read, judge(value, 'wall-ratio', settings), settling)).toEqual({
    message:
      'Cavity A (18 ft up): the thinnest sound wall over the radius (t/R) is 0.23..0.38, which may be below the limit of 0.3 (Mattheck and Breloer 1994).',
    remedy:
      'Measure the section (resistance drill, tomograph, or a probe where it is open): a sound wall of 4.4 in or more at SW settles it.',
  });
});
