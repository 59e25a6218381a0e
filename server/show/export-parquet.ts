/**
 * Trees as Apache Parquet, with positions in GeoParquet 1.1.0 (https://geoparquet.org/releases/v1.1.0/): points in
 * well-known binary, longitude before latitude, in OGC:CRS84, which is the default.
 */

import { ByteWriter, ParquetWriter, schemaFromColumnData } from 'hyparquet-writer';
import type { GeoPosition } from '../facts/types.ts';
import { CONTEXT_COLUMNS, type Column, degrees, type ExportTree, RECORD_COLUMNS } from './tree-table.ts';

const TYPES = { text: 'STRING', number: 'DOUBLE', count: 'INT32' } as const satisfies Record<
  Column['type'],
  string
>;

/** A point, little-endian: OGC Simple Features Access (06-103r4), 8.2. */
function wellKnownBinary({ longitude, latitude }: GeoPosition): Uint8Array {
  const bytes = new Uint8Array(21);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, 1);
  view.setUint32(1, 1, true);
  view.setFloat64(5, degrees(longitude), true);
  view.setFloat64(13, degrees(latitude), true);
  return bytes;
}

/** West, south, east, north. Trees on both sides of the antimeridian get a box around the globe, which is valid. */
type Box = readonly [west: number, south: number, east: number, north: number];

function withPosition(box: Box | undefined, position: GeoPosition): Box {
  const [east, north] = [degrees(position.longitude), degrees(position.latitude)];
  if (!box) return [east, north, east, north];
  return [Math.min(box[0], east), Math.min(box[1], north), Math.max(box[2], east), Math.max(box[3], north)];
}

const COLUMNS = [...CONTEXT_COLUMNS, ...RECORD_COLUMNS];
const GEOMETRY = 'geometry';

const SCHEMA = schemaFromColumnData({
  columnData: [
    ...COLUMNS.map(({ name, type }) => ({ name, type: TYPES[type], nullable: true, data: [] })),
    { name: GEOMETRY, type: 'BYTE_ARRAY', nullable: true, data: [] },
  ],
});

/** Trees to a group of rows: as many are in memory at a time. */
const GROUP = 5_000;

/** A binary form of trees. */
export interface TreeFile {
  readonly add: (tree: ExportTree) => void;
  readonly end: () => void;
}

export function treesParquet(write: (bytes: Uint8Array) => void): TreeFile {
  const bytes = new ByteWriter();
  const metadata: { key: string; value: string }[] = [];
  const parquet = new ParquetWriter({
    writer: bytes,
    schema: SCHEMA,
    kvMetadata: metadata,
    createdBy: 'soundwood',
  });
  let box: Box | undefined;
  let columns: unknown[][] = SCHEMA.slice(1).map(() => []);
  const flush = () => {
    if (bytes.index > 0) write(bytes.getBytes().slice());
    bytes.index = 0;
  };
  const writeGroup = () => {
    if (columns[0]!.length === 0) return;
    parquet.write({
      columnData: columns.map((data, i) => ({ name: SCHEMA[i + 1]!.name, data })),
      rowGroupSize: GROUP,
    });
    columns = columns.map(() => []);
    flush();
  };
  return {
    add(tree) {
      const { position } = tree.placed.fact;
      const row = [...COLUMNS.map(({ of }) => of(tree) ?? null), position ? wellKnownBinary(position) : null];
      // Only when all of it is computed.
      for (let i = 0; i < row.length; i++) columns[i]!.push(row[i]);
      if (position) box = withPosition(box, position);
      if (columns[0]!.length === GROUP) writeGroup();
    },
    end() {
      writeGroup();
      const geo = {
        version: '1.1.0',
        primary_column: GEOMETRY,
        columns: {
          [GEOMETRY]: { encoding: 'WKB', geometry_types: ['Point'], ...(box ? { bbox: box } : {}) },
        },
      };
      metadata.push({ key: 'geo', value: JSON.stringify(geo) });
      parquet.finish();
      flush();
    },
  };
}
