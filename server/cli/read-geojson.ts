/** GeoJSON (RFC 7946) as a table: one collection, or a feature on each line (RFC 8142, with or without its marks). */

import { type Feature, type Features, isDegrees, readGrid, TableError } from '../import/index.ts';

const NO_GEOJSON =
  'It is not GeoJSON: expected a FeatureCollection, or a Feature on each line. Save the layer as GeoJSON in WGS 84.';

/** Throws TableError. */
export function readGeoJson(text: string): Features {
  const value = parsed(text);
  const all = Array.isArray(value) ? value : [value];
  const features: Feature[] = [];
  let crs: string | undefined;
  for (const one of all) {
    if (isObject(one) && one.type === 'FeatureCollection' && Array.isArray(one.features)) {
      crs ??= crsOf(one.crs);
      for (const feature of one.features) features.push(featureOf(feature));
    } else features.push(featureOf(one));
  }
  return { features, crs };
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The value, or those on each line. */
function parsed(text: string): unknown {
  const plain = text.replace(/^\uFEFF/, '');
  try {
    return JSON.parse(plain);
  } catch (error) {
    const lines = plain.split('\n').map(line => line.replace(/^\x1E/, '').trim());
    const first = lines.find(line => line !== '') ?? '';
    // Several lines with a value each, or a text that breaks off.
    if (!/^\{.*\}$/.test(first)) throw new TableError(`It can't be read as JSON: ${reasonOf(error)}.`);
    return lines.flatMap((line, index): unknown[] => {
      if (line === '') return [];
      try {
        return [JSON.parse(line)];
      } catch (inLine) {
        throw new TableError(`Line ${index + 1} can't be read as JSON: ${reasonOf(inLine)}.`);
      }
    });
  }
}

const reasonOf = (error: unknown): string => (error as Error).message.replace(/\.$/, '');

function featureOf(value: unknown): Feature {
  if (!isObject(value) || value.type !== 'Feature') throw new TableError(NO_GEOJSON);
  const own = isObject(value.properties) ? value.properties : {};
  const { id } = value;
  const properties =
    (typeof id === 'string' || typeof id === 'number') && !('id' in own) ? { id, ...own } : own;
  return { properties, geometry: geometryOf(value.geometry) };
}

function geometryOf(geometry: unknown): Feature['geometry'] {
  if (geometry === null || geometry === undefined) return undefined;
  if (!isObject(geometry)) return { other: 'something unreadable' };
  const { type, coordinates } = geometry;
  const several = type === 'MultiPoint' && Array.isArray(coordinates) && coordinates.length === 1;
  const place: unknown = several ? coordinates[0] : type === 'Point' ? coordinates : undefined;
  if (place === undefined) return { other: typeof type === 'string' ? `a ${type}` : 'something unreadable' };
  const [east, north]: unknown[] = Array.isArray(place) ? place : [];
  // A point without coordinates is an empty one.
  if (Array.isArray(place) && place.length === 0) return undefined;
  if (typeof east !== 'number' || typeof north !== 'number' || !Number.isFinite(east + north))
    return { other: 'a Point without two numbers' };
  return { east, north };
}

/** The grid that files before RFC 7946 name. Throws TableError. */
function crsOf(crs: unknown): string | undefined {
  if (crs === undefined || crs === null) return undefined;
  const properties = isObject(crs) && isObject(crs.properties) ? crs.properties : {};
  const name = String(properties.name ?? '');
  if (/CRS84$/i.test(name)) return undefined;
  const grid = readGrid(/EPSG:.*?(\d{4,5})$/i.exec(name)?.[1] ?? '');
  if (grid === undefined)
    throw new TableError(
      `It names an unknown coordinate system (${name || 'without a name'}): save it in WGS 84 (EPSG:4326).`,
    );
  return isDegrees(grid) ? undefined : grid;
}
