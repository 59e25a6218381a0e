/** Tables as GeoJSON (RFC 7946): positions as longitude, latitude in WGS 84; one feature per line. */

import { formatDate } from '../base/dates.ts';
import type { RowForm } from './row-form.ts';
import { jsonText } from './sanitize.ts';
import { IN_GEOMETRY, positionOf, TABLES, type Table } from './tables.ts';
import { degrees } from './tree-table.ts';

/** A row without position is a feature without geometry (section 3.2). */
export function geoJsonForm<Row>({ columns, treeOf }: Table<Row>): RowForm<Row> {
  const shown = columns.filter(({ name }) => !IN_GEOMETRY.has(name));
  const featureOf = (row: Row) => {
    const position = positionOf(treeOf(row));
    return {
      type: 'Feature',
      geometry: position
        ? { type: 'Point', coordinates: [degrees(position.longitude), degrees(position.latitude)] }
        : null,
      properties: Object.fromEntries(
        shown.map(({ name, type, of }) => {
          const value = of(row);
          return [name, value === undefined ? null : type === 'day' ? formatDate(value as number) : value];
        }),
      ),
    };
  };
  return {
    head: '{"type":"FeatureCollection","features":[\n',
    row: row => jsonText(featureOf(row)),
    between: ',\n',
    end: '\n]}\n',
  };
}

export const treesGeoJson = geoJsonForm(TABLES.trees);
