import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { DuckDBInstance } from '@duckdb/node-api';
import { expect, onTestFinished, test } from 'vitest';
import { folderWith } from './folder.ts';

const fernhollow = fileURLToPath(new URL('../../samples/fernhollow', import.meta.url));

/** Asks another program's own readers. */
async function asking() {
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  onTestFinished(() => {
    connection.closeSync();
    instance.closeSync();
  });
  return async (query: string) => (await connection.runAndReadAll(query)).getRowObjectsJson();
}

const FILES = {
  'site.wood': 'site "Fernhollow Court"\n  region US-OR\n',
  'lawn/lawn.wood':
    '# Lawn\ntree 11 "Gate oak"\n  position 44.31296, -122.87168\n  dbh 34 in, ~12 in\n  height > 61 ft\n\ntree 12\n  position 44.31290, -122.87151\n  inspection 2025-10-09 from ground\n  defect A crack\n\ntree 13\n',
};

test('a form has to be said, and Parquet needs a file', async () => {
  const folder = await folderWith(FILES);
  expect(await folder.run('export')).toMatchObject({ code: 2, out: '' });
  const parquet = await folder.run('export', '--as', 'parquet');
  expect(parquet.code).toBe(2);
  expect(parquet.err).toContain('--output');
});

test('CSV to a file, imported, and exported again', async () => {
  const folder = await folderWith(FILES);
  expect(await folder.run('export', 'lawn', '--as', 'csv', '--to', 'trees.csv')).toEqual({
    code: 0,
    out: 'trees.csv: 3 trees.\n',
    err: '',
  });
  const table = await readFile(folder.file('trees.csv'), 'utf8');
  expect((await folder.run('import', 'trees.csv', '--to', 'again.wood')).code).toBe(0);
  expect((await folder.run('export', 'again.wood', '--as', 'csv')).out).toBe(table);
});

test('sizes that only an inspection measured go out and come back; what has no column is told', async () => {
  const folder = await folderWith({
    'a.wood': `tree 1
  inspection 2025-10-09 from ground
    dbh 30 in
    height 60 ft
  inspection 2026-03-14 from ground
    dbh 31 in, ~12 in at 4 ft
tree 2
  girth 99 in
  height 12 m
  inspection 2026-03-14 from ground
    dbh 32 in
    height 12.5 m
tree 3
  dbh 41
  inspection 2026-03-14 from ground
    girth 3 m
  work R1 2026-03-20
  work R2 2026-03-21
`,
  });
  const exported = await folder.talk([], 'export', '--as', 'csv', '--to', 'trees.csv');
  expect(exported.err).toContain('4 inspections, 2 jobs done.');
  expect(exported.err).toContain(
    'soundwood: 1 line with a mistake was left out of the export; soundwood check shows what is wrong.\n',
  );
  const table = await readFile(folder.file('trees.csv'), 'utf8');
  await folder.run('import', 'trees.csv', '--to', 'again.wood');
  const again = await readFile(folder.file('again.wood'), 'utf8');
  expect(
    [...again.matchAll(/^ {2}(?:dbh|girth|height) .*/gm)].map(([line]) => line.replace(/ +/g, ' ').trim()),
  ).toEqual([
    'dbh 31 in, ~12 in at 4 ft',
    'height 60 ft',
    // What the tree states without a day is older than what was measured on one.
    'dbh 32 in',
    'height 12.5 m',
    'girth 3 m',
  ]);
  expect((await folder.run('export', 'again.wood', '--as', 'csv')).out).toBe(table);
});

test('ends of a size without the size as it was written are no size, and are not lost without a word', async () => {
  const folder = await folderWith({
    'a.csv':
      'tag,dbh,girth,dbh_low_m,dbh_high_m,height,height_low_m\n1,,,0.8,0.9,12 m,12\n2,,3 m,0.95,0.95,,\n',
  });
  const { out, err } = await folder.run('import', 'a.csv');
  expect(out).toContain('  # dbh_low_m "0.8" left out: dbh and girth say nothing\n');
  expect(out.match(/left out/g)).toHaveLength(2);
  expect(err).toContain('2 cells kept as comments');
});

test('GeoJSON and JSON Lines on standard output name the files as people see them', async () => {
  const folder = await folderWith(FILES);
  const { out } = await folder.run('export', 'lawn', '--as', 'geojson');
  expect(JSON.parse(out).features.map(({ properties }: { properties: object }) => properties)).toMatchObject([
    { file: 'lawn/lawn.wood', line: 2, site: 'Fernhollow Court', tag: '11' },
    { tag: '12', last_inspection: '2025-10-09', open_defects: 1 },
    { tag: '13' },
  ]);
  const lines = (await folder.run('export', '--as', 'jsonl')).out.trimEnd().split('\n');
  expect(lines.map(line => JSON.parse(line).kind)).toEqual(['tree', 'tree', 'tree', 'site']);
});

test('what can not be read is said, and what can be is exported', async () => {
  const folder = await folderWith(FILES);
  const { code, out, err } = await folder.run('export', 'lawn', 'none.wood', '--as', 'csv');
  expect(code).toBe(2);
  expect(out.split('\r\n')).toHaveLength(5);
  expect(err).toContain('none.wood does not exist');
});

test('another program reads the Parquet: rows, types, no values, and the points as GeoParquet', async () => {
  const folder = await folderWith(FILES);
  const file = folder.file('trees.parquet');
  expect((await folder.run('export', '--as', 'parquet', '--to', 'trees.parquet')).code).toBe(0);
  const ask = await asking();

  expect(
    await ask(
      `select tag, name, file, line, dbh, dbh_low_m, height_low_m, height_high_m, open_defects from '${file}'`,
    ),
  ).toEqual([
    {
      tag: '11',
      name: 'Gate oak',
      file: 'lawn/lawn.wood',
      line: 2,
      dbh: '34 in, ~12 in',
      dbh_low_m: 0.8636,
      height_low_m: 18.5928,
      height_high_m: null,
      open_defects: 0,
    },
    expect.objectContaining({ tag: '12', name: null, dbh: null, dbh_low_m: null, open_defects: 1 }),
    expect.objectContaining({ tag: '13', line: 12, open_defects: 0 }),
  ]);
  const [{ geo }] = (await ask(
    `select decode(value) as geo from parquet_kv_metadata('${file}') where decode(key) = 'geo'`,
  )) as unknown as [{ geo: string }];
  expect(JSON.parse(geo)).toEqual({
    version: '1.1.0',
    primary_column: 'geometry',
    columns: {
      geometry: {
        encoding: 'WKB',
        geometry_types: ['Point'],
        bbox: [-122.87168, 44.3129, -122.87151, 44.31296],
      },
    },
  });
  // It knows the column for what it is, in the coordinates that GeoParquet means where none are named.
  expect(
    await ask(
      `select typeof(geometry) as type, geometry::varchar as point from '${file}' where geometry is not null`,
    ),
  ).toEqual([
    { type: "GEOMETRY('OGC:CRS84')", point: 'POINT (-122.87168 44.31296)' },
    { type: "GEOMETRY('OGC:CRS84')", point: 'POINT (-122.87151 44.3129)' },
  ]);
  expect(await ask(`select tag from '${file}' where geometry is null`)).toEqual([{ tag: '13' }]);
});

test('an inventory without trees is a Parquet without rows', async () => {
  const folder = await folderWith({ 'site.wood': FILES['site.wood'] });
  expect((await folder.run('export', '--as', 'parquet', '--to', 'none.parquet')).code).toBe(0);
  const ask = await asking();
  expect(await ask(`select count(*)::integer as trees from '${folder.file('none.parquet')}'`)).toEqual([
    { trees: 0 },
  ]);
});

test('another program reads the same trees out of CSV, GeoJSON, JSON Lines and Parquet', async () => {
  const folder = await folderWith({});
  const ask = await asking();
  for (const form of ['csv', 'geojson', 'jsonl', 'parquet'])
    expect((await folder.run('export', fernhollow, '--as', form, '--to', `t.${form}`)).code).toBe(0);
  const columns =
    'tag, name, species, dbh, girth, height, height_low_m::double as low, vigor, protected, notes';
  const order = 'order by tag, name, species, dbh, height';
  const parquet = await ask(`select ${columns} from '${folder.file('t.parquet')}' ${order}`);
  expect(parquet.length).toBeGreaterThan(50);
  const csv = `read_csv('${folder.file('t.csv')}', all_varchar = true)`;
  // Only a table has to tell a text from a formula.
  expect(await ask(`select ${columns} from ${csv} ${order}`)).toEqual(parquet);
  const features = `(select unnest(features, recursive := true) from read_json('${folder.file('t.geojson')}'))`;
  expect(await ask(`select ${columns} from ${features} ${order}`)).toEqual(parquet);
  const facts = `read_json('${folder.file('t.jsonl')}', format = 'newline_delimited', sample_size = -1)`;
  const tags = (await ask(`select tag from ${facts} where kind = 'tree' order by tag`)).map(({ tag }) => tag);
  expect(tags).toEqual(parquet.map(({ tag }) => tag));
  const [maple] = await ask(
    `select height.shown as height, height.low as low, len(defects) as defects from ${facts} where tag = '14'`,
  );
  expect(maple).toMatchObject({ height: '52 ft', low: 15.8496 });
});
