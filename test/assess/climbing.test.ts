import { expect, test } from 'vitest';
import { unsafeToClimb } from '../../server/assess/climbing.ts';
import { dayContext } from './inventory.ts';

const bans = (lines: string) => unsafeToClimb(dayContext(`tree 1\n${lines}`));
const hollow = (wall: string, at = '4 ft') =>
  `  inspection 2026-05-04 from ground\n  defect A decay\n    on trunk at ${at}\n    diameter 30 in\n    bark 0 in\n    wall ${wall}\n`;

test('nobody climbs a dead tree, nor one with roots that move', () => {
  expect(bans('  vigor dead\n')).toMatchObject([{ reason: 'the tree is dead', isSure: true, isWhole: true }]);
  expect(bans('  vigor good\n')).toEqual([]);
});

test('a hollow base forbids it for certain, or as far as its readings may exceed', () => {
  expect(bans(hollow('3 in'))).toMatchObject([{ isSure: true, isWhole: true }]);
  expect(bans(hollow('3..6 in'))).toMatchObject([{ isSure: false, isWhole: true }]);
  expect(bans(hollow('6 in'))).toEqual([]);
});

test('a hollow above 2 m leaves the stem below it to somebody on site', () => {
  expect(bans(hollow('3 in', '20 ft'))).toMatchObject([{ isSure: true, isWhole: false }]);
});

test('a hanger forbids no climbing of the stem', () => {
  expect(bans('  limb L1\n  defect A hanger\n    on L1 at 20 ft\n')).toEqual([]);
});
