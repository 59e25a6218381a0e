/**
 * Tables as GeoPackage (OGC 12-128r17, GeoPackage Encoding Standard 1.3): a layer of points in WGS 84, in a file of SQLite. The
 * whole file is in memory until it is written.
 */

import initSqlJs, { type SqlValue } from 'sql.js';
import { formatDate } from '../base/dates.ts';
import { UserError } from '../base/user-error.ts';
import { wellKnownBinary } from './export-parquet.ts';
import type { RowFile } from './row-form.ts';
import { IN_GEOMETRY, positionOf, type Table } from './tables.ts';
import { type Column, degrees } from './tree-table.ts';

/** `GPKG`, and version 1.3: requirement 2. */
const APPLICATION = 0x47504b47;
const VERSION = 10300;
const WGS84 = 4326;

const WGS84_TEXT =
  'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]';

/** The tables that every file has: requirements 10, 11, 13 and 21. */
const HEAD = `
PRAGMA application_id = ${APPLICATION};
PRAGMA user_version = ${VERSION};
CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
INSERT INTO gpkg_spatial_ref_sys VALUES
  ('Undefined Cartesian', -1, 'NONE', -1, 'undefined', NULL),
  ('Undefined geographic', 0, 'NONE', 0, 'undefined', NULL),
  ('WGS 84', ${WGS84}, 'EPSG', ${WGS84}, '${WGS84_TEXT}', 'longitude before latitude, in degrees');
CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE, description TEXT DEFAULT '',
  last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL,
  z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
`;

const TYPES = { text: 'TEXT', number: 'REAL', count: 'INTEGER', day: 'DATE' } as const;

/** Version 0, little-endian, no envelope, WGS 84; the point as well-known binary behind it (clause 2.1.3). */
function geometryOf(point: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(8 + point.length);
  bytes.set([0x47, 0x50, 0, 1]);
  new DataView(bytes.buffer).setInt32(4, WGS84, true);
  bytes.set(point, 8);
  return bytes;
}

/** Rows: a hundred thousand trees are 38 MB of file, and take 70 MB more than row by row. */
const MOST_ROWS = 250_000;

const quoted = (name: string): string => `"${name}"`;

export async function geoPackageFile<Row>(
  { columns, treeOf }: Table<Row>,
  { name, today }: { readonly name: string; readonly today: number },
  write: (bytes: Uint8Array) => void,
): Promise<RowFile<Row>> {
  const shown = columns.filter(column => !IN_GEOMETRY.has(column.name));
  const { Database } = await initSqlJs();
  const file = new Database();
  file.run(HEAD);
  const own = shown.map(column => `${quoted(column.name)} ${TYPES[column.type]}`);
  file.run(
    `CREATE TABLE ${quoted(name)} (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom POINT, ${own.join(', ')})`,
  );
  const insert = file.prepare(
    `INSERT INTO ${quoted(name)} (geom, ${shown.map(column => quoted(column.name)).join(', ')}) VALUES (?${', ?'.repeat(shown.length)})`,
  );
  file.run('BEGIN');
  let rows = 0;
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  return {
    add(row) {
      const position = positionOf(treeOf(row));
      const cells = [
        position ? geometryOf(wellKnownBinary(position)) : null,
        ...shown.map(column => cellOf(column, row)),
      ];
      if (rows === MOST_ROWS)
        throw new UserError(
          `a GeoPackage of more than ${MOST_ROWS.toLocaleString('en')} rows is not written, because all of it is in memory: export folders one by one, or to geojson or parquet, which are written row by row.`,
        );
      insert.run(cells);
      rows++;
      if (!position) return;
      const [x, y] = [degrees(position.longitude), degrees(position.latitude)];
      [west, south, east, north] = [
        Math.min(west, x),
        Math.min(south, y),
        Math.max(east, x),
        Math.max(north, y),
      ];
    },
    end() {
      file.run(`INSERT INTO gpkg_contents VALUES (?, 'features', ?, '', ?, ${'?, '.repeat(4)}${WGS84})`, [
        name,
        name,
        `${formatDate(today)}T00:00:00.000Z`,
        ...[west, south, east, north].map(value => (Number.isFinite(value) ? value : null)),
      ]);
      file.run(`INSERT INTO gpkg_geometry_columns VALUES (?, 'geom', 'POINT', ${WGS84}, 0, 0)`, [name]);
      file.run('COMMIT');
      write(file.export());
      file.close();
    },
  };
}

function cellOf<Row>({ of, type }: Column<Row>, row: Row): SqlValue {
  const value = of(row);
  if (value === undefined) return null;
  return type === 'day' ? formatDate(value as number) : value;
}
