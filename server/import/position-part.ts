/** Position of a tree: latitude and longitude in two columns, both in one, or two numbers of a grid. */

import { factPart, leave, type PartReader, type Refused, type TableColumn, textOf } from './draft.ts';
import { degreesOn, isDegrees, isKnownGrid } from './grid.ts';
import { fieldStart } from './notation.ts';
import { readPoint } from './point.ts';

/** Coordinates have no thousands separator: a comma is a decimal comma. */
const numberIn = (text: string): number => (text === '' ? Number.NaN : Number(text.replace(',', '.')));

const START = fieldStart('position');

/** A number that is already in canonical format. */
const PRINTED = /^-?(?:[1-9]\d{0,2}|0(?=\.))(?:\.\d{0,12}[1-9])?$/;

/** Degrees without an exponent, which the notation does not allow; below 1e-8 they become 0. */
function inDecimals(text: string, degrees: number): string {
  const written = text.replace(',', '.');
  if (PRINTED.test(written)) return written;
  const shown = String(degrees);
  return shown.includes('e') ? degrees.toFixed(8) : shown;
}

/** The position line, or why the values are not a position. */
function positionLine(latitude: string, longitude: string): string | Refused {
  const north = numberIn(latitude);
  const east = numberIn(longitude);
  if (!Number.isFinite(north) || !Number.isFinite(east))
    return { refused: 'a position must be latitude and longitude in decimal degrees' };
  if (north === 0 && east === 0) return { refused: '0, 0 stands for an unknown position' };
  if (Math.abs(north) > 90 || Math.abs(east) > 180)
    return { refused: 'this latitude or longitude does not exist' };
  return `${START}${inDecimals(latitude, north)}, ${inDecimals(longitude, east)}`;
}

function lineOnGrid(crs: string, first: string, second: string): string | Refused {
  const point = [numberIn(first), numberIn(second)] as const;
  if (!point.every(Number.isFinite)) return { refused: 'it is not a pair of grid coordinates' };
  if (point.every(value => value === 0)) return { refused: '0, 0 stands for an unknown position' };
  if (!isKnownGrid(crs)) return { refused: `${crs} is not a known grid` };
  const degrees = degreesOn(crs, point);
  return degrees
    ? positionLine(String(degrees.latitude), String(degrees.longitude))
    : { refused: `it is not on the grid ${crs}` };
}

type LineOf = (first: string, second: string) => string | Refused;

function pairPart(
  first: TableColumn | undefined,
  second: TableColumn | undefined,
  lineOf: LineOf,
): PartReader {
  const columns = [first, second].filter(column => column !== undefined);
  return (cells, draft) => {
    const [one, other] = [textOf(cells, first), textOf(cells, second)];
    if (one !== '' || other !== '') {
      const line = lineOf(one, other);
      if (typeof line === 'string') draft.facts += `${line}\n`;
      else
        for (const column of columns) {
          const cell = textOf(cells, column);
          if (cell !== '') leave(draft, column, cell, line.refused);
        }
    }
    for (const column of columns) if (textOf(cells, column) === '') draft.empty.push(column.name);
  };
}

export const halvesPart = (
  latitude: TableColumn | undefined,
  longitude: TableColumn | undefined,
): PartReader => pairPart(latitude, longitude, positionLine);

export const gridPart = (easting: TableColumn | undefined, northing: TableColumn | undefined): PartReader => {
  const crs = easting?.meaning.crs ?? northing?.meaning.crs;
  return pairPart(easting, northing, (first, second) =>
    crs === undefined ? { refused: 'the grid is unknown' } : lineOnGrid(crs, first, second),
  );
};

/** A cell with both halves. */
export const positionPart = (column: TableColumn): PartReader =>
  factPart(column, cell => {
    const point = readPoint(cell);
    if (!point) return positionLine('', '');
    const { first, second } = point;
    const crs = point.crs ?? column.meaning.crs;
    if (crs !== undefined && !isDegrees(crs)) return lineOnGrid(crs, first, second);
    const order = point.order ?? column.meaning.order ?? 'latitude-first';
    return order === 'latitude-first' ? positionLine(first, second) : positionLine(second, first);
  });
