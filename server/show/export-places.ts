/** Trees and work as places, for the phones and receivers of crews: KML 2.2 (OGC 07-147r2) and GPX 1.1. */

import { formatDate } from '../base/dates.ts';
import { escapeXml } from './junit.ts';
import type { RowForm } from './row-form.ts';
import { IN_GEOMETRY, positionOf, type Table } from './tables.ts';
import { type Column, degrees } from './tree-table.ts';

const HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n';

/** What a receiver shows below the name of a place: it has no columns. */
const TOLD: ReadonlySet<string> = new Set([
  ...['name', 'species', 'next_work', 'next_work_from', 'next_work_to', 'due_day', 'due_for'],
  ...['worst_finding_message', 'risk', 'from', 'to', 'crew', 'because', 'date', 'by', 'notes'],
]);

function cellsOf<Row>(columns: readonly Column<Row>[], row: Row): readonly (readonly [string, string])[] {
  return columns.flatMap(({ name, type, of }) => {
    const value = of(row);
    if (value === undefined) return [];
    return [[name, type === 'day' ? formatDate(value as number) : String(value)] as const];
  });
}

const described = (cells: readonly (readonly [string, string])[]): string =>
  cells
    .filter(([name]) => TOLD.has(name))
    .map(([name, value]) => `${name.replaceAll('_', ' ')}: ${value}`)
    .join('\n');

/** Rows without a position are left out: a place has one. */
export function kmlForm<Row>({ columns, treeOf, title }: Table<Row>): RowForm<Row> {
  const shown = columns.filter(({ name }) => !IN_GEOMETRY.has(name));
  return {
    head: `${HEAD}<kml xmlns="http://www.opengis.net/kml/2.2">\n<Document>\n`,
    row(row) {
      const position = positionOf(treeOf(row));
      if (!position) return '';
      const cells = cellsOf(shown, row);
      const data = cells.map(
        // A place has a name of its own.
        ([name, value]) =>
          `<Data name="${escapeXml(name === 'name' ? 'tree_name' : name)}"><value>${escapeXml(value)}</value></Data>`,
      );
      return `<Placemark><name>${escapeXml(title(row))}</name><description>${escapeXml(described(cells))}</description><ExtendedData>${data.join('')}</ExtendedData><Point><coordinates>${degrees(position.longitude)},${degrees(position.latitude)}</coordinates></Point></Placemark>\n`;
    },
    between: '',
    end: '</Document>\n</kml>\n',
  };
}

/** Rows without a position are left out: a waypoint has one. */
export function gpxForm<Row>({ columns, treeOf, title }: Table<Row>): RowForm<Row> {
  return {
    head: `${HEAD}<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="Soundwood">\n`,
    row(row) {
      const position = positionOf(treeOf(row));
      if (!position) return '';
      const description = described(cellsOf(columns, row));
      return `<wpt lat="${degrees(position.latitude)}" lon="${degrees(position.longitude)}"><name>${escapeXml(title(row))}</name><desc>${escapeXml(description)}</desc></wpt>\n`;
    },
    between: '',
    end: '</gpx>\n',
  };
}
