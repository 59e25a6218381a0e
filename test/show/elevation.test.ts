/** The elevation of a tree: what leans, what is dead and where the ground was cut. */

import { expect, test } from 'vitest';
import { elevationPicture } from '../../server/show/drawing/pictures.ts';
import { treeIn } from '../assess/inventory.ts';

const drawn = (lines: string) => {
  const { tree, settings } = treeIn(`tree 1
  species Alnus rubra
  dbh 20 in
  height 60 ft
  crown from 20 ft, 30 ft wide
${lines}`);
  return elevationPicture(tree, settings)!;
};
const slopeOf = (svg: string) => Number(/matrix\(1 0 (-[\d.]+) 1/.exec(svg)?.[1] ?? 0);

test('a leaning tree is drawn to the side by the tangent of its lean, its heights as they are', () => {
  const upright = drawn('');
  const leaning = drawn('  lean 12 deg toward E, steady\n');
  expect(slopeOf(upright.svg)).toBe(0);
  expect(slopeOf(leaning.svg)).toBeCloseTo(-Math.tan((12 * Math.PI) / 180), 3);
  expect(leaning.svg).toContain('60 ft high, leans 12 deg toward E');
  const [before, after] = [upright, leaning].map(
    ({ places }) => places.find(({ name }) => name === 'crown')!,
  );
  expect(after!.x).toBeGreaterThan(before!.x);
  expect(after!.y).toBeCloseTo(before!.y, 6);
});

test('by the plumb line where the middle of the crown was measured', () => {
  // 8 ft over 40 ft.
  expect(slopeOf(drawn('  lean 12 deg toward E, corrected, crown 8 ft aside\n').svg)).toBeCloseTo(-0.2, 3);
});

test('trenches lie on their side of the stem, at their distance from the bark', () => {
  const { svg, places } = drawn(
    '  defect A trench\n    distance 6 ft toward W\n  defect B trench\n    distance 6 ft toward E\n    depth 3 ft\n',
  );
  const [west, east] = ['trench A', 'trench B'].map(called => places.find(({ name }) => name === called)!);
  const middle = (place: typeof west) => place!.x + place!.width / 2;
  expect(middle(west)).toBeLessThan(160);
  expect(middle(west) + middle(east)).toBeCloseTo(320, 6);
  expect(svg.match(/class="cut"/g)).toHaveLength(2);
  expect(svg).toContain('Trenches: A 6 ft from the bark, B 6 ft from the bark.');
});

test('a dead crown is not green', () => {
  const dead = drawn('  vigor dead\n').svg;
  expect(dead).not.toContain('class="leaf"');
  expect(dead).toContain('shaded: dead crown');
  expect(drawn('').svg).toContain('class="leaf"');
});

test('everything drawn lies in the picture, however far it leans and the trenches are', () => {
  for (const lean of [5, 20, 45, 60]) {
    const { places, svg } = drawn(
      `  lean ${lean} deg toward W, steady\n  defect A trench\n    distance 80 ft toward W\n  defect B wound\n    on trunk at 50 ft\n`,
    );
    expect(svg).not.toContain('NaN');
    for (const { x, y, width, height } of places) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x + width).toBeLessThanOrEqual(320);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y + height).toBeLessThanOrEqual(304);
    }
  }
});
