/** A point as tables write it: well-known text, its binary form, GeoJSON, or two numbers. */

import { gridIn } from './grid.ts';
import type { PointOrder } from './meanings.ts';

export interface PointRead {
  /** As written, with a decimal point. */
  readonly first: string;
  readonly second: string;
  /** Where the form of writing says it. */
  readonly order?: PointOrder;
  /** Where the cell names it. */
  readonly crs?: string;
}

/** Well-known text: longitude first (OGC Simple Features Access, 06-103r4, 7.2). */
const WELL_KNOWN_TEXT = /POINT(?: ?Z?M?)? ?\(\s*([-\d.e]+)\s+([-\d.e]+?)(?:\s+[-\d.e]+)*\s*\)$/i;
const GEOJSON = /"coordinates"\s*:\s*\[\s*([-\d.e]+)\s*,\s*([-\d.e]+)/i;
/** A point in well-known binary as hexadecimal digits: byte order, type, SRID if the type says so, two doubles. */
const BINARY = /^(0[01])([\dA-F]{8})([\dA-F]{8})?([\dA-F]{32})(?:[\dA-F]{16})?$/i;
const HAS_SRID = 0x20000000;

function readBinary(cell: string): PointRead | undefined {
  if (!BINARY.test(cell)) return undefined;
  const bytes = Uint8Array.from(cell.match(/../g)!, pair => Number.parseInt(pair, 16));
  const view = new DataView(bytes.buffer);
  const little = bytes[0] === 1;
  const type = view.getUint32(1, little);
  const srid = type & HAS_SRID ? view.getUint32(5, little) : undefined;
  const at = srid === undefined ? 5 : 9;
  if ((type & 0xff) !== 1 || bytes.length < at + 16) return undefined;
  return {
    first: String(view.getFloat64(at, little)),
    second: String(view.getFloat64(at + 8, little)),
    order: 'longitude-first',
    ...(srid === undefined ? {} : { crs: `EPSG:${srid}` }),
  };
}

const NUMBER = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i;

/** Coordinates have no thousands separator: a comma within a number is a decimal comma. */
export function readPoint(cell: string): PointRead | undefined {
  const binary = readBinary(cell);
  if (binary) return binary;
  const written = WELL_KNOWN_TEXT.exec(cell) ?? GEOJSON.exec(cell);
  if (written) {
    const crs = gridIn(cell);
    return { first: written[1]!, second: written[2]!, order: 'longitude-first', ...(crs ? { crs } : {}) };
  }
  // An address may stand before the point.
  const bare = (/\(([^()]*)\)\s*$/.exec(cell)?.[1] ?? cell).replace(/[()[\]]/g, '').trim();
  const parts = /^\S+,\d+\s*[;\s]\s*\S+,\d+$/.test(bare)
    ? bare.split(/\s*;\s*|\s+/).map(part => part.replace(',', '.'))
    : bare.split(/\s*[,;]\s*|\s+/);
  const [first, second, ...more] = parts;
  if (first === undefined || second === undefined || more.length > 0) return undefined;
  return NUMBER.test(first) && NUMBER.test(second) ? { first, second } : undefined;
}
