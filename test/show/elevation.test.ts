/** The elevation of a tree: what is on record at its height and on its side, and what is not, shown as not measured. */

import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readFile } from '../../server/facts/file.ts';
import { latestState } from '../../server/facts/state.ts';
import { buildWorkspace, settingsFor } from '../../server/facts/workspace.ts';
import { elevationPicture } from '../../server/show/drawing/elevation-picture.ts';
import { treeIn } from '../assess/inventory.ts';
import { illegible, textsOf } from './drawn.ts';

const SIZES = `  dbh 20 in
  height 60 ft
  crown from 20 ft, 30 ft wide
`;
const drawn = (lines: string, sizes = SIZES, species = 'Alnus rubra') => {
  const { tree, settings } = treeIn(`tree 1\n  species ${species}\n${sizes}${lines}`);
  return elevationPicture(tree, settings)!;
};
const words = (svg: string) => textsOf(svg).map(({ text }) => text);
/** Of the plumb line and the end of the arc that shows the angle. */
function leanIn(svg: string): number {
  const [, x, top] = /M([\d.]+) ([\d.]+)A/.exec(svg)!.map(Number);
  const [, endX, endY] = /A[\d.]+ [\d.]+ 0 0 [01] ([\d.]+) ([\d.]+)/.exec(svg)!.map(Number);
  const radius = Number(/A([\d.]+) /.exec(svg)![1]);
  return (Math.atan2(endX! - x!, radius - (endY! - top!)) * 180) / Math.PI;
}

test('a lean is drawn by its angle, to the side that it has for who looks, and marked where it moves', () => {
  const east = drawn('  lean 12 deg toward E, steady\n');
  expect(leanIn(east.svg)).toBeCloseTo(12, 0);
  expect(words(east.svg)).toContain('Seen from the south.');
  expect(leanIn(drawn('  lean 12 deg toward W, steady\n').svg)).toBeCloseTo(-12, 0);
  const moving = drawn('  lean 12 deg toward E, increasing\n');
  expect(words(moving.svg).join(' ')).toContain('increasing: moving');
  expect(moving.description).toContain('leans 12 deg toward E, increasing: moving');
  expect(east.svg).not.toContain('class="marktext');
});

test('by the plumb line where the middle of the crown was measured', () => {
  // 8 ft over 40 ft.
  const { svg } = drawn('  lean 12 deg toward E, corrected, crown 8 ft aside\n');
  expect(leanIn(svg)).toBeCloseTo((Math.atan(0.2) * 180) / Math.PI, 0);
});

test('stems fork at their height, each with its own top and union', () => {
  const { svg, description } = drawn(
    '  stem A\n    from 9 ft, facing E\n    diameter 12 in\n    height 60 ft\n    union included bark, with B\n  stem B\n    from 9 ft, facing W\n    diameter 14 in\n    height 54 ft\n    union included bark, with A\n',
  );
  expect(words(svg)).toEqual(expect.arrayContaining(['stem A', 'stem B', '54 ft high', 'union of A, B']));
  expect(words(svg).filter(text => text.startsWith('union'))).toHaveLength(1);
  expect(words(svg).join(' ')).not.toContain('Not measured');
  expect(description).toContain('Stems: stem A 60 ft high; stem B 54 ft high.');
});

test('what was not measured is broken and named', () => {
  const without = (sizes: string) => drawn('  defect A wound\n    on trunk at 9 ft\n', sizes).svg;
  const bare = without('');
  expect(words(bare).join(' ')).toContain('height not measured');
  expect(words(bare)).toContain('Not measured: height and diameter.');
  expect(bare).not.toContain('class="leaf"');
  expect(bare).not.toContain('class="wood"');
  const uncrowned = without('  dbh 20 in\n  height 60 ft\n');
  expect(words(uncrowned)).toContain('Not measured: crown base and crown spread.');
  expect(uncrowned).not.toContain('class="leaf"');
  expect(without(SIZES)).not.toContain('not measured');
});

test('what comes down is hatched: the whole, a stem, the end of a limb, or the crown outside its new outline', () => {
  const parts =
    '  stem A\n    from 9 ft, facing E\n    diameter 12 in\n    height 60 ft\n  stem B\n    from 9 ft, facing W\n    diameter 14 in\n    height 54 ft\n  limb L\n    from 20 ft, facing E\n    diameter 6 in\n    length 20 ft\n';
  const hatches = (svg: string) => svg.split('fill="url(#down)"').length - 1;
  const keyed = (lines: string) => {
    const { svg } = drawn(`${parts}  prescription R1 ${lines}`);
    expect(words(svg).join(' ')).toContain('comes down:');
    return hatches(svg);
  };
  expect(hatches(drawn(parts).svg)).toBe(0);
  // The key has one of them.
  expect(keyed('fell\n    remove B\n')).toBe(2);
  expect(keyed('reduce\n    shorten L 20 ft to 15 ft\n')).toBe(2);
  expect(keyed('reduce\n    height 60 ft to 52 ft\n')).toBe(2);
  expect(keyed('fell\n')).toBe(6);
  expect(words(drawn('  prescription R1 reduce\n    height 60 ft to 52 ft\n').svg)).toContain(
    'after: 52 ft high',
  );
});

test('targets stand at their distance on their side; farther ones have an arrow, and none is lost', () => {
  const { svg, description } = drawn(
    '  target "Bench"\n    distance 10 ft toward W\n    kind people\n  target "Road"\n    distance 400 ft toward E\n    kind road\n  target "Shed"\n    kind building\n',
  );
  for (const name of ['Bench', '10 ft W', 'Road', '400 ft E', 'Shed']) expect(words(svg)).toContain(name);
  expect(words(svg).join(' ')).toContain('distance not recorded');
  expect(description).toContain('Targets: Bench 10 ft W; Road 400 ft E; Shed distance not recorded.');
});

test('trenches lie on their side of the stem, at their distance from the bark', () => {
  const { svg } = drawn(
    '  defect A trench\n    distance 6 ft toward W\n  defect B trench\n    distance 6 ft toward E\n    depth 3 ft\n',
  );
  const at = [...svg.matchAll(/class="cut"[^M]*M([\d.]+) /g)].map(([, x]) => Number(x));
  expect(at).toHaveLength(2);
  expect(at[0]!).toBeLessThan(at[1]!);
  expect(words(svg)).toEqual(expect.arrayContaining(['trench A', 'trench B']));
});

test('a dead tree, a stump, a palm and a conifer look as such', () => {
  expect(drawn('').svg).toContain('class="leaf"');
  const dead = drawn('  vigor dead\n').svg;
  expect(dead).not.toContain('class="leaf"');
  expect(words(dead)).toContain('dead crown');
  const snag = drawn('  vigor dead\n', '  dbh 20 in\n  height 30 ft\n').svg;
  expect(words(snag).join(' ')).not.toContain('crown');
  const stump = drawn('  felled 2025-03-01\n').svg;
  expect(words(stump)).toEqual(
    expect.arrayContaining(['stump', 'the tree that stood there', 'Felled 1 March 2025.']),
  );
  const crownOf = (species: string) =>
    /class="leaf"[^>]* d="([^"]+)"/.exec(drawn('', SIZES, species).svg)![1];
  expect(new Set(['Alnus rubra', 'Abies grandis', 'Phoenix canariensis'].map(crownOf)).size).toBe(3);
});

test('the same record gives the same picture', () => {
  expect(drawn('  lean 9 deg\n').svg).toBe(drawn('  lean 9 deg\n').svg);
});

/** Every open defect with a height is named, nothing stands on anything else, and all places are in the picture. */
function isWhole(
  tree: ReturnType<typeof treeIn>['tree'],
  settings: ReturnType<typeof treeIn>['settings'],
): void {
  const picture = elevationPicture(tree, settings);
  if (!picture) return;
  const { svg, places, description } = picture;
  expect(illegible(svg), tree.tag.value).toEqual([]);
  const said = words(svg).join(' ');
  for (const { id, kind, closed } of tree.felled ? [] : tree.defects)
    if (!closed) {
      expect(`${description}`).toContain(`${kind.value} ${id.value}`);
      // Wrapped, and cut only where a word alone is too long.
      if (id.value.length < 8) expect(said).toContain(id.value);
    }
  const [, width, height] = / viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!;
  for (const place of places) {
    expect(place.x).toBeGreaterThanOrEqual(0);
    expect(place.x + place.width).toBeLessThanOrEqual(Number(width));
    expect(place.y).toBeGreaterThanOrEqual(0);
    expect(place.y + place.height).toBeLessThanOrEqual(Number(height));
  }
}

test('every tree of the samples can be read', () => {
  const folders = [
    'errors',
    ...readdirSync('samples/fernhollow', { withFileTypes: true })
      .filter(one => one.isDirectory() && one.name !== 'photos')
      .map(({ name }) => `fernhollow/${name}`),
    'fernhollow',
    'quillbrook',
    'street',
  ];
  let seen = 0;
  for (const folder of folders)
    for (const name of readdirSync(`samples/${folder}`).filter(file => file.endsWith('.wood'))) {
      const file = readFile(name, readFileSync(`samples/${folder}/${name}`, 'utf8'));
      const settings = settingsFor(buildWorkspace([file]), name);
      for (const { fact } of file.trees.slice(0, 40)) {
        isWhole(latestState(fact), settings);
        seen++;
      }
    }
  expect(seen).toBeGreaterThan(150);
});

const feet = fc.integer({ min: 1, max: 90 });
const bearing = fc.constantFrom('N', 'NE', 'E', 'SSW', 'W', 'NW');
const maybe = (line: fc.Arbitrary<string>) => fc.oneof(line, fc.constant(''));
const tree = fc
  .tuple(
    maybe(
      fc
        .array(feet, { minLength: 1, maxLength: 3 })
        .map(all => `  dbh ${all.map(one => `${one} in`).join(', ')}\n`),
    ),
    maybe(feet.map(high => `  height ${high + 10} ft\n`)),
    maybe(fc.tuple(feet, feet).map(([base, wide]) => `  crown from ${base} ft, ${wide} ft wide\n`)),
    maybe(
      fc
        .tuple(fc.integer({ min: 0, max: 80 }), bearing)
        .map(([lean, to]) => `  lean ${lean} deg toward ${to}, new\n`),
    ),
    fc
      .array(fc.tuple(feet, feet, bearing, fc.integer({ min: 0, max: 50 })), { maxLength: 3 })
      .map(all =>
        all
          .map(
            ([from, high, to, lean], i) =>
              `  stem S${i}\n    from ${from} ft, facing ${to}\n    height ${high} ft\n    lean ${lean} deg toward ${to}\n`,
          )
          .join(''),
      ),
    fc
      .array(fc.tuple(feet, feet, bearing), { maxLength: 4 })
      .map(all =>
        all
          .map(
            ([from, long, to], i) =>
              `  limb L${i}\n    from ${from} ft, facing ${to}\n    length ${long} ft\n`,
          )
          .join(''),
      ),
    fc
      .array(fc.tuple(fc.constantFrom('cavity', 'woodpecker holes', 'hanger'), feet, bearing), {
        maxLength: 9,
      })
      .map(all =>
        all
          .map(([kind, at, to], i) => `  defect D${i} ${kind}\n    on trunk at ${at} ft, facing ${to}\n`)
          .join(''),
      ),
    fc
      .array(fc.tuple(feet, bearing), { maxLength: 5 })
      .map(all =>
        all
          .map(
            ([far, to], i) => `  target "Path to the place ${i}"\n    distance ${far * 3} ft toward ${to}\n`,
          )
          .join(''),
      ),
    fc
      .array(fc.tuple(feet, feet), { maxLength: 3 })
      .map(all =>
        all
          .map(([far, high], i) => `  conductor "Line ${i}"\n    distance ${far} ft\n    height ${high} ft\n`)
          .join(''),
      ),
    fc.constantFrom('', '  prescription R1 fell\n', '  prescription R1 reduce\n    height 100 ft to 8 ft\n'),
  )
  .map(lines => lines.join(''));

test('whatever is recorded, every name stands by itself', () => {
  fc.assert(
    fc.property(tree, lines => {
      const read = treeIn(`tree 1\n${lines}`);
      isWhole(read.tree, read.settings);
    }),
    { numRuns: 300 },
  );
});
