/**
 * Trees as Apache Parquet, with positions in GeoParquet 1.1.0 (https://geoparquet.org/releases/v1.1.0/): points in
 * well-known binary, longitude before latitude, in OGC:CRS84, which is the default.
 */

import { parquetWriteBuffer } from 'hyparquet-writer';
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
function boxOf(positions: readonly GeoPosition[]): readonly number[] {
  const east = positions.map(({ longitude }) => degrees(longitude));
  const north = positions.map(({ latitude }) => degrees(latitude));
  const least = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b));
  const most = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b));
  return [least(east), least(north), most(east), most(north)];
}

export function treesParquet(trees: readonly ExportTree[]): Uint8Array {
  const positions = trees.flatMap(({ placed }) => placed.fact.position ?? []);
  const geo = {
    version: '1.1.0',
    primary_column: 'geometry',
    columns: {
      geometry: {
        encoding: 'WKB',
        geometry_types: ['Point'],
        ...(positions.length > 0 ? { bbox: boxOf(positions) } : {}),
      },
    },
  };
  const columns = [...CONTEXT_COLUMNS, ...RECORD_COLUMNS].map(({ name, type, of }) => ({
    name,
    type: TYPES[type],
    nullable: true,
    data: trees.map(tree => of(tree) ?? null),
  }));
  const geometry = {
    name: 'geometry',
    type: 'BYTE_ARRAY' as const,
    nullable: true,
    data: trees.map(({ placed: { fact } }) => (fact.position ? wellKnownBinary(fact.position) : null)),
  };
  return new Uint8Array(
    parquetWriteBuffer({
      columnData: [...columns, geometry],
      kvMetadata: [{ key: 'geo', value: JSON.stringify(geo) }],
      createdBy: 'soundwood',
    }),
  );
}
