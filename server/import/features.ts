/** Features of a map → a table: their points are its first columns, in degrees; their properties the others. */

import { degreesOn, isDegrees, isKnownGrid } from './grid.ts';
import { inertCell } from './inert.ts';
import { isExport, type Table, TableError, type TableRow } from './table.ts';

export interface Feature {
  readonly properties: Readonly<Record<string, unknown>> | null | undefined;
  readonly geometry: FeatureGeometry | undefined;
}

export interface Features {
  readonly features: readonly Feature[];
  /** The grid that the file names; undefined for degrees. */
  readonly crs: string | undefined;
}

/** A point, or the kind of what is none. */
type FeatureGeometry = { readonly east: number; readonly north: number } | { readonly other: string };

/** Where the points are: degrees, a grid by its EPSG code, or one that nothing names. */
export interface FeaturesOn {
  readonly crs: string | undefined;
  /** Columns of an export of trees that an import takes. */
  readonly own: ReadonlySet<string>;
}

const LATITUDE = 'latitude_deg';
const LONGITUDE = 'longitude_deg';

/** A file with more is no table. */
const MOST_COLUMNS = 1_000;
/** Characters, as of the rows of a CSV. */
const LONGEST_ROW = 1_000_000;

/**
 * The whole table, and what there is to tell of it.
 * Throws TableError.
 */
export function tableOfFeatures(
  features: readonly Feature[],
  { crs, own }: FeaturesOn,
): { readonly table: Table; readonly told: readonly string[] } {
  if (features.length === 0) throw new TableError('It has no features.');
  requireGrid(features, crs);
  const columns = new Map([
    [LATITUDE, 0],
    [LONGITUDE, 1],
  ]);
  for (const { properties } of features)
    for (const name of Object.keys(properties ?? {})) {
      if (!columns.has(nameOf(name))) columns.set(nameOf(name), columns.size);
      if (columns.size > MOST_COLUMNS)
        throw new TableError(
          `Its features have more than ${MOST_COLUMNS} different properties, so it is not a table of trees.`,
        );
    }
  const head = {
    columns: [...columns.keys()],
    rows: [],
    separator: ',',
    above: [],
    rowsAre: 'Feature',
  } as const;
  // Texts as they are, not as a spreadsheet may spell them.
  const spelled = isExport(head) ? inertCell : (text: string) => text;
  const others = new Map<string, number>();
  const rows = features.map(({ properties, geometry }, index): TableRow => {
    const cells = head.columns.map(() => '');
    for (const [name, value] of Object.entries(properties ?? {}))
      cells[columns.get(nameOf(name))!] = cellOf(value, spelled);
    if (geometry && 'other' in geometry) others.set(geometry.other, (others.get(geometry.other) ?? 0) + 1);
    else if (geometry) [cells[0], cells[1]] = degreesOf(geometry, crs);
    if (cells.reduce((sum, { length }) => sum + length, 0) > LONGEST_ROW)
      throw new TableError(`Feature ${index + 1} is longer than ${LONGEST_ROW / 1e6} MB.`);
    return { line: index + 1, cells };
  });
  const told = [...others].map(
    ([kind, count]) =>
      `${count} of ${features.length} features ${count === 1 ? 'has' : 'have'} ${kind} for a geometry, not a point: ${count === 1 ? 'its tree gets' : 'their trees get'} no position.`,
  );
  const table = { ...head, rows };
  return { table: isExport(table) ? only(table, own) : table, told };
}

/** What the program works out itself is no record. */
function only(table: Table, own: ReadonlySet<string>): Table {
  const kept = table.columns.flatMap((name, index) => (own.has(name) ? [index] : []));
  return {
    ...table,
    columns: kept.map(index => table.columns[index]!),
    rows: table.rows.map(({ line, cells }) => ({ line, cells: kept.map(index => cells[index]!) })),
  };
}

/** Throws TableError where it is not known what the coordinates mean. */
function requireGrid(features: readonly Feature[], crs: string | undefined): void {
  if (crs !== undefined && !isDegrees(crs) && !isKnownGrid(crs))
    throw new TableError(
      `Its points are on ${crs}, which is not a known grid: save it in WGS 84 (EPSG:4326).`,
    );
  const points = features.flatMap(({ geometry }) => (geometry && 'east' in geometry ? [geometry] : []));
  if (
    (crs === undefined || isDegrees(crs)) &&
    points.length > 0 &&
    points.every(({ east, north }) => Math.abs(east) > 180 || Math.abs(north) > 90)
  )
    throw new TableError(
      'Its points are not in degrees, and it does not name their grid: pass the EPSG code, such as --crs EPSG:25833.',
    );
}

function degreesOf(
  { east, north }: { readonly east: number; readonly north: number },
  crs: string | undefined,
): [string, string] {
  const grid = crs === undefined || isDegrees(crs) ? undefined : crs;
  const degrees = grid === undefined ? { latitude: north, longitude: east } : degreesOn(grid, [east, north]);
  return degrees ? [String(degrees.latitude), String(degrees.longitude)] : [String(north), String(east)];
}

/** A heading on one line, without halves of characters. */
const nameOf = (name: string): string => wellFormed(name).replace(/\s+/g, ' ').trim() || 'column';

const wellFormed = (text: string): string => text.replace(/\p{Surrogate}/gu, '\uFFFD');

function cellOf(value: unknown, spelled: (text: string) => string): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'string') return spelled(wellFormed(value).trim());
  if (typeof value !== 'object') return String(value);
  try {
    return wellFormed(JSON.stringify(value));
  } catch {
    throw new TableError('A property is nested too deeply.');
  }
}
