/** Trees as GeoJSON (RFC 7946): positions as longitude, latitude in WGS 84; one feature per line. */

import type { RowForm } from './row-form.ts';
import { jsonText } from './sanitize.ts';
import { CONTEXT_COLUMNS, degrees, type ExportTree, RECORD_COLUMNS } from './tree-table.ts';

const COLUMNS = [...CONTEXT_COLUMNS, ...RECORD_COLUMNS].filter(
  // Already in the geometry.
  ({ name }) => name !== 'latitude_deg' && name !== 'longitude_deg',
);

function featureOf(tree: ExportTree) {
  const { position } = tree.placed.fact;
  return {
    type: 'Feature',
    geometry: position
      ? { type: 'Point', coordinates: [degrees(position.longitude), degrees(position.latitude)] }
      : null,
    properties: Object.fromEntries(COLUMNS.map(({ name, of }) => [name, of(tree) ?? null])),
  };
}

/** A tree without position is a feature without geometry (RFC 7946, section 3.2). */
export const treesGeoJson: RowForm<ExportTree> = {
  head: '{"type":"FeatureCollection","features":[\n',
  row: tree => jsonText(featureOf(tree)),
  between: ',\n',
  end: '\n]}\n',
};
