import { expect, test } from 'vitest';
import { buildWorkspace, readFile } from '../../../server/facts/workspace.ts';
import { checkFile } from '../../../server/rules/check.ts';

/** 2026-06-01. */
const TODAY = 20605;

const mistakesIn = (text: string) => {
  const file = readFile('a.wood', text);
  return checkFile(buildWorkspace([file]), file, TODAY);
};

test('of a text that is no inventory a thousand mistakes are told, the last of them with how many there are', () => {
  const found = mistakesIn(',\n'.repeat(1500));
  expect(found).toHaveLength(1000);
  expect(found.at(-2)!.message).toBe('Unknown word ",".');
  expect(found.at(-1)).toMatchObject({
    line: 1000,
    message: 'Unknown word ",". Below it, 500 more lines up to the next head of the file have mistakes.',
  });
  expect(mistakesIn(',\n'.repeat(1000)).at(-1)!.message).toBe('Unknown word ",".');
  expect(mistakesIn(',\n'.repeat(1001)).at(-1)!.message).toMatch(/1 more line up to .* has a mistake\.$/);
});

test('what stands below the next head is told as ever', () => {
  const found = mistakesIn(`${',\n'.repeat(1500)}tree 1\n  dbh 41\n`);
  expect(found).toHaveLength(1001);
  expect(found.at(-1)).toMatchObject({ line: 1502, rule: 'missing-unit' });
});
