import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import exifr from 'exifr';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { stripMetadata } from '../../server/host/strip-metadata.ts';
import { folderWith } from '../cli/folder.ts';
import { photo } from '../mechanics/exif-file.ts';

const folder = new URL('../../samples/fernhollow/photos/', import.meta.url);
const samples = readdirSync(folder).filter(name => name.endsWith('.jpg'));
const sample = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)));
const text = (...parts: readonly (string | number)[]) =>
  Uint8Array.from(
    parts.flatMap(part => (typeof part === 'number' ? [part] : [...part].map(c => c.charCodeAt(0)))),
  );
const holds = (bytes: Uint8Array, words: string) => Buffer.from(bytes).includes(words);

/** A JPEG segment. */
const segment = (marker: number, body: Uint8Array) =>
  Uint8Array.of(0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 255, ...body);
/** The segments put behind the first two bytes of a picture, and what follows its end. */
const dressed = (picture: Uint8Array, segments: readonly Uint8Array[], behind = '') =>
  Uint8Array.from([
    ...picture.subarray(0, 2),
    ...segments.flatMap(s => [...s]),
    ...picture.subarray(2),
    ...text(behind),
  ]);

/** All that an independent reader finds. */
const told = (bytes: Uint8Array) =>
  exifr.parse(Buffer.from(bytes), {
    tiff: true,
    exif: true,
    gps: true,
    xmp: true,
    iptc: true,
    makerNote: true,
    userComment: true,
    translateValues: false,
  } as never);

test('photographs of the samples say when and where they were taken; in a report they do not', async () => {
  expect(samples.length).toBeGreaterThan(4);
  let placed = 0;
  for (const name of samples) {
    const bytes = sample(name);
    if ((await told(bytes))?.latitude !== undefined) placed++;
    const bare = stripMetadata(bytes)!;
    expect(bare.type).toBe('image/jpeg');
    expect(await told(bare.bytes)).toBeUndefined();
    // The picture itself is as it was: all from its tables to its end.
    const tables = Buffer.from(bytes).indexOf(Buffer.of(0xff, 0xdb));
    expect(Buffer.from(bare.bytes).includes(Buffer.from(bytes.subarray(tables)))).toBe(true);
  }
  expect(placed).toBeGreaterThan(0);
});

test('comments, editors’ records, thumbnails, further pictures and films behind the end go; colours and turning stay', async () => {
  const profile = segment(0xe2, text('ICC_PROFILE\0', 1, 1, 'colours'));
  const turned = Uint8Array.of(
    0xff,
    0xe1,
    0,
    34,
    ...text('Exif\0\0II*\0', 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0, 0),
  );
  const bytes = dressed(
    stripMetadata(sample(samples[0]!))!.bytes,
    [
      turned,
      segment(0xe1, text('http://ns.adobe.com/xap/1.0/\0<x:owner>Ruth Varga</x:owner>')),
      segment(0xed, text('Photoshop 3.0\0Ruth Varga')),
      segment(0xfe, text('taken by Ruth Varga')),
      segment(0xe0, text('JFXX\0', 16, 'Ruth Varga')),
      segment(0xe2, text('MPF\0Ruth Varga')),
      profile,
    ],
    'ftypmp42 Ruth Varga',
  );
  const bare = stripMetadata(bytes)!.bytes;
  expect(holds(bytes, 'Ruth Varga')).toBe(true);
  expect(holds(bare, 'Ruth Varga')).toBe(false);
  expect(holds(bare, 'colours')).toBe(true);
  expect(await exifr.parse(Buffer.from(bare), { translateValues: false } as never)).toEqual({
    Orientation: 6,
  });
});

test('PNG and WebP keep what makes the picture', () => {
  const chunk = (name: string, body: string) => text(0, 0, 0, body.length, name, body, 0, 0, 0, 0);
  const png = (...chunks: Uint8Array[]) =>
    Uint8Array.from([...text('\x89PNG\r\n\x1a\n'), ...chunks.flatMap(c => [...c])]);
  const [head, data, end] = [chunk('IHDR', 'head'), chunk('IDAT', 'data'), chunk('IEND', '')];
  const full = png(
    head,
    chunk('tEXt', 'Author Ruth Varga'),
    chunk('eXIf', 'MM'),
    chunk('tRNS', '0'),
    data,
    end,
  );
  expect(stripMetadata(Uint8Array.from([...full, ...text('Ruth Varga')]))).toEqual({
    type: 'image/png',
    bytes: png(head, chunk('tRNS', '0'), data, end),
  });
  const part = (name: string, body: string) =>
    text(name, body.length, 0, 0, 0, body, ...(body.length % 2 === 1 ? [0] : []));
  const webp = (...parts: Uint8Array[]) => {
    const body = parts.flatMap(p => [...p]);
    return Uint8Array.from([...text('RIFF', body.length + 4, 0, 0, 0, 'WEBP'), ...body]);
  };
  expect(
    stripMetadata(
      webp(part('VP8X', '\x2c123456789'), part('VP8 ', 'pic'), part('EXIF', 'Ruth'), part('XMP ', 'Ruth')),
    ),
  ).toEqual({ type: 'image/webp', bytes: webp(part('VP8X', '\x20123456789'), part('VP8 ', 'pic')) });
});

/** A record as a camera writes it: turned to the right, and who owns the camera. */
const RECORD = text(
  ...['MM\0*', 0, 0, 0, 8, 0, 2, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0],
  ...[0xa4, 0x30, 0, 2, 0, 0, 0, 11, 0, 0, 0, 38, 0, 0, 0, 0, 'Ruth Varga\0'],
);

test('PNG and WebP stay turned as they were, and lose the rest of the record', async () => {
  const sized = (name: string, body: Uint8Array) => [...text(0, 0, 0, body.length, name), ...body];
  const png = Uint8Array.from([
    ...text('\x89PNG\r\n\x1a\n'),
    ...[...sized('IHDR', text('head')), 0, 0, 0, 0],
    ...[...sized('eXIf', RECORD), 0, 0, 0, 0],
    ...[...sized('IEND', text('')), 0, 0, 0, 0],
  ]);
  const bare = Buffer.from(stripMetadata(png)!.bytes);
  expect(holds(bare, 'Ruth Varga')).toBe(false);
  const at = bare.indexOf('eXIf');
  const record = bare.subarray(at + 4, at + 30);
  expect(await exifr.parse(record, { translateValues: false } as never)).toEqual({ Orientation: 6 });
  // The sum of a chunk holds, by another's reckoning: that of gzip, which ends with it.
  const zipped = gzipSync(bare.subarray(at, at + 30));
  expect(bare.readUInt32BE(at + 30)).toBe(zipped.readUInt32LE(zipped.length - 8));

  const webp = (prefix: string) => {
    const body = [
      ...text('VP8X', 10, 0, 0, 0, 0x2c, '___456789', 'VP8 ', 4, 0, 0, 0, 'pict'),
      ...text('EXIF', RECORD.length + prefix.length, 0, 0, 0, prefix),
      ...RECORD,
      ...((RECORD.length + prefix.length) % 2 === 1 ? [0] : []),
    ];
    return Uint8Array.from([...text('RIFF', body.length + 4, 0, 0, 0, 'WEBP'), ...body]);
  };
  for (const prefix of ['', 'Exif\0\0']) {
    const { type, bytes } = stripMetadata(webp(prefix))!;
    expect(type).toBe('image/svg+xml');
    const [, wide, high, inside] = /<svg [^>]*width="(\d+)" height="(\d+)"><image .*base64,([^"]+)"/.exec(
      Buffer.from(bytes).toString(),
    )!;
    // The header says one less, in three bytes each from the lowest on: `456` and `789`.
    expect([Number(wide), Number(high)]).toEqual([0x39_38_37 + 1, 0x36_35_34 + 1]);
    const shown = Buffer.from(inside!, 'base64');
    expect(holds(shown, 'Ruth Varga')).toBe(false);
    expect(shown[20]).toBe(0x20);
  }
});

test('a damaged picture is none, and no bytes whatever make it fail or keep a record', async () => {
  const whole = sample(samples[0]!);
  expect(stripMetadata(whole.subarray(0, 40))).toBeUndefined();
  expect(stripMetadata(text('tree 14'))).toBeUndefined();
  // Broken off in the middle of its data it is shown as far as it goes.
  expect(stripMetadata(whole.subarray(0, whole.length - 200))?.type).toBe('image/jpeg');
  await fc.assert(
    fc.asyncProperty(
      fc.nat(whole.length - 1),
      fc.uint8Array({ minLength: 1, maxLength: 4 }),
      async (at, change) => {
        const bytes = Uint8Array.from(whole);
        bytes.set(change.subarray(0, bytes.length - at), at);
        const bare = stripMetadata(bytes);
        if (bare)
          expect(Object.keys((await told(bare.bytes).catch(() => undefined)) ?? {})).not.toContain(
            'latitude',
          );
      },
    ),
    { numRuns: 300 },
  );
});

test('a report does not say where its photographs were taken', async () => {
  const [name] = samples;
  const bytes = sample(name!);
  const inventory = await folderWith({
    'a.wood': `tree 1\n  photo ${name}\n  photo p.jpg\n  prescription R1 thin\n    dose 10 %\n`,
    [name!]: bytes,
    'p.jpg': photo([[0x9003, { text: '2026:05:30 09:15:07' }]]),
  });
  const { out } = await inventory.run('report', '--for', 'client');
  const [, base64] = /data:image\/jpeg;base64,([^"]+)/.exec(out)!;
  expect(await told(Buffer.from(base64!, 'base64'))).toBeUndefined();
  // A record without a picture.
  expect(out).toContain('p.jpg is not a JPEG, PNG or WebP picture');
});
