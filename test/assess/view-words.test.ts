import { expect, test } from 'vitest';
import { viewChanges, whatIsSeen } from '../../server/assess/view-words.ts';
import { treeIn } from './inventory.ts';

const changes = (prescription: string, wish: 'hide' | 'open' = 'hide') => {
  const { tree, settings } = treeIn(`tree 1
  height 60 ft
  crown from 10 ft, 40 ft wide
  view "Reading room"
    eye 14 ft, 40 ft away
    hide 0..24 ft, 140 ft beyond
  prescription R1 ${prescription}
`);
  return viewChanges(tree, wish, settings);
};

test('a view under every open prescription that says what it makes of the crown', () => {
  const [change] = changes('raise\n    base 10 ft to 30 ft');
  expect(change!.prescription.id.value).toBe('R1');
  expect(whatIsSeen(change!)).toBe('0..24 ft, 140 ft beyond');
  expect(changes('thin\n    dose 10 %')).toEqual([]);
  expect(changes('raise\n    base 10 ft to 30 ft\n    withdrawn 2026-05-30')).toEqual([]);
  expect(changes('raise\n    base 10 ft to 30 ft', 'open')).toEqual([]);
});
