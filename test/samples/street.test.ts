/**
 * What a check says to people of the street trees of a town, most of them sound, and of an estate in England. UPDATE=1
 * rewrites what is expected.
 */

import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { folderWith, ON } from '../cli/folder.ts';
import { SAMPLES, sampleFiles } from './sample-files.ts';

const files = sampleFiles('street');

const estate = sampleFiles('aldermere');

it.each([...files, ...estate])('$path has no mistake of syntax and is tidy', ({ text }) => {
  const mistakes = splitBlocks(text).flatMap(({ block }) =>
    block.lines.flatMap(({ mistake }) => mistake?.message ?? []),
  );
  expect(mistakes).toEqual([]);
  expect(tidy(text).text).toBe(text);
});

it('has some forty trees, most of them without a defect', () => {
  const trees = splitBlocks(files.map(({ text }) => text).join('\n')).filter(
    ({ block }) => block.sections[0]?.word === 'tree',
  );
  const sound = trees.filter(({ block }) => !block.sections.some(({ word }) => word === 'defect'));
  expect(trees.length).toBeGreaterThanOrEqual(39);
  expect(sound.length).toBeGreaterThan(trees.length * 0.8);
});

it.each([
  ['street', files],
  ['aldermere', estate],
])('%s reads as expected', async (name, files) => {
  const folder = await folderWith(Object.fromEntries(files.map(({ path, text }) => [path, text])));
  const { out, err } = await folder.run('check', '--on', ON);
  expect(err).toBe('');
  const expected = `${SAMPLES}${name}/check.expected`;
  if (process.env.UPDATE === '1') writeFileSync(expected, out);
  expect(out).toBe(readFileSync(expected, 'utf8'));
});
