import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPhotoRecord } from '../../server/mechanics/exif.ts';
import { type Directory, photo } from './exif-file.ts';

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

  it('gives the zone of the clock, the time of the satellites, the error of the receiver and the direction of view', async () => {
    const zone: Directory = [...EXIF.slice(0, 1), [0x9011, { text: '-07:00' }]];
    const gps: Directory = [
      ...place(0).slice(0, 4),
      [
        7,
        {
          rationals: [
            [16, 1],
            [15, 1],
            [7, 1],
          ],
        },
      ],
      [0x10, { text: 'M' }],
      [0x11, { rationals: [[2903, 10]] }],
      [0x1d, { text: '2026:05:30' }],
      [0x1f, { rationals: [[47, 10]] }],
    ];
    expect(await readPhotoRecord(photo(zone, gps))).toEqual({
      latitude: 40.51,
      longitude: -74.25,
      takenAt: '2026-05-30T09:15:07',
      clockOffset: -420,
      satelliteTime: '2026-05-30T16:15:07',
      positionError: 4.7,
      facing: 290.3,
      facingFrom: 'magnetic north',
    });
  });

  it('knows no direction, error or time that cannot be', async () => {
    const gps: Directory = [
      [
        7,
        {
          rationals: [
            [25, 1],
            [15, 0],
            [7, 1],
          ],
        },
      ],
      [0x11, { rationals: [[4000, 10]] }],
      [0x1d, { text: '2026:13:40' }],
      [0x1f, { rationals: [[1, 0]] }],
    ];
    expect(await readPhotoRecord(photo([[0x9011, { text: '+99:00' }], ...EXIF], gps))).toEqual({
      imageWidth: 5280,
      imageHeight: 3956,
      focalLength35: 0.024,
      takenAt: '2026-05-30T09:15:07',
    });
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
