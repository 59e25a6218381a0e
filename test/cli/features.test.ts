/** Files of programs for maps: GeoPackage out and in, GeoJSON in. */

import { spawnSync } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import initSqlJs, { type Database } from 'sql.js';
import { describe, expect, test } from 'vitest';
import { isMissing } from '../lsp/editors/editors.ts';
import { folderWith, ON } from './folder.ts';

const fernhollow = fileURLToPath(new URL('../../samples/fernhollow', import.meta.url));

const feature = (properties: object, geometry: object | null) => ({ type: 'Feature', properties, geometry });
const point = (...coordinates: readonly number[]) => ({ type: 'Point', coordinates });
const collection = (features: readonly unknown[], more: object = {}) =>
  JSON.stringify({ type: 'FeatureCollection', ...more, features });

const OAK = feature({ tag: '11', species: 'Quercus robur', 'height (m)': 21 }, point(10.25, 52.5));
const LIME = feature({ tag: '12', species: 'Tilia cordata', 'height (m)': 17.5 }, point(10.26, 52.51));

const imported = async (name: string, content: string | Uint8Array, ...args: readonly string[]) => {
  const folder = await folderWith({ [name]: content });
  return folder.run('import', name, ...args);
};

const positions = (text: string) => [...text.matchAll(/^ {2}position +(.*)$/gm)].map(([, place]) => place);

test.each(['gpkg', 'geojson'])('.%s: what goes out comes back, and goes out again the same', async ending => {
  const folder = await folderWith({});
  const form = ending === 'gpkg' ? 'geopackage' : ending;
  await folder.run('export', fernhollow, '--format', 'csv', '--output', 'trees.csv');
  const out = await folder.run(
    'export',
    fernhollow,
    '--format',
    form,
    '--output',
    `t.${ending}`,
    '--date',
    ON,
  );
  expect(out).toMatchObject({ code: 0, err: '' });
  const back = await folder.run('import', `t.${ending}`, '--output', 'again.wood');
  expect(back.code, back.err).toBe(0);
  expect(back.err).toContain('; 0 cells kept as comments');
  expect((await folder.run('export', 'again.wood', '--format', 'csv')).out).toBe(
    await readFile(folder.file('trees.csv'), 'utf8'),
  );
});

test('a GeoPackage is the same whenever it is written for one day', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n  position 44.1, -122.2\ntree 2\n' });
  for (const name of ['one.gpkg', 'two.gpkg'])
    await folder.run('export', '--format', 'geopackage', '--output', name, '--date', ON);
  expect(await readFile(folder.file('one.gpkg'))).toEqual(await readFile(folder.file('two.gpkg')));
  const none = await folder.run('export', '--format', 'geopackage');
  expect(none.code).toBe(2);
  expect(none.err).toContain('geopackage is a binary format: name the file with --output');
});

describe.skipIf(isMissing('ogrinfo', ['--version'], 'apt-get install gdal-bin'))('GDAL', () => {
  const ogr = (program: string, ...args: readonly string[]) => {
    const { stdout, stderr } = spawnSync(program, args, { encoding: 'utf8' });
    expect(stderr).toBe('');
    return stdout;
  };

  test('reads the rows, the types and the points of a GeoPackage', async () => {
    const folder = await folderWith({
      'a.wood':
        'tree 11 "Gate & <oak>"\n  position 44.31296, -122.87168\n  dbh 34 in\n  planted 1931-04-02\ntree 12\n',
    });
    for (const table of ['trees', 'work'])
      await folder.run('export', '--format', 'geopackage', '--table', table, '--output', `${table}.gpkg`);
    const told = ogr('ogrinfo', '-al', folder.file('trees.gpkg'));
    expect(told).toContain('Geometry: Point\nFeature Count: 2\nExtent: (-122.871680, 44.312960)');
    expect(told).toContain('ID["EPSG",4326]');
    expect(told).toContain('planted (Date) = 1931/04/02');
    expect(told).toContain('dbh_low_m (Real) = 0.8636');
    expect(told).toContain('line (Integer64) = 1\n');
    expect(told).toContain('name (String) = Gate & <oak>\n');
    expect(told).toContain('POINT (-122.87168 44.31296)');
    expect(ogr('ogrinfo', '-al', folder.file('work.gpkg'))).toContain('Layer name: work\nGeometry: Point');
  });

  test('writes a GeoPackage on a grid and features on lines, which are read', async () => {
    const folder = await folderWith({ 'a.geojson': collection([OAK, LIME]) });
    ogr('ogr2ogr', '-f', 'GPKG', '-t_srs', 'EPSG:25832', folder.file('a.gpkg'), folder.file('a.geojson'));
    ogr('ogr2ogr', '-f', 'GeoJSONSeq', folder.file('a.geojsonl'), folder.file('a.geojson'));
    for (const name of ['a.gpkg', 'a.geojsonl']) {
      const { code, out, err } = await folder.run('import', name, '--tag', 'tag');
      expect(code, err).toBe(0);
      expect(positions(out)).toEqual(['52.5, 10.25', '52.51, 10.26']);
      expect(out).toContain('  height      17.5 m\n');
    }
  });
});

describe('GeoJSON', () => {
  test('on a grid that the file names, on one that somebody names, on none', async () => {
    const trees = [feature({ tag: '1', species: 'Quercus robur' }, point(389_880.1, 5_819_700.2))];
    const crs = { crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::25833' } } };
    const named = await imported('a.geojson', collection(trees, crs));
    const told = await imported('a.json', collection(trees), '--crs', 'EPSG:25833');
    expect(named.code, named.err).toBe(0);
    const [place] = positions(named.out);
    expect(place).toMatch(/^52\.5\d+, 13\.3\d+$/);
    expect(positions(told.out)).toEqual([place]);
    expect(await imported('a.json', collection(trees))).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringContaining('a.json: Its points are not in degrees'),
    });
    const odd = { crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::9999' } } };
    expect((await imported('a.json', collection(trees, odd))).err).toContain('Its points are on EPSG:9999');
  });

  test('another geometry is told, and gives no position', async () => {
    const area = {
      type: 'Polygon',
      coordinates: [
        [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 0],
        ],
      ],
    };
    const { code, out, err } = await imported(
      'a.geojson',
      collection([OAK, { ...LIME, geometry: area }, { ...LIME, properties: { tag: '13' }, geometry: null }]),
    );
    expect(code, err).toBe(0);
    expect(err).toContain('a.geojson: warning: 1 of 3 features has a Polygon for a geometry, not a point');
    expect(positions(out)).toEqual(['52.5, 10.25']);
  });

  test('what can not be read of a feature is told by its number', async () => {
    const { out, err } = await imported(
      'a.geojson',
      collection([OAK, { ...LIME, properties: { ...LIME.properties, 'height (m)': 'tall' } }]),
      '--tag',
      'tag',
    );
    expect(out + err).toContain('tall');
    expect(err).toContain('a.geojson, feature 2: note: height (m) "tall" left out');
  });

  test.each([
    ['{"type":"FeatureCollection","features":[', "can't be read as JSON"],
    ['tag,species\n1,Quercus robur\n', "can't be read as JSON"],
    [`${JSON.stringify(OAK)}\n{"type":`, "Line 2 can't be read as JSON"],
    ['{"kind":"tree"}\n{"kind":"tree"}\n', 'It is not GeoJSON'],
    ['[1,null]', 'It is not GeoJSON'],
    ['{"type":"FeatureCollection","features":7}', 'It is not GeoJSON'],
    [collection([null]), 'It is not GeoJSON'],
    [collection([]), 'It has no features'],
    [collection([OAK], { crs: { properties: { name: 'local' } } }), 'unknown coordinate system (local)'],
    [
      `{"type":"Feature","geometry":null,"properties":{"tag":"1","a":${'['.repeat(100_000)}${']'.repeat(100_000)}}}`,
      'nested too deeply',
    ],
    [
      collection([feature(Object.fromEntries(Array.from({ length: 2000 }, (_, i) => [`p${i}`, i])), null)]),
      'more than 1000 different properties',
    ],
    [collection([feature({ tag: 'x'.repeat(1_100_000) }, null)]), 'Feature 1 is longer than 1 MB'],
  ])('refused with a reason (%#)', async (text, reason) => {
    const { code, out, err } = await imported('bad.geojson', text);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(`bad.geojson: `);
    expect(err).toContain(reason);
  });

  test('odd coordinates and odd keys are no positions and no columns of the program', async () => {
    const { out, err } = await imported(
      'a.geojson',
      `{"type":"FeatureCollection","features":[${JSON.stringify(OAK)},
      {"type":"Feature","geometry":{"type":"Point","coordinates":["1",2]},"properties":{"tag":"2","__proto__":{"tag":"3"}}},
      {"type":"Feature","geometry":{"type":"Point","coordinates":[1e999,2]},"properties":{"tag":"4\\ud800"}},
      {"type":"Feature","geometry":7,"properties":null}]}`,
      '--tag',
      'tag',
    );
    expect(positions(out)).toEqual(['52.5, 10.25']);
    expect(err).toContain('2 of 4 features have a Point without two numbers for a geometry');
    expect(err).toContain('something unreadable');
  });
});

describe('GeoPackages of others', () => {
  const HEAD = `
CREATE TABLE gpkg_spatial_ref_sys (srs_name, srs_id, organization, organization_coordsys_id, definition);
INSERT INTO gpkg_spatial_ref_sys VALUES ('a', 4326, 'EPSG', 4326, ''), ('b', 25833, 'EPSG', 25833, ''), ('c', 7, 'OURS', 7, ''), ('d', -1, 'NONE', -1, '');
CREATE TABLE gpkg_contents (table_name, data_type);
CREATE TABLE gpkg_geometry_columns (table_name, column_name, srs_id);`;
  const layer = (name: string, srs: number, rows: string) =>
    `CREATE TABLE "${name}" (fid INTEGER PRIMARY KEY, tag TEXT, species TEXT, place BLOB);
     INSERT INTO gpkg_contents VALUES ('${name}', 'features');
     INSERT INTO gpkg_geometry_columns VALUES ('${name}', 'place', ${srs}); ${rows}`;
  /** A geometry: flags, envelope, and well-known binary of a point. */
  const blob = (east: number, north: number, { envelope = false, big = false, kind = 1 } = {}) => {
    const bytes = Buffer.alloc(8 + (envelope ? 32 : 0) + 21);
    bytes.write('GP');
    bytes[3] = (envelope ? 2 : 0) | 1;
    const at = bytes.length - 21;
    bytes[at] = big ? 0 : 1;
    if (big) bytes.writeUInt32BE(kind, at + 1);
    else bytes.writeUInt32LE(kind, at + 1);
    for (const [value, to] of [
      [east, at + 5],
      [north, at + 13],
    ] as const)
      if (big) bytes.writeDoubleBE(value, to);
      else bytes.writeDoubleLE(value, to);
    return `x'${bytes.toString('hex')}'`;
  };
  const tree = (table: string, tag: string, place: string) =>
    `INSERT INTO "${table}" VALUES (NULL, '${tag}', 'Quercus robur', ${place});`;

  async function packed(sql: string): Promise<Uint8Array> {
    const { Database } = await initSqlJs();
    const file: Database = new Database();
    file.run(sql);
    const bytes = file.export();
    file.close();
    return bytes;
  }
  const read = async (sql: string, ...args: readonly string[]) =>
    imported('a.gpkg', await packed(sql), '--tag', 'tag', ...args);

  test('points of any byte order, with an envelope, with heights; empty and damaged ones', async () => {
    const { out, err } = await read(
      HEAD +
        layer(
          't',
          4326,
          [
            blob(10.25, 52.5, { envelope: true }),
            blob(10.26, 52.5, { big: true }),
            blob(10.27, 52.5, { kind: 1001 }),
            blob(Number.NaN, Number.NaN),
            blob(0, 0, { kind: 3 }),
            "x'4750'",
            "x'47500001'",
            "'text'",
            'NULL',
          ]
            .map((place, i) => tree('t', String(i), place))
            .join(''),
        ),
    );
    expect(positions(out), err).toEqual(['52.5, 10.25', '52.5, 10.26', '52.5, 10.27']);
    expect(err).toContain('1 of 9 features has a Polygon for a geometry');
    expect(err).toContain('3 of 9 features have something unreadable for a geometry');
  });

  test('a layer of several has to be named; a grid that nobody knows is refused', async () => {
    const two =
      HEAD +
      layer('a', 4326, tree('a', '1', 'NULL')) +
      layer('b', 25833, tree('b', '2', blob(389_880.1, 5_819_700.2)));
    expect((await read(two)).err).toContain('name the layer with the trees with --layer; its layers: a, b.');
    expect((await read(two, '--layer', 'c')).err).toContain('there is no layer c; its layers: a, b.');
    expect(positions((await read(two, '--layer', 'b')).out)[0]).toMatch(/^52\.5\d+, 13\.3\d+$/);
    expect((await read(HEAD + layer('c', 7, tree('c', '1', 'NULL')))).err).toContain(
      'is not from EPSG (OURS 7)',
    );
    expect((await read(HEAD + layer('d', -1, tree('d', '1', blob(389_880, 5_819_700))))).err).toContain(
      'Its points are not in degrees',
    );
  });

  test('what could run without end or is no GeoPackage is refused', async () => {
    const endless =
      'WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i AS tag, i AS place FROM n';
    const view = `${HEAD} CREATE VIEW v AS ${endless};
      INSERT INTO gpkg_contents VALUES ('v', 'features'); INSERT INTO gpkg_geometry_columns VALUES ('v', 'place', 4326);`;
    expect((await read(view)).err).toContain('a.gpkg: Its layer v is a view or is missing');
    const contents = `CREATE VIEW gpkg_contents AS ${endless};`;
    expect((await read(contents)).err).toContain('it has no table gpkg_contents');
    expect((await read('CREATE TABLE other (a)')).err).toContain('It is not a GeoPackage with features');
    expect((await read(HEAD)).err).toContain('It has no layer of features');
    expect((await imported('a.gpkg', 'tag,species\n')).err).toContain("It can't be read as a GeoPackage");
    const whole = await packed(
      HEAD + layer('t', 4326, Array.from({ length: 500 }, (_, i) => tree('t', String(i), 'NULL')).join('')),
    );
    for (const length of [0, 50, 100, 4096, whole.length >> 1]) {
      const { code, out, err } = await imported('a.gpkg', whole.slice(0, length), '--tag', 'tag');
      expect({ code, out }, err).toEqual({ code: 2, out: '' });
      expect(err).toMatch(/^a\.gpkg: |^soundwood: a\.gpkg: /);
    }
    const folder = await folderWith({});
    for (let at = 0; at < whole.length; at += 997) {
      const damaged = whole.slice();
      damaged[at] = damaged[at]! ^ 0xff;
      await writeFile(folder.file('a.gpkg'), damaged);
      const { err } = await folder.run('import', 'a.gpkg', '--tag', 'tag');
      expect(err).not.toContain('internal error');
    }
  });
});
