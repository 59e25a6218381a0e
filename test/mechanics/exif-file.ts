/** Writes the record that a camera puts into the file of a photograph. */

import type { PhotoRecord } from '../../server/mechanics/exif.ts';

/** Types of the TIFF format: byte, text, short, long, rational. */
type Value =
  | { readonly byte: number }
  | { readonly text: string }
  | { readonly short: number }
  | { readonly long: number }
  | { readonly rationals: readonly (readonly [number, number])[] };
export type Directory = readonly (readonly [tag: number, value: Value])[];

const bytesOf = (size: number, fill: (view: DataView) => void): Uint8Array => {
  const bytes = new Uint8Array(size);
  fill(new DataView(bytes.buffer));
  return bytes;
};

function encoded(value: Value): { type: number; count: number; bytes: Uint8Array } {
  if ('byte' in value) return { type: 1, count: 1, bytes: Uint8Array.of(value.byte) };
  if ('text' in value) {
    const bytes = new TextEncoder().encode(`${value.text}\0`);
    return { type: 2, count: bytes.length, bytes };
  }
  if ('short' in value) return { type: 3, count: 1, bytes: bytesOf(2, v => v.setUint16(0, value.short)) };
  if ('long' in value) return { type: 4, count: 1, bytes: bytesOf(4, v => v.setUint32(0, value.long)) };
  const pairs = value.rationals.flat();
  return {
    type: 5,
    count: value.rationals.length,
    bytes: bytesOf(4 * pairs.length, v => {
      for (const [i, n] of pairs.entries()) v.setUint32(4 * i, n);
    }),
  };
}

/** One directory of tags at `offset` of a big-endian TIFF, its long values behind it. */
function directory(entries: Directory, offset: number): Uint8Array {
  const size = 2 + 12 * entries.length + 4;
  const values = entries.map(([, value]) => encoded(value));
  const long = values.filter(({ bytes }) => bytes.length > 4);
  const bytes = new Uint8Array(size + long.reduce((sum, { bytes }) => sum + bytes.length, 0));
  const view = new DataView(bytes.buffer);
  view.setUint16(0, entries.length);
  let free = size;
  for (const [i, [tag]] of entries.entries()) {
    const at = 2 + 12 * i;
    const { type, count, bytes: value } = values[i]!;
    view.setUint16(at, tag);
    view.setUint16(at + 2, type);
    view.setUint32(at + 4, count);
    if (value.length <= 4) {
      bytes.set(value, at + 8);
      continue;
    }
    view.setUint32(at + 8, offset + free);
    bytes.set(value, free);
    free += value.length;
  }
  return bytes;
}

/** The Exif segment of a JPEG, with its marker. */
function exifSegment(exif: Directory, gps: Directory = []): Uint8Array {
  const header = Uint8Array.of(0x4d, 0x4d, 0, 42, 0, 0, 0, 8);
  const pointers = (exifAt: number, gpsAt: number): Directory => [
    [0x8769, { long: exifAt }],
    [0x8825, { long: gpsAt }],
  ];
  const exifAt = header.length + directory(pointers(0, 0), 8).length;
  const exifBytes = directory(exif, exifAt);
  const gpsAt = exifAt + exifBytes.length;
  const tiff = [...header, ...directory(pointers(exifAt, gpsAt), 8), ...exifBytes, ...directory(gps, gpsAt)];
  const segment = [...new TextEncoder().encode('Exif\0\0'), ...tiff];
  const length = segment.length + 2;
  return Uint8Array.of(0xff, 0xe1, length >> 8, length & 255, ...segment);
}

/** A JPEG that holds nothing but its Exif segment. */
export const photo = (exif: Directory, gps: Directory = []): Uint8Array =>
  Uint8Array.of(0xff, 0xd8, ...exifSegment(exif, gps), 0xff, 0xd9);

/** The tags that say the same as a record. */
export function tagsOf(record: PhotoRecord): { readonly exif: Directory; readonly gps: Directory } {
  const { takenAt, imageWidth, imageHeight, focalLength35, latitude, longitude, facing, positionError } =
    record;
  const exif: [number, Value][] = [];
  if (takenAt !== undefined) exif.push([0x9003, { text: takenAt.replaceAll('-', ':').replace('T', ' ') }]);
  if (imageWidth !== undefined) exif.push([0xa002, { long: imageWidth }]);
  if (imageHeight !== undefined) exif.push([0xa003, { long: imageHeight }]);
  if (focalLength35 !== undefined) exif.push([0xa405, { short: Math.round(focalLength35 * 1000) }]);
  const place: Directory =
    latitude === undefined || longitude === undefined
      ? []
      : [
          [1, { text: latitude < 0 ? 'S' : 'N' }],
          [2, { rationals: sexagesimal(latitude) }],
          [3, { text: longitude < 0 ? 'W' : 'E' }],
          [4, { rationals: sexagesimal(longitude) }],
        ];
  const looks: Directory =
    facing === undefined
      ? []
      : [
          [0x10, { text: 'T' }],
          [0x11, { rationals: [[Math.round(facing * 100), 100]] }],
        ];
  const error: Directory =
    positionError === undefined ? [] : [[0x1f, { rationals: [[Math.round(positionError * 100), 100]] }]];
  return { exif, gps: [...place, ...looks, ...error] };
}

/** Degrees, minutes and seconds to a thousandth. */
function sexagesimal(degrees: number): readonly (readonly [number, number])[] {
  const thousandths = Math.round(Math.abs(degrees) * 3600 * 1000);
  const minutes = Math.floor(thousandths / 60_000);
  return [
    [Math.floor(minutes / 60), 1],
    [minutes % 60, 1],
    [thousandths % 60_000, 1000],
  ];
}
