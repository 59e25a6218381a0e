/**
 * Tables as Apache Parquet, with positions in GeoParquet 1.1.0 (https://geoparquet.org/releases/v1.1.0/): points in
 * well-known binary, longitude before latitude, in OGC:CRS84, which is the default.
 */

import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import { MILLISECONDS_PER_DAY } from '../base/dates.ts';
import type { GeoPosition } from '../facts/types.ts';
import type { RowFile } from './row-form.ts';
import { positionOf, type Table } from './tables.ts';
import { type Cell, type Column, degrees } from './tree-table.ts';

/** A point, little-endian: OGC Simple Features Access (06-103r4), 8.2. */
export function wellKnownBinary({ longitude, latitude }: GeoPosition): Uint8Array {
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

const GEOMETRY = 'geometry';

const TYPES = {
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  number: { type: 'DOUBLE' },
  count: { type: 'INT32' },
  day: { type: 'INT32', converted_type: 'DATE' },
} as const satisfies Record<Column['type'], object>;

const leaf = (name: string, type: (typeof TYPES)[Column['type']] | { readonly type: 'BYTE_ARRAY' }) => ({
  name,
  ...type,
  repetition_type: 'OPTIONAL' as const,
});

const cellOf = <Row>({ of, type }: Column<Row>, row: Row): Cell | Date | null => {
  const value = of(row);
  if (value === undefined) return null;
  return type === 'day' ? new Date((value as number) * MILLISECONDS_PER_DAY) : value;
};

/** Rows to a group: as many are in memory at a time. */
const GROUP = 5_000;

export function parquetFile<Row>(
  { columns: shown, treeOf }: Table<Row>,
  write: (bytes: Uint8Array) => void,
): RowFile<Row> {
  const schema = [
    ...shown.map(({ name, type }) => leaf(name, TYPES[type])),
    leaf(GEOMETRY, { type: 'BYTE_ARRAY' }),
  ];
  const bytes = new ByteWriter();
  const metadata: { key: string; value: string }[] = [];
  const parquet = new ParquetWriter({
    writer: bytes,
    schema: [{ name: 'root', num_children: schema.length }, ...schema],
    kvMetadata: metadata,
    createdBy: 'soundwood',
  });
  let box: Box | undefined;
  let columns: unknown[][] = schema.map(() => []);
  const flush = () => {
    if (bytes.index > 0) write(bytes.getBytes().slice());
    bytes.index = 0;
  };
  const writeGroup = () => {
    if (columns[0]!.length === 0) return;
    parquet.write({
      columnData: columns.map((data, i) => ({ name: schema[i]!.name, data })),
      rowGroupSize: GROUP,
    });
    columns = columns.map(() => []);
    flush();
  };
  return {
    add(row) {
      const position = positionOf(treeOf(row));
      const cells = [
        ...shown.map(column => cellOf(column, row)),
        position ? wellKnownBinary(position) : null,
      ];
      // Only when all of it is computed.
      for (let i = 0; i < cells.length; i++) columns[i]!.push(cells[i]);
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
