/** The layer of a GeoPackage (OGC 12-128r17) as features. Views and virtual tables are not run: a file may come from anywhere. */

import initSqlJs, { type Database, type SqlValue } from 'sql.js';
import { UserError } from '../base/user-error.ts';
import { type Feature, type Features, isDegrees, TableError } from '../import/index.ts';

/** Throws TableError and UserError. */
export async function readGeoPackage(bytes: Uint8Array, layer: string | undefined): Promise<Features> {
  const { Database } = await initSqlJs();
  let file: Database | undefined;
  try {
    file = new Database(bytes);
    return featuresIn(file, layer);
  } catch (error) {
    if (error instanceof TableError || error instanceof UserError) throw error;
    throw new TableError(`It can't be read as a GeoPackage: ${(error as Error).message}.`);
  } finally {
    file?.close();
  }
}

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

function* rowsOf(
  file: Database,
  query: string,
  values: SqlValue[] = [],
): Generator<Record<string, SqlValue>> {
  const statement = file.prepare(query, values);
  try {
    while (statement.step()) yield statement.getAsObject();
  } finally {
    statement.free();
  }
}

function featuresIn(file: Database, layer: string | undefined): Features {
  file.run('PRAGMA trusted_schema = OFF');
  for (const name of ['gpkg_contents', 'gpkg_geometry_columns', 'gpkg_spatial_ref_sys'])
    if (!isTable(file, name))
      throw new TableError(`It is not a GeoPackage with features: it has no table ${name}.`);
  const layers = [
    ...rowsOf(
      file,
      'SELECT c.table_name AS name, g.column_name AS geometry, s.organization AS register, s.organization_coordsys_id AS code, s.srs_id AS id FROM gpkg_contents c JOIN gpkg_geometry_columns g ON g.table_name = c.table_name LEFT JOIN gpkg_spatial_ref_sys s ON s.srs_id = g.srs_id ORDER BY c.table_name',
    ),
  ];
  const names = layers.map(({ name }) => String(name));
  const known = `its layers: ${names.slice(0, 20).join(', ')}`;
  if (layers.length === 0) throw new TableError('It has no layer of features.');
  if (layer === undefined && layers.length > 1)
    throw new UserError(`name the layer with the trees with --layer; ${known}.`);
  const chosen = layer === undefined ? layers[0] : layers.find(({ name }) => name === layer);
  if (!chosen) throw new UserError(`--layer: there is no layer ${layer}; ${known}.`);
  const name = String(chosen.name);
  if (!isTable(file, name))
    throw new TableError(`Its layer ${name} is a view or is missing: save the layer to a file of its own.`);
  const geometry = String(chosen.geometry);
  const features: Feature[] = [];
  for (const row of rowsOf(file, `SELECT * FROM ${quoted(name)}`)) {
    const { [geometry]: place, ...properties } = row;
    features.push({ properties: textOnly(properties), geometry: geometryOf(place) });
  }
  return { features, crs: gridOf(chosen) };
}

/** Whether it is a table with rows of its own. */
function isTable(file: Database, name: string): boolean {
  const [found] = rowsOf(file, 'SELECT type, sql FROM sqlite_schema WHERE name = ?', [name]);
  return found?.type === 'table' && !/^\s*CREATE\s+VIRTUAL/i.test(String(found.sql));
}

/** Pictures and the like are no cells of a table. */
const textOnly = (row: Readonly<Record<string, SqlValue>>): Readonly<Record<string, SqlValue>> =>
  Object.fromEntries(Object.entries(row).filter(([, value]) => !(value instanceof Uint8Array)));

/** Undefined for degrees, and where the file says that it does not know. Throws TableError. */
function gridOf({ register, code, id }: Readonly<Record<string, SqlValue | undefined>>): string | undefined {
  if (id === 0 || id === -1) return undefined;
  if (/^epsg$/i.test(String(register))) {
    const grid = `EPSG:${code}`;
    return isDegrees(grid) ? undefined : grid;
  }
  throw new TableError(
    `Its coordinate system is not from EPSG (${register ?? 'not described'} ${code ?? ''}): save it in WGS 84 (EPSG:4326).`,
  );
}

/** Bytes of an envelope by its code (clause 2.1.3). */
const ENVELOPES = [0, 32, 48, 48, 64];
const KINDS = [
  'something unreadable',
  'a Point',
  'a LineString',
  'a Polygon',
  'a MultiPoint',
  'a MultiLineString',
  'a MultiPolygon',
  'a GeometryCollection',
];
const UNREADABLE = { other: KINDS[0]! };

function geometryOf(value: SqlValue | undefined): Feature['geometry'] {
  if (value === null || value === undefined) return undefined;
  if (!(value instanceof Uint8Array) || value[0] !== 0x47 || value[1] !== 0x50) return UNREADABLE;
  const flags = value[3] ?? 0;
  const envelope = ENVELOPES[(flags >> 1) & 7];
  if (envelope === undefined || flags & 0x20) return UNREADABLE;
  try {
    return pointIn(new DataView(value.buffer, value.byteOffset, value.byteLength), 8 + envelope);
  } catch {
    // It ends too early.
    return UNREADABLE;
  }
}

/** Well-known binary: OGC Simple Features Access (06-103r4), 8.2. */
function pointIn(view: DataView, at: number): Feature['geometry'] {
  const little = view.getUint8(at) === 1;
  const kind = view.getUint32(at + 1, little) % 1000;
  if (kind === 4 && view.getUint32(at + 5, little) === 1) return pointIn(view, at + 9);
  if (kind !== 1) return { other: KINDS[kind] ?? UNREADABLE.other };
  const [east, north] = [view.getFloat64(at + 5, little), view.getFloat64(at + 13, little)];
  // An empty point is two numbers that are none.
  return Number.isNaN(east) && Number.isNaN(north)
    ? undefined
    : Number.isFinite(east + north)
      ? { east, north }
      : UNREADABLE;
}
