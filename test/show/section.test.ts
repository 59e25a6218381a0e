/** The section at a defect: what is sound, doubtful, gone or not measured, with a key and a scale. */

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { strengthOf } from '../../server/assess/strength.ts';
import { readFile } from '../../server/facts/file.ts';
import { latestState } from '../../server/facts/state.ts';
import { buildWorkspace, settingsFor } from '../../server/facts/workspace.ts';
import { sectionPicture } from '../../server/show/drawing/pictures.ts';
import { treeIn } from '../assess/inventory.ts';
import { illegible, textsOf } from './drawn.ts';

const drawn = (lines: string) => {
  const { tree, settings } = treeIn(`tree 1
  species Alnus rubra
  dbh 20 in
  height 60 ft
  defect A cavity
    on trunk at 4 ft, facing SW
    diameter 24 x 20 in
    bark 0.5 in
${lines}`);
  const strength = strengthOf(tree, settings);
  return sectionPicture(tree, strength.defects[0]!, strength)!;
};
const words = (svg: string) => textsOf(svg).map(({ text }) => text);

test('a hollow that nobody measured is hatched and says so, without a figure', () => {
  for (const lines of ['', '    opening 6 in wide\n', '    wall unseen\n', '    depth unseen\n']) {
    const { svg, description } = drawn(lines);
    expect(words(svg)).toContain('not measured');
    expect(svg).toContain('url(#unmeasured)');
    expect(svg).not.toContain('class="wood"');
    expect(svg).not.toMatch(/\d %/);
    expect(description).toContain('not measured');
  }
});

test('sound, doubtful and no sound wood are apart, each named in the key', () => {
  const { svg } = drawn('    wall 2..4 in at N, 3 in at E, 3 in at S, 3 in at W\n');
  expect(svg).toContain('url(#doubt)');
  for (const name of [
    'sound wood, at the worst reading',
    'doubtful: sound only at the best reading',
    'no sound wood',
    'bark',
    'thinnest wall, worst',
    'thinnest wall, best',
  ])
    expect(words(svg)).toContain(name);
});

test('a wall read exactly all round leaves no doubt', () => {
  const { svg } = drawn('    wall 3 in\n    opening closed\n');
  expect(svg).not.toContain('url(#doubt)');
  expect(words(svg)).toContain('sound wood');
});

test('the diameter is written, and the scale is in its unit', () => {
  const { svg } = drawn('    wall 3 in\n    opening 5 in wide, 7 in tall\n');
  expect(words(svg)).toContain('diameter 24 in × 20 in, over bark');
  expect(words(svg)).toContain('opening 5 in wide, 7 in tall, facing SW');
  expect(words(svg)).toContain('10 in');
});

test('the thinnest wall is never rounded up', () => {
  const { svg } = drawn('    wall 2.99 in\n    opening closed\n');
  expect(words(svg).find(text => text.startsWith('thinnest wall:'))).toMatch(/^thinnest wall: 2\.[0-9] in/);
});

test('every section of the samples can be read, and comes out alike twice', () => {
  let seen = 0;
  for (const folder of ['fernhollow', 'fernhollow/old-grove', 'quillbrook', 'errors'])
    for (const name of readdirSync(`samples/${folder}`).filter(file => file.endsWith('.wood'))) {
      const file = readFile(name, readFileSync(`samples/${folder}/${name}`, 'utf8'));
      const settings = settingsFor(buildWorkspace([file]), name);
      for (const { fact } of file.trees) {
        const tree = latestState(fact);
        const strength = strengthOf(tree, settings);
        for (const defect of strength.defects) {
          const picture = sectionPicture(tree, defect, strength);
          if (!picture) continue;
          seen++;
          expect(illegible(picture.svg), `${name} ${tree.tag.value}`).toEqual([]);
          expect(sectionPicture(tree, defect, strength)!.svg).toBe(picture.svg);
        }
      }
    }
  expect(seen).toBeGreaterThan(20);
});
