/** Nests found by position: what the index finds is what a look at every tree finds. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceBetween } from '../../server/base/distance.ts';
import { noNestTrees } from '../../server/facts/nest-index.ts';
import { buildWorkspace, nestTreesAround, readFile } from '../../server/facts/workspace.ts';

const tree = (tag: string | number, position?: readonly [number, number], nest = 'found active') =>
  [
    `tree ${tag}`,
    ...(position ? [`  position ${position[0].toFixed(5)}, ${position[1].toFixed(5)}`] : []),
    ...(nest ? ['  nest check 2026-05-12 from ground', `    ${nest}`] : []),
    '',
  ].join('\n');

const workspaceOf = (files: Readonly<Record<string, string>>) =>
  buildWorkspace(Object.entries(files).map(([path, text]) => readFile(path, text)));

const near = (files: Readonly<Record<string, string>>, path: string, metres: number, i = 0) => {
  const workspace = workspaceOf(files);
  const fact = workspace.files.get(path)!.trees[i]!.fact;
  return nestTreesAround(workspace, path)(fact, () => metres);
};

describe('the index of nests', () => {
  it.each([
    ['on the equator', 0, 10],
    ['in the north', 69.6, 18.9],
    ['in the south', -41.3, 174.8],
    ['on both sides of the date line', -16.8, 180],
  ])('finds what a look at every tree finds, %s', (_, latitude, longitude) => {
    const offset = fc.integer({ min: -400, max: 400 }).map(steps => steps * 1e-5);
    const place = fc.tuple(offset, offset).map(([north, east]): [number, number] => {
      const turned = longitude + east;
      return [latitude + north + 4e-6, turned > 180 ? turned - 360 : turned];
    });
    fc.assert(
      fc.property(place, fc.array(place, { minLength: 1, maxLength: 150 }), (own, others) => {
        const text = [tree('own', own, ''), ...others.map((one, i) => tree(i, one))].join('\n');
        const found = near({ 'a.wood': text }, 'a.wood', 100);
        const trees = readFile('a.wood', text).trees.map(({ fact }) => fact);
        const within = trees
          .slice(1)
          .filter(one => distanceBetween(trees[0]!.position!, one.position!) <= 100)
          .map(one => one.tag.value);
        const tags = found.map(one => one.tree.tag.value);
        for (const tag of within) expect(tags).toContain(tag);
        for (const { tree: one, distance } of found) {
          const apart = distanceBetween(trees[0]!.position!, one.position!);
          expect(distance!.low).toBeLessThanOrEqual(apart);
          expect(distance!.high).toBeGreaterThanOrEqual(apart);
          expect(apart).toBeLessThan(100 + 2);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('reaches over files and sites, and leaves out the tree itself', () => {
    const files = {
      'north/site.wood': `site "North"\n\n${tree(1, [44.3128, -122.8713])}`,
      'north/more.wood': tree(1, [44.31281, -122.8713]),
      'south/site.wood': `site "South"\n\n${tree(1, [44.3129, -122.8713], '')}`,
    };
    expect(
      near(files, 'south/site.wood', 50)
        .map(({ path }) => path)
        .sort(),
    ).toEqual(['north/more.wood', 'north/site.wood']);
    expect(near(files, 'north/site.wood', 50)).toEqual([]);
  });

  it('gives those of the site to a tree without a position, or with a coarse one', () => {
    const files = {
      'a/site.wood': `site "A"\n\n${tree(1, [44.31281, -122.8713])}\n${tree(2, undefined, '')}\n${tree(3)}`,
      'b/site.wood': `site "B"\n\n${tree(4, [44.31281, -122.8713])}`,
    };
    const found = near(files, 'a/site.wood', 50, 1);
    expect(found.map(one => [one.tree.tag.value, one.distance])).toEqual([['1', undefined]]);
    const coarse = { 'a.wood': `tree 5\n  position 44.3, -122.87\n\n${tree(1, [44.31281, -122.8713])}` };
    expect(near(coarse, 'a.wood', 50)[0]!.distance).toBeUndefined();
  });

  it('widens the distance by half the last digit', () => {
    const text = (position: string) => `tree 5\n  position ${position}\n\n${tree(1, [44.31285, -122.8713])}`;
    const of = (position: string) => near({ 'a.wood': text(position) }, 'a.wood', 500)[0]!.distance!;
    const fine = of('44.31301, -122.87131');
    const coarse = of('44.313, -122.871');
    expect(fine.high - fine.low).toBeCloseTo(2 * 2 * Math.SQRT1_2 * 1.112, 1);
    expect(coarse.high - coarse.low).toBeGreaterThan(50);
    expect(coarse.low).toBeLessThanOrEqual(fine.low);
    expect(coarse.high).toBeGreaterThanOrEqual(fine.high);
  });

  it('is the same object until a nest changes', () => {
    const read = (path: string, text: string) => readFile(path, text);
    const nest = read('a.wood', tree(1, [44.31281, -122.8713]));
    const before = buildWorkspace([nest, read('b.wood', tree(2, [44.3, -122], ''))]);
    const after = buildWorkspace([nest, read('b.wood', tree(3, [44.3, -122], ''))], before);
    expect(after.nests).toBe(before.nests);
    const gone = buildWorkspace([read('a.wood', tree(1, [44.31281, -122.8713], 'found none'))], after);
    expect(gone.nests).not.toBe(before.nests);
    expect(nestTreesAround(gone, 'a.wood')).toBe(noNestTrees);
  });
});
