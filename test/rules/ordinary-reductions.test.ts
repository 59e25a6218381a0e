/** Ordinary trees: whole feet and half metres, usual species, a hollow in the stem, and what is advised for it. */

import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { folderWith, ON } from '../cli/folder.ts';

interface Ordinary {
  readonly unit: 'ft' | 'm';
  readonly base: number;
  readonly height: number;
  readonly spread: number;
  readonly at: number;
  readonly wall: number;
  readonly about: boolean;
}

/** In steps of a foot or of half a metre; the wall in hundredths of a diameter of 30 in or 75 cm. */
const ordinary: fc.Arbitrary<Ordinary> = fc
  .record({
    unit: fc.constantFrom('ft' as const, 'm' as const),
    base: fc.integer({ min: 4, max: 30 }),
    length: fc.integer({ min: 15, max: 90 }),
    spread: fc.integer({ min: 15, max: 60 }),
    at: fc.integer({ min: 1, max: 20 }),
    wall: fc.integer({ min: 12, max: 24 }),
    about: fc.boolean(),
  })
  .map(({ unit, base, length, spread, at, wall, about }) => {
    const step = unit === 'ft' ? 1 : 0.5;
    return {
      unit,
      base: base * step,
      height: (base + length) * step,
      spread: spread * step,
      at: at * step,
      wall,
      about,
    };
  });

const treeText = (
  tag: number,
  one: Ordinary,
  reduction: { height: string; spread: string; stages?: string },
): string => {
  const { unit, base, height, spread, at, wall, about } = one;
  const mark = about ? '~' : '';
  const [diameter, thick] = unit === 'ft' ? ['30 in', `${wall * 0.3} in`] : ['75 cm', `${wall * 0.75} cm`];
  return `tree ${tag}
  species Quercus rubra
  height ${mark}${height} ${unit}
  crown from ${base} ${unit}, ${spread} ${unit} wide
  age young
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at ${at} ${unit}
    diameter ${diameter}
    wall ${thick}
  prescription R1 reduce
    height ${mark}${height} ${unit} to ${reduction.height}
    spread ${spread} ${unit} to ${reduction.spread}
    for A
    between 2026-10-04..2026-11-12
    because "the load on the hollow"
${reduction.stages ? `    stages ${reduction.stages}\n` : ''}
`;
};

interface Found {
  readonly rule: string;
  readonly tree: string;
  readonly level: string;
  readonly remedy: string;
}

async function findingsOf(trees: readonly string[]): Promise<readonly Found[]> {
  const folder = await folderWith({ 'a.wood': trees.join('') });
  const { code, out } = await folder.run('check', '--on', ON, '--as', 'json');
  expect(code).toBeLessThan(2);
  return (JSON.parse(out) as { findings: Found[] }).findings;
}

describe('advice that is followed', () => {
  it('to the height and spread it names, brings the stress within the limit', async () => {
    const trees = fc.sample(ordinary, 160);
    const first = await findingsOf(
      trees.map((one, tag) => {
        const little = (length: number) => `${length - (one.unit === 'ft' ? 1 : 0.5)} ${one.unit}`;
        return treeText(tag, one, { height: little(one.height), spread: little(one.spread) });
      }),
    );
    const advised = first.flatMap(({ rule, tree, remedy }) => {
      const named =
        /height \S+ \w+ to ([\d.]+ (?:ft|m)), spread \S+ \w+ to ([\d.]+ (?:ft|m))(?:.*?stages (\d+))?/.exec(
          remedy,
        );
      return rule === 'stress-ratio-after' && named
        ? [{ tag: Number(tree), height: named[1]!, spread: named[2]!, stages: named[3] }]
        : [];
    });
    expect(advised.length).toBeGreaterThan(30);
    const after = await findingsOf(
      advised.map(({ tag, height, spread, stages = '1' }) =>
        treeText(tag, trees[tag]!, { height, spread, stages }),
      ),
    );
    expect(after.filter(({ rule }) => rule === 'stress-ratio-after')).toEqual([]);
    // Nor does it lead into another error of pruning.
    const errors = after.filter(({ level }) => level === 'error').map(({ rule }) => rule);
    expect(errors.filter(rule => /dose|reduction|offset|stages/.test(rule))).toEqual([]);
  });
});

test('a crown from 12 ft to 71 ft with a small cavity: once the end of the program', async () => {
  const folder = await folderWith({
    'a.wood': `site "Court"
  wind 92 mph, exposure B

${[71, 72, 73, 74, 75, 76, 77, 78, 79, 80]
  .map(
    height => `tree ${height}
  species Acer rubrum
  dbh 30 in
  height ${height} ft
  crown from 12 ft, 40 ft wide
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 4 ft
    diameter 30 in
    wall 12 in

`,
  )
  .join('')}`,
  });
  const weighed = await folder.run('weigh', '--on', ON);
  expect(weighed).toMatchObject({ code: 0, err: '' });
  expect(weighed.out).toContain('Tree 71');
  expect((await folder.run('report', '--on', ON, '--to', 'report.html')).code).toBe(0);
});

test('readings down to nothing break no figure', async () => {
  const tree = `practice "Office"
  limit estimate-margin 100 % because "nobody measured"

site "Court"
  wind ~92 mph, exposure B

tree 1
  species Acer rubrum
  dbh ~30 in
  height ~60 ft
  crown from ~15 ft, ~40 ft wide
  inspection 2026-05-04 from rope
    photo a.jpg, from ~20 ft, ~24 mm lens, ~4000 px wide
  defect A cavity
    on trunk at ~4 ft, facing S
    diameter ~30 in
    opening ~6 in wide
    depth ~9 in
    wall ~4 in at N
  view "Room"
    from ~5 ft, ~40 ft away
    hide 0..~20 ft at ~30 ft beyond
  prescription R1 reduce
    height ~60 ft to ~50 ft
    spread ~40 ft to ~35 ft
    dose ~15 %
    piece ~6 ft, ~20 in thick
    between 2026-10-04..2026-11-12
    because "x"
`;
  const folder = await folderWith({ 'a.wood': tree });
  for (const command of ['check', 'weigh']) {
    const { code, err, out } = await folder.run(command, '--on', ON);
    expect(code, command).toBeLessThan(2);
    expect(err + out, command).not.toMatch(/internal-error|RangeError|NaN/);
  }
});

test('two prescriptions that together leave no crown are each judged alone', async () => {
  const found = await findingsOf([
    `tree 1
  height 60 ft
  crown from 15 ft, 40 ft wide
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall 3 in
  prescription R1 reduce
    height 60 ft to 57 ft
    for A
  prescription R2 raise
    base 15 ft to 58 ft
`,
  ]);
  expect(found.map(({ rule }) => rule)).toContain('stress-ratio-after');
  expect(found.map(({ rule }) => rule)).not.toContain('internal-error');
});

test('a hollow limb says nothing of the stem', async () => {
  const folder = await folderWith({
    'a.wood': `tree 1
  height 60 ft
  crown from 15 ft, 40 ft wide
  limb L1
    from 20 ft
  inspection 2026-05-04 from rope
  defect A decay
    on L1 at 22 ft
    diameter 8 in
    wall 0.5 in
  prescription R1 reduce
    height 60 ft to 59 ft
    between 2026-10-04..2026-11-12
    because "x"
`,
  });
  const { out } = await folder.run('check', '--on', ON);
  expect(out).not.toMatch(/stress-ratio-after|offset-beyond-season|reduction-short-of-offset/);
  expect((await folder.run('weigh', '1', '--on', ON)).out).toMatch(
    /Reduce\s+in\s+one\s+season:\s+It\s+does\s+nothing\s+for\s+decay\s+A/,
  );
});

test('what keeps the offset from being known is said as it is', async () => {
  const weighed = async (lines: string) => {
    const folder = await folderWith({
      'a.wood': `tree 1
${lines}  inspection 2026-05-04 from rope
  defect A decay
    on trunk at 70 ft
    diameter 30 in
    wall 2 in
`,
    });
    return (await folder.run('weigh', '1', '--on', ON)).out.replaceAll(/\s+/g, ' ');
  };
  expect(await weighed('  height 60 ft\n  crown from 15 ft, 40 ft wide\n')).toContain(
    'A may be above the recorded top of the tree',
  );
  expect(await weighed('  height 60 ft\n')).toContain(
    'the crown base and crown spread of the tree are not recorded',
  );
});

test('a piece too heavy in any wood is an error, whatever is known of the species', async () => {
  const heavy = (species: string) =>
    findingsOf([
      `tree 1
${species}  prescription R1 fell
    between 2026-10-04..2026-11-12
    because "x"
    piece 20 ft, 40 in thick

`,
    ]);
  for (const species of ['', '  species Eucalyptus globulus\n', '  species Thuja plicata\n'])
    expect(await heavy(species)).toContainEqual(
      expect.objectContaining({ rule: 'piece-too-heavy', level: 'error' }),
    );
});

describe('a lower top', () => {
  const weighed = async (change: string, at = '18 ft') => {
    const folder = await folderWith({
      'a.wood': `site "Court"
  wind 92 mph, exposure B

tree 1
  height 52 ft
  crown from 14 ft, 58 ft wide
  inspection 2026-05-04 from rope
  defect A decay
    on trunk at ${at}
    diameter 26 in
    bark 0 in
    wall 3.09 in
  prescription R1 reduce
${change}    between 2026-10-04..2026-11-12
    because "x"
`,
    });
    const { out } = await folder.run('weigh', '1', '--on', ON, '--as', 'json');
    return JSON.parse(out).trees[0].crown.byDefect[0];
  };

  it('cuts the crown off there and does not squeeze it: 78 % of the moment is left, not 66 %', async () => {
    const { momentRatio, stressRatio, stressAtLeastEffect } = await weighed('    height 52 ft to 46 ft\n');
    expect(momentRatio[0]).toBeCloseTo(0.7814, 3);
    expect(momentRatio[1]).toBeCloseTo(0.7814, 3);
    // 33.8 % lost: a squeezed crown would have made 0.99 of it.
    expect(stressRatio[0]).toBeCloseTo(1.18, 2);
    // Beside it, if the cut does half of what the outline says.
    expect(stressAtLeastEffect[1]).toBeCloseTo((1 + 0.7814) / 2 / 0.6622, 2);
  });

  it('a raised base changes nothing at a section above it, and never adds', async () => {
    const above = await weighed('    base 14 ft to 20 ft\n', '22 ft');
    expect(above.momentRatio).toEqual([1, 1]);
    const below = await weighed('    base 14 ft to 20 ft\n', '4 ft');
    expect(below.momentRatio[1]).toBeLessThan(1);
  });

  it('a smaller spread draws all widths in alike', async () => {
    const { momentRatio } = await weighed('    spread 58 ft to 29 ft\n');
    expect(momentRatio[0]).toBeCloseTo(0.5, 9);
    expect(momentRatio[1]).toBeCloseTo(0.5, 9);
  });
});
