import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPhotoRecord } from '../../server/mechanics/exif.ts';

/** Types of the TIFF format: byte, text, short, long, rational. */
type Value =
  | { readonly byte: number }
  | { readonly text: string }
  | { readonly short: number }
  | { readonly long: number }
  | { readonly rationals: readonly (readonly [number, number])[] };
type Directory = readonly (readonly [tag: number, value: Value])[];

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

/** A JPEG that holds nothing but its Exif segment. */
function photo(exif: Directory, gps: Directory = []): Uint8Array {
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
  return Uint8Array.of(0xff, 0xd8, 0xff, 0xe1, length >> 8, length & 255, ...segment, 0xff, 0xd9);
}

const EXIF: Directory = [
  [0x9003, { text: '2026:05:30 09:15:07' }],
  [0xa002, { long: 5280 }],
  [0xa003, { long: 3956 }],
  [0xa405, { short: 24 }],
];
const place = (altitudeReference: number): Directory => [
  [1, { text: 'N' }],
  [
    2,
    {
      rationals: [
        [40, 1],
        [30, 1],
        [36, 1],
      ],
    },
  ],
  [3, { text: 'W' }],
  [
    4,
    {
      rationals: [
        [74, 1],
        [15, 1],
        [0, 1],
      ],
    },
  ],
  [5, { byte: altitudeReference }],
  [6, { rationals: [[1234, 10]] }],
];

describe('a photograph’s own record', () => {
  it('gives width, lens, place and local time', async () => {
    expect(await readPhotoRecord(photo(EXIF, place(0)))).toEqual({
      imageWidth: 5280,
      imageHeight: 3956,
      focalLength35: 0.024,
      latitude: 40.51,
      longitude: -74.25,
      altitude: 123.4,
      takenAt: '2026-05-30T09:15:07',
    });
  });

  it('knows an altitude below sea level', async () => {
    expect((await readPhotoRecord(photo(EXIF, place(1))))?.altitude).toBe(-123.4);
  });

  it('leaves out what the file does not say or the camera never set', async () => {
    const unset = photo([
      [0x9003, { text: '0000:00:00 00:00:00' }],
      [0xa002, { long: 4000 }],
      [0xa405, { short: 0 }],
    ]);
    expect(await readPhotoRecord(unset)).toEqual({ imageWidth: 4000 });
    const noDay = photo([
      [0x9003, { text: '2026:02:30 09:15:07' }],
      [0xa002, { long: 4000 }],
    ]);
    expect(await readPhotoRecord(noDay)).toEqual({ imageWidth: 4000 });
  });

  it('is undefined for what is no photograph', async () => {
    const nothing = [
      new Uint8Array(0),
      Uint8Array.of(0xff, 0xd8),
      new TextEncoder().encode('tree 14 "London plane"'),
      new TextEncoder().encode('photos/14-north.jpg'),
    ];
    for (const bytes of nothing) expect(await readPhotoRecord(bytes)).toBeUndefined();
  });

  it('never throws for a damaged file', async () => {
    const whole = photo(EXIF, place(0));
    const damage = fc.record({
      length: fc.integer({ min: 0, max: whole.length }),
      changes: fc.array(
        fc.tuple(fc.integer({ min: 0, max: whole.length - 1 }), fc.integer({ min: 0, max: 255 })),
        { maxLength: 8 },
      ),
    });
    await fc.assert(
      fc.asyncProperty(damage, async ({ length, changes }) => {
        const bytes = whole.slice();
        for (const [at, value] of changes) bytes[at] = value;
        const record = await readPhotoRecord(bytes.subarray(0, length));
        for (const value of Object.values(record ?? {}))
          expect(typeof value === 'string' || Number.isFinite(value)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
