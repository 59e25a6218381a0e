/** Files of features, from programs for maps, as tables: GeoJSON and GeoPackage. */

import { UserError } from '../base/user-error.ts';
import { type Features, readGrid, TableError, tableOfFeatures } from '../import/index.ts';
import { RECORD_COLUMNS } from '../show/tree-table.ts';
import { NotUtf8, type TableStream } from './table.ts';

/** All of such a file is in memory: 124 MB of GeoJSON, a hundred thousand trees, took 0.8 GB. */
const MOST_BYTES = 128_000_000;

const FORMS = [
  { name: /\.(?:geo)?json(?:l|s|seq)?$|\.ndjson$/i, read: readText },
  {
    name: /\.gpkg$/i,
    read: async (bytes: Uint8Array, layer: string | undefined) =>
      (await import('./read-geopackage.ts')).readGeoPackage(bytes, layer),
  },
];

/** Undefined for other files, by their names. */
export const formOfFeatures = (file: string): (typeof FORMS)[number] | undefined =>
  FORMS.find(({ name }) => name.test(file));

async function readText(bytes: Uint8Array): Promise<Features> {
  const { readGeoJson } = await import('./read-geojson.ts');
  return readGeoJson(utf8(bytes));
}

function utf8(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new NotUtf8();
  }
}

/** Throws TableError, NotUtf8 and UserError. */
export async function openFeatures(
  bytes: AsyncIterable<Uint8Array>,
  { read }: (typeof FORMS)[number],
  { crs: given, layer }: { readonly crs?: string; readonly layer?: string },
): Promise<TableStream> {
  const { features, crs } = await read(await allOf(bytes), layer);
  const grid = given === undefined ? crs : readGrid(given);
  if (given !== undefined && grid === undefined)
    throw new UserError(`--crs: ${given} is not the code of a grid; write it like EPSG:25833.`);
  const { table, told } = tableOfFeatures(features, {
    crs: grid,
    own: new Set(RECORD_COLUMNS.map(({ name }) => name)),
  });
  async function* rows() {
    yield table.rows;
  }
  return { ahead: table, rows: rows(), told };
}

async function allOf(bytes: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const blocks: Uint8Array[] = [];
  let size = 0;
  for await (const block of bytes) {
    size += block.length;
    if (size > MOST_BYTES)
      throw new TableError(
        `It is larger than ${MOST_BYTES / 1e6} MB, and such a file must be read into memory whole. Save it as CSV, which is read row by row, or split it.`,
      );
    blocks.push(block);
  }
  return Buffer.concat(blocks);
}
