import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { latestState } from '../../server/facts/state.ts';
import {
  buildWorkspace,
  readFile,
  settingsFor,
  siteOf,
  type Workspace,
} from '../../server/facts/workspace.ts';
import { guessMapping } from '../../server/import/index.ts';
import { inertCell, textOfCell } from '../../server/import/inert.ts';
import { treesCsv } from '../../server/show/export-csv.ts';
import { treesGeoJson } from '../../server/show/export-geojson.ts';
import { factsJsonLines } from '../../server/show/export-jsonl.ts';
import { allRows } from '../../server/show/row-form.ts';
import type { ExportTree } from '../../server/show/tree-table.ts';
import { importText, readTable } from '../import/table.ts';

const treesOf = (workspace: Workspace): ExportTree[] =>
  [...workspace.files.values()].flatMap(({ path, trees }) =>
    trees.map(placed => ({
      placed,
      file: path,
      site: siteOf(workspace, path),
      settings: settingsFor(workspace, path),
    })),
  );
const treesIn = (text: string): ExportTree[] => treesOf(buildWorkspace([readFile('a.wood', text)]));
const csv = (text: string): string => allRows(treesCsv, treesIn(text));

const folder = new URL('../../samples/fernhollow/', import.meta.url);
const fernhollow = () =>
  buildWorkspace(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter(name => name.endsWith('.wood'))
      .map(name => readFile(name, readFileSync(new URL(name, folder), 'utf8'))),
  );

const ROW = `tree 14 "Lawn maple"
  species     Acer macrophyllum
  position    44.31281, -122.87131
  dbh         ~10 in, 5 ft 6 in at 4 ft
  height      > 50 ft
  crown       from 14 ft, 50..60 ft wide
  soil        firm
  vigour      fair
  protected   permit TR-2291, until 2026-12-31
`;
const cells = async (table: string): Promise<Record<string, string>> => {
  const { columns, rows } = await readTable(table);
  return Object.fromEntries(columns.map((column, index) => [column, rows[0]!.cells[index]!]));
};

test('a row: sizes as written, both ends in metres, an estimate with its margin, an open end empty', async () => {
  expect(await cells(csv(ROW))).toMatchObject({
    tag: '14',
    name: 'Lawn maple',
    species: 'Acer macrophyllum',
    latitude_deg: '44.31281',
    longitude_deg: '-122.87131',
    dbh: '~10 in, 5 ft 6 in at 4 ft',
    girth: '',
    // 66 in, the stoutest stem.
    dbh_low_m: '1.6764',
    dbh_high_m: '1.6764',
    height: '> 50 ft',
    height_low_m: '15.24',
    height_high_m: '',
    crown_base: '14 ft',
    crown_spread: '50..60 ft',
    crown_spread_low_m: '15.24',
    crown_spread_high_m: '18.288',
    vigor: 'fair',
    protected: 'permit TR-2291, until 2026-12-31',
  });
  const estimate = await cells(csv('tree 1\n  dbh ~10 in\n'));
  expect(Number(estimate.dbh_low_m)).toBeLessThan(0.254);
  expect(Number(estimate.dbh_high_m)).toBeGreaterThan(0.254);
});

test('notes stand in one cell, one in each line, and come back as they were', async () => {
  const text = `tree 1\n  note "=gate; ""old"""\n  note "${'long '.repeat(600).trim()}"\n  note ""\n`;
  const table = csv(text);
  expect((await cells(table)).notes).toBe(`'=gate; "old"\n${'long '.repeat(600).trim()}`);
  const [tree] = treesIn((await importText(table)).text);
  expect(tree!.placed.fact.notes?.map(({ value }) => value)).toEqual([
    '=gate; "old"',
    'long '.repeat(600).trim(),
  ]);
});

test('a girth stays a girth, and says the diameter', async () => {
  // 58 in × 0.0254 / π.
  expect(await cells(csv('tree 1\n  girth 58 in\n'))).toMatchObject({
    dbh: '',
    girth: '58 in',
    dbh_low_m: '0.468934',
    dbh_high_m: '0.468934',
  });
});

test('rows end in CRLF; commas and quotation marks stand in quotation marks', async () => {
  const table = csv('tree 1 "Big, ""old"" one"\n');
  expect(table.endsWith('\r\n')).toBe(true);
  expect(table.split('\r\n')[1]).toContain('"Big, ""old"" one"');
});

test.each(['=1+1', '+1 x', '-x', '@sum', "'=1", 'none', "'none", '?'])(
  'no spreadsheet takes the name %s for a formula, and it comes back',
  async name => {
    const text = `tree 1 "${name}"\n`;
    const table = csv(text);
    expect((await cells(table)).name).toBe(`'${name}`);
    expect(treesIn((await importText(table)).text)[0]!.placed.fact.name?.value).toBe(name);
  },
);

test('whatever a cell holds comes back, and none of them begins a formula', async () => {
  const cell = fc.oneof(
    fc.string(),
    fc
      .array(fc.constantFrom("'", '=', '+', '-', '@', '1', '.5', 'none', '?', 'a'), { maxLength: 6 })
      .map(all => all.join('')),
  );
  fc.assert(
    fc.property(cell, text => {
      const inert = inertCell(text);
      expect(textOfCell(inert)).toBe(text);
      if (!/^-\d+(\.\d+)?$/.test(inert)) expect(inert).not.toMatch(/^[=+@-]/);
    }),
  );
});

test('Fernhollow: every tree, and export, import, export is the same table', async () => {
  const trees = treesOf(fernhollow());
  expect(trees.length).toBeGreaterThan(50);
  const table = allRows(treesCsv, trees);
  const { questions } = guessMapping(await readTable(table));
  expect(questions).toEqual([]);
  const { text, leftovers } = await importText(table);
  expect(leftovers).toEqual([]);
  expect(csv(text)).toBe(table);
});

const length = fc.oneof(
  fc
    .tuple(fc.integer({ min: 1, max: 400 }), fc.constantFrom('in', 'cm'))
    .map(([n, unit]) => `${n / 10} ${unit}`),
  fc.integer({ min: 1, max: 40 }).map(n => `~${n} in`),
  fc.integer({ min: 1, max: 40 }).map(n => `> ${n} in`),
  fc.integer({ min: 1, max: 40 }).map(n => `< ${n}.50 ft`),
  fc
    .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 11 }))
    .map(([f, i]) => `${f} ft ${i} in`),
  fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 10, max: 20 })).map(([a, b]) => `${a}..${b} ft`),
);
const line = (text: fc.Arbitrary<string>) =>
  fc.option(text, { nil: '' }).map(read => (read ? `  ${read}\n` : ''));
const note = fc
  .oneof(fc.string({ unit: 'grapheme', maxLength: 30 }), fc.constantFrom('=1+1', 'none', "'", 'a, "b"; c #d'))
  .map(text => `  note "${text.replace(/[\r\n]/g, '').replaceAll('"', '""')}"\n`);
const lines = fc.tuple(
  line(fc.constantFrom('species Acer', "species Malus domestica 'Worcester'", 'species Salix × sepulcralis')),
  line(
    fc
      .tuple(fc.double({ min: 1, max: 89, noNaN: true }), fc.double({ min: -179, max: 179, noNaN: true }))
      .map(([north, east]) => `position ${north.toFixed(7)}, ${east.toFixed(7)}`),
  ),
  line(fc.array(length, { minLength: 1, maxLength: 4 }).map(all => `dbh ${all.join(', ')}`)),
  line(fc.tuple(length, length).map(([girth, at]) => `girth ${girth} at ${at}`)),
  line(length.map(height => `height ${height}`)),
  line(
    fc.oneof(
      length.map(base => `crown from ${base}`),
      length.map(spread => `crown ${spread} wide`),
      fc.tuple(length, length).map(([base, spread]) => `crown from ${base}, ${spread} wide`),
    ),
  ),
  line(fc.constantFrom('lean ~20 deg toward NNE, new', 'lean 5 deg', 'live-crown 40..60 %')),
  line(fc.constantFrom('soil unseen', 'age veteran', 'vigour dead', 'felled 2025-11-25')),
  line(
    fc.constantFrom(
      'protected',
      'protected permit none',
      'protected by "list, no. 2" permit A-1, for removal',
    ),
  ),
  line(fc.constant('stressed by drought, since 2025-07-01')),
  fc.array(note, { maxLength: 3 }).map(notes => notes.join('')),
  fc
    .array(fc.constantFrom('L-1', 'T-009', '7b'), { maxLength: 2 })
    .map(tags => tags.map(tag => `  formerly ${tag}\n`).join('')),
  // Sizes that were measured on a day count where the tree states none.
  fc
    .array(
      fc.tuple(
        fc.constantFrom('2024-05-01', '2025-05-01', '2026-05-01'),
        line(fc.array(length, { minLength: 1, maxLength: 2 }).map(all => `  dbh ${all.join(', ')}`)),
        line(fc.tuple(length, length).map(([girth, at]) => `  girth ${girth} at ${at}`)),
        line(length.map(height => `  height ${height}`)),
      ),
      { maxLength: 3 },
    )
    .map(all => all.map(([day, ...sizes]) => `  inspection ${day} from ground\n${sizes.join('')}`).join('')),
);
const name = fc.option(fc.string({ unit: 'grapheme', maxLength: 12 }), { nil: undefined });
const inventory = fc
  .uniqueArray(fc.stringMatching(/^[A-Za-z0-9]([-A-Za-z0-9.]{0,6}[A-Za-z0-9])?$/), {
    minLength: 1,
    maxLength: 6,
  })
  // What the notation does not read as one name heads no tree.
  .map(tags => tags.filter(tag => parseBlock(`tree ${tag}`).lines.every(({ mistake }) => !mistake)))
  .chain(tags =>
    fc.tuple(
      ...tags.map(tag =>
        fc.tuple(name, lines).map(([called, fields]) => {
          const title =
            called === undefined ? '' : ` "${called.replace(/[\r\n]/g, '').replaceAll('"', '""')}"`;
          return `tree ${tag}${title}\n${fields.join('')}`;
        }),
      ),
    ),
  )
  .map(trees => trees.join('\n'));

test('export, import, export is the same table', async () => {
  await fc.assert(
    fc.asyncProperty(inventory, async text => {
      const table = csv(text);
      const { text: again, leftovers } = await importText(table);
      expect(csv(again)).toBe(table);
      expect(leftovers).toEqual([]);
      // The sizes that count are the same, whoever measured them.
      const sizes = (written: string) =>
        treesIn(written).map(({ placed }) => {
          const tree = latestState(placed.fact);
          return [...tree.diameters.map(({ value }) => value), tree.height?.value];
        });
      expect(sizes(again)).toEqual(sizes(text));
    }),
    { numRuns: 300 },
  );
});

test('GeoJSON: longitude first, no crs, a tree without position keeps its place in the list', async () => {
  const read = JSON.parse(allRows(treesGeoJson, treesIn(`site "Fernhollow Court"\n\n${ROW}\ntree 15\n`)));
  expect(Object.keys(read)).toEqual(['type', 'features']);
  expect(read.features).toHaveLength(2);
  expect(read.features[0].geometry).toEqual({ type: 'Point', coordinates: [-122.87131, 44.31281] });
  expect(read.features[0].properties).toMatchObject({
    file: 'a.wood',
    line: 3,
    site: 'Fernhollow Court',
    tag: '14',
    height: '> 50 ft',
    height_low_m: 15.24,
    height_high_m: null,
  });
  expect(read.features[1]).toMatchObject({ type: 'Feature', geometry: null, properties: { tag: '15' } });
  expect(JSON.parse(allRows(treesGeoJson, []))).toEqual({ type: 'FeatureCollection', features: [] });
});

test('JSON Lines: every fact, days as dates, quantities with both ends', async () => {
  const workspace = fernhollow();
  const facts = [...workspace.files.values()].flatMap(({ path, facts }) =>
    facts.map(placed => ({ placed, file: path, settings: settingsFor(workspace, path) })),
  );
  const read = allRows(factsJsonLines, facts)
    .trimEnd()
    .split('\n')
    .map(text => JSON.parse(text));
  expect(read).toHaveLength(facts.length);
  expect(new Set(read.map(({ kind }) => kind))).toEqual(
    new Set(['site', 'person', 'crew', 'practice', 'tree']),
  );
  const maple = read.find(({ kind, tag }) => kind === 'tree' && tag === '14');
  expect(maple).toMatchObject({
    file: 'lawn.wood',
    name: 'Lawn maple',
    height: { shown: '52 ft', form: 'exact', low: 15.8496, high: 15.8496, unit: 'm' },
    protection: { permit: 'TR-2291', until: '2026-12-31' },
    inspections: [{ date: '2026-03-14', from: 'drone' }],
  });
  const apple = read.find(({ file, works }) => file === 'orchard.wood' && works?.length > 0);
  expect(apple.works[0]).toMatchObject({
    prescription: 'R1',
    date: '2024-01-17',
    by: 'JM',
    dose: { shown: '14 %', low: 0.14, unit: '1' },
  });
  expect(maple.defects[0]).toMatchObject({
    id: 'A',
    seen: '2026-03-14',
    facing: 225,
    depth: { form: 'above', high: null },
  });
  expect(maple.prescriptions[0].between).toEqual({ from: '2026-09-15', to: '2026-11-30' });
  expect(JSON.stringify(read)).not.toMatch(/"(start|end|at)":/);
});
