/** Metadata of pictures in each format, wherever in the file it stands. */

import { expect, test } from 'vitest';
import { readPicture } from '../../server/host/pictures.ts';
import { folderWith } from '../cli/folder.ts';
import { photo, tagsOf } from '../mechanics/exif-file.ts';

const { exif, gps } = tagsOf({
  takenAt: '2026-03-14T10:00:00',
  focalLength35: 0.028,
  latitude: 44.25,
  longitude: -122.5,
});
const jpeg = photo(exif, gps);
/** The record alone, as a TIFF: behind the marker, the length and the name of the segment. */
const tiff = jpeg.subarray(2 + 4 + 6, jpeg.length - 2);
const text = (word: string) => new TextEncoder().encode(word);
const joined = (...parts: readonly Uint8Array[]) => new Uint8Array(Buffer.concat(parts));
const uint32 = (value: number, little = false) => {
  const bytes = new Uint8Array(4);
  new DataView(bytes.buffer).setUint32(0, value, little);
  return bytes;
};
/** More than the first bytes that are read. */
const IMAGE = new Uint8Array(300_001);

const riff = (name: string, data: Uint8Array) =>
  joined(text(name), uint32(data.length, true), data, new Uint8Array(data.length % 2));
const webpOf = (...chunks: readonly Uint8Array[]) => {
  const body = joined(text('WEBP'), ...chunks);
  return joined(text('RIFF'), uint32(body.length, true), body);
};
const extended = riff('VP8X', Uint8Array.of(8, 0, 0, 0, 0x9f, 0x0f, 0, 0xb7, 0x0b, 0));

const chunk = (name: string, data: Uint8Array) => joined(uint32(data.length), text(name), data, uint32(0));
const png = (...chunks: readonly Uint8Array[]) =>
  joined(Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10), ...chunks);
const header = chunk('IHDR', joined(uint32(4000), uint32(3000), Uint8Array.of(8, 2, 0, 0, 0)));

test.each<[string, Uint8Array, boolean]>([
  ['a.jpg', joined(jpeg, IMAGE), false],
  ['a.tif', tiff, false],
  ['a.tiff', joined(tiff, IMAGE), false],
  ['a.webp', webpOf(extended, riff('VP8 ', IMAGE), riff('EXIF', tiff)), true],
  ['b.webp', webpOf(extended, riff('VP8 ', IMAGE), riff('EXIF', joined(text('Exif\0\0'), tiff))), true],
  ['a.png', png(header, chunk('eXIf', tiff), chunk('IDAT', IMAGE), chunk('IEND', new Uint8Array())), true],
])('%s', async (name, bytes, hasSize) => {
  const { file } = await folderWith({ [name]: bytes });
  const found = await readPicture(file(name));
  expect(found.record).toMatchObject({
    takenAt: '2026-03-14T10:00:00',
    focalLength35: 0.028,
    latitude: 44.25,
    longitude: -122.5,
  });
  expect(found.stored).toEqual(hasSize ? { width: 4000, height: 3000 } : undefined);
  expect(found.bytes).toBe(bytes.length);
});

test('damaged and hostile files have no record', async () => {
  const endless = joined(
    text('RIFF'),
    uint32(0xffffffff, true),
    text('WEBP'),
    riff('VP8X', new Uint8Array(0)),
    text('EXIF'),
    uint32(0xffffffff, true),
    IMAGE,
  );
  const files = {
    'endless.webp': endless,
    'zero.webp': webpOf(...Array.from({ length: 500 }, () => riff('ZERO', new Uint8Array(0)))),
    'long.jpg': joined(Uint8Array.of(0xff, 0xd8), IMAGE.fill(0xff)),
    'empty.heic': new Uint8Array(0),
    'box.heic': joined(
      uint32(24),
      text('ftypheic'),
      uint32(0),
      text('mif1heic'),
      uint32(0xffffffff),
      text('meta'),
      IMAGE,
    ),
    'loop.tif': Uint8Array.of(
      0x4d,
      0x4d,
      0,
      42,
      0,
      0,
      0,
      8,
      0,
      1,
      0x87,
      0x69,
      0,
      4,
      0,
      0,
      0,
      1,
      0,
      0,
      0,
      8,
      0,
      0,
      0,
      8,
    ),
  };
  const { file } = await folderWith(files);
  for (const name of Object.keys(files)) {
    const { record } = await readPicture(file(name));
    expect(record?.latitude).toBeUndefined();
  }
  await expect(readPicture(file('.git'))).rejects.toThrow();
});
