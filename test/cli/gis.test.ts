/** What maps, receivers and spreadsheets read of an export, each by a reader of somebody else. */

import { spawnSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { DuckDBInstance } from '@duckdb/node-api';
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { isMissing } from '../lsp/editors/editors.ts';
import { folderWith, ON } from './folder.ts';

const FILES = {
  'site.wood':
    'site "Fernhollow Court"\n  region US-OR\n\nperson RV "Ruth Varga"\n  qualified consulting arborist\n\nperson TL "Tom Lind"\n\ncrew ROPE "Rope crew"\n  members TL\n\ncrew SAW "Ground crew"\n',
  'lawn.wood': `tree 11 "Gate & <oak>"
  species   Quercus garryana
  position  44.31296, -122.87168
  dbh       34 in
  planted   1931-04-02
  inspection 2026-05-09 from ground
    by      RV
  target "Lawn"
    occupied frequent
  risk "Lawn"
    rating  moderate
  prescription R1 reduce
    between 2026-09-15..2026-10-31
    with ROPE
  prescription R2 clean
    between 2026-07-01..2026-12-31
    with SAW
  follow-up F1 re-inspection
    due     2026-06-20

tree 12
  position  44.31290, -122.87151
  inspection 2026-05-09 from ground

tree 13
`,
};

const exported = async (...args: readonly string[]) => {
  const folder = await folderWith(FILES);
  const run = await folder.run('export', ...args, '--date', ON);
  expect(run.code, run.err).toBe(0);
  return { ...run, folder };
};

test('a feature says what comes next, what is due, what is worst, and never takes unknown for low', async () => {
  const { out } = await exported('--format', 'geojson');
  const { features } = JSON.parse(out) as { features: { properties: Record<string, unknown> }[] };
  const [oak, , unseen] = features.map(({ properties }) => properties);
  expect(oak).toMatchObject({
    // The work that begins first, not the one that is written first.
    next_work: 'clean R2',
    next_work_from: '2026-07-01',
    next_work_to: '2026-12-31',
    due_day: '2026-06-20',
    due_for: 're-inspection F1 is due',
    risk: 'moderate',
    planted: '1931-04-02',
  });
  expect(oak!.worst_finding_level).toBe('error');
  expect(oak!.worst_finding_message).toEqual(expect.stringMatching(/\.$/));
  expect(unseen).toMatchObject({ next_work: null, risk: 'not rated', standing: 'never inspected' });
});

test('days of Parquet are days; the work list and the inspections are tables', async () => {
  const folder = await folderWith(FILES);
  for (const table of ['trees', 'work', 'inspections'])
    await folder.run('export', '--format', 'parquet', '--table', table, '--output', `${table}.parquet`);
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  const ask = async (query: string) => (await connection.runAndReadAll(query)).getRowObjectsJson();
  expect(
    await ask(
      `select typeof(planted) as type, year(planted) as year, last_inspection from '${folder.file('trees.parquet')}' limit 1`,
    ),
  ).toEqual([{ type: 'DATE', year: '1931', last_inspection: '2026-05-09' }]);
  expect(
    await ask(
      `select tag, job, kind, "from", typeof("to") as type, crew from '${folder.file('work.parquet')}' order by job`,
    ),
  ).toEqual([
    { tag: '11', job: 'R1', kind: 'reduce', from: '2026-09-15', type: 'DATE', crew: 'ROPE' },
    { tag: '11', job: 'R2', kind: 'clean', from: '2026-07-01', type: 'DATE', crew: 'SAW' },
  ]);
  expect(
    await ask(`select tag, date, "by" from '${folder.file('inspections.parquet')}' order by tag`),
  ).toEqual([
    { tag: '11', date: '2026-05-09', by: 'RV' },
    { tag: '12', date: '2026-05-09', by: null },
  ]);
  connection.closeSync();
  instance.closeSync();
});

test('a CSV begins with the mark of UTF-8, for every table', async () => {
  for (const table of ['trees', 'work', 'inspections']) {
    const { out } = await exported('--format', 'csv', '--table', table);
    expect(out.startsWith('\uFEFF')).toBe(true);
    expect(parse(out, { bom: true, columns: true })[0]).toMatchObject({ tag: '11' });
  }
});

test('a calendar for a person has the days of the crews of that person, and those of nobody', async () => {
  const folder = await folderWith(FILES);
  const summaries = async (...names: readonly string[]) => {
    const { out } = await folder.run('calendar', '--date', ON, ...names.flatMap(name => ['--for', name]));
    return [...out.matchAll(/^SUMMARY:(.*)\r$/gm)].map(([, words]) => words!);
  };
  const all = await summaries();
  const [rope, saw] = [await summaries('TL'), await summaries('SAW')];
  expect(rope.filter(one => one.includes('R1')).length).toBeGreaterThan(0);
  // A look for nests is nobody's until somebody is named.
  expect(rope.filter(one => one.endsWith(': clean R2'))).toEqual([]);
  expect(saw.filter(one => one.includes('clean R2')).length).toBeGreaterThan(0);
  // Whoever reads one of them misses nothing that has nobody's name.
  expect(new Set([...rope, ...saw])).toEqual(new Set(all));
  const unknown = await folder.run('calendar', '--for', 'XX');
  expect(unknown.code).toBe(2);
  expect(unknown.err).toContain('no person or crew is named XX; on record: RV, TL, ROPE, SAW');
});

describe.skipIf(isMissing('ogrinfo', ['--version'], 'apt-get install gdal-bin'))('GDAL', () => {
  /** The features as GDAL reads them. */
  function read(file: string, layer?: string) {
    const { stdout, stderr } = spawnSync(
      'ogr2ogr',
      ['-f', 'GeoJSON', '/vsistdout/', file, ...(layer === undefined ? [] : [layer])],
      { encoding: 'utf8' },
    );
    expect(stderr).toBe('');
    return JSON.parse(stdout).features as {
      geometry: { coordinates: number[] } | null;
      properties: Record<string, unknown>;
    }[];
  }

  test.each(['geojson', 'kml', 'gpx'])('%s: places and names', async form => {
    const { folder, err } = await exported('--format', form, '--output', `t.${form}`);
    const features = read(folder.file(`t.${form}`), form === 'gpx' ? 'waypoints' : undefined);
    const placed = features.filter(({ geometry }) => geometry !== null);
    expect(placed.map(({ geometry }) => geometry!.coordinates.slice(0, 2))).toEqual([
      [-122.87168, 44.31296],
      [-122.87151, 44.3129],
    ]);
    const [oak] = placed.map(({ properties }) => properties);
    if (form === 'geojson') expect(features).toHaveLength(3);
    // A place without a position is none, and that is said.
    else expect(err).toContain('1 tree without a position is not included');
    expect(Object.values(oak!)).toContain('11');
    if (form === 'gpx') expect(oak!.desc).toContain('name: Gate & <oak>\nspecies: Quercus garryana');
    if (form === 'kml')
      expect(oak).toMatchObject({ Name: '11', tree_name: 'Gate & <oak>', next_work: 'clean R2' });
  });

  test('work as waypoints: a job at each', async () => {
    const { folder } = await exported('--format', 'gpx', '--table', 'work', '--output', 'w.gpx');
    expect(read(folder.file('w.gpx'), 'waypoints').map(({ properties }) => properties.name)).toEqual([
      '11: reduce R1',
      '11: clean R2',
    ]);
    expect(await readFile(folder.file('w.gpx'), 'utf8')).toContain('crew: ROPE');
  });
});
