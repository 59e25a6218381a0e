import { expect, test } from 'vitest';
import { pestWindows } from '../../server/assess/pest-windows.ts';
import { readFile } from '../../server/facts/file.ts';
import { latestState } from '../../server/facts/state.ts';
import { buildWorkspace, settingsFor } from '../../server/facts/workspace.ts';

const pests = (region: string, species: string) => {
  const file = readFile('a.wood', `site "Fernhollow Court"\n  region ${region}\n\ntree 1\n${species}`);
  const settings = settingsFor(buildWorkspace([file]), 'a.wood');
  return pestWindows(latestState(file.trees[0]!.fact), settings).map(({ pest }) => pest);
};

test.each([
  ['US-MN', '  species Quercus rubra\n', ['oak wilt']],
  ['US-MN', '  species Quercus sp.\n', ['oak wilt']],
  ['US-OR', '  species Quercus rubra\n', []],
  ['US-OR', '  species Ulmus americana\n', ['Dutch elm disease']],
  ['US-OR', '  species Malus domestica\n', ['fire blight']],
  ['US-CA', '  species Pinus ponderosa\n', ['pine bark beetles']],
  ['US-MN', '', []],
])('in %s, %j', (region, species, expected) => {
  expect(pests(region, species)).toEqual(expected);
});
