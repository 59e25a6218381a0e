/** Position of a tree: latitude and longitude in two columns, or both in one. */

import { factPart, leave, type PartReader, type Refused, type TableColumn, textOf } from './draft.ts';
import { fieldStart } from './notation.ts';

/** Well-known text: longitude first (OGC Simple Features Access, 06-103r4, 7.2). */
const WELL_KNOWN_TEXT = /^POINT(?: ?Z)? ?\(\s*(\S+)\s+(\S+?)(?:\s+\S+)?\s*\)$/i;

/** Coordinates have no thousands separator: a comma is a decimal comma. */
const degreesOf = (text: string): number => (text === '' ? Number.NaN : Number(text.replace(',', '.')));

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
  const north = degreesOf(latitude);
  const east = degreesOf(longitude);
  if (!Number.isFinite(north) || !Number.isFinite(east))
    return { refused: 'a position is latitude and longitude in decimal degrees' };
  if (north === 0 && east === 0) return { refused: '0, 0 stands for a position that is not known' };
  if (Math.abs(north) > 90 || Math.abs(east) > 180)
    return { refused: 'no place on earth has this latitude or longitude' };
  return `${START}${inDecimals(latitude, north)}, ${inDecimals(longitude, east)}`;
}

export function halvesPart(
  latitude: TableColumn | undefined,
  longitude: TableColumn | undefined,
): PartReader {
  const columns = [latitude, longitude].filter(column => column !== undefined);
  return (cells, draft) => {
    const north = textOf(cells, latitude);
    const east = textOf(cells, longitude);
    if (north !== '' || east !== '') {
      const line = positionLine(north, east);
      if (typeof line === 'string') draft.facts += `${line}\n`;
      else
        for (const column of columns) {
          const cell = textOf(cells, column);
          if (cell !== '') leave(draft, column, cell, line.refused);
        }
    }
    if (latitude && north === '') draft.empty.push(latitude.name);
    if (longitude && east === '') draft.empty.push(longitude.name);
  };
}

/** A cell with both latitude and longitude. */
export const positionPart = (column: TableColumn): PartReader =>
  factPart(column, cell => positionLine(...halvesOf(cell)));

function halvesOf(cell: string): readonly [string, string] {
  const point = WELL_KNOWN_TEXT.exec(cell);
  if (point) return [point[2]!, point[1]!];
  const [north = '', east = '', ...more] = cell
    .replace(/[()]/g, '')
    .trim()
    .split(/\s*[,;]\s*|\s+/);
  return more.length > 0 ? ['', ''] : [north, east];
}
