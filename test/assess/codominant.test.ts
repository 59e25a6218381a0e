import { expect, test } from 'vitest';
import { codominantRatio } from '../../server/assess/codominant.ts';
import { treeIn } from './inventory.ts';

const ratio = (one: string, other: string) => {
  const { tree, settings } = treeIn(`tree 1\n  stem North\n${one}\n  stem South\n${other}\n`);
  return codominantRatio(tree.parts[0]!, tree.parts[1]!, settings);
};

test.each([
  ['16 over 20, whichever is named first', 'diameter 16 in', 'diameter 20 in', 16 / 20, 16 / 20],
  ['the same in two units', 'diameter 20 in', 'diameter 50.8 cm', 1, 1],
  ['every reading: 16/22 to 16/18', 'diameter 16 in', 'diameter 18..22 in', 16 / 22, 16 / 18],
  [
    'either may be the thicker: up to 1, and down to 14/22',
    'diameter 14..20 in',
    'diameter 16..22 in',
    14 / 22,
    1,
  ],
])('%s', (_, one, other, low, high) => {
  for (const found of [ratio(one, other), ratio(other, one)]) {
    expect(found!.low).toBeCloseTo(low, 12);
    expect(found!.high).toBeCloseTo(high, 12);
  }
});

test('none where a diameter is not written down, not seen, or has no end', () => {
  for (const other of ['', 'diameter unseen', 'diameter > 10 in'])
    expect(ratio('diameter 16 in', other)).toBeUndefined();
});
