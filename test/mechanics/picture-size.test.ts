import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { asShown, pictureSize } from '../../server/mechanics/picture-size.ts';

const sample = (name: string) => new Uint8Array(readFileSync(`samples/fernhollow/photos/${name}`));
const webp = (...bytes: readonly number[]) =>
  Uint8Array.of(...Buffer.from('RIFF\0\0\0\0WEBP'), ...bytes, ...new Array(8).fill(0));

test('of each format', () => {
  expect(pictureSize(sample('15-a.jpg'))).toEqual({ width: 160, height: 120 });
  expect(pictureSize(sample('20-tomogram.png'))).toEqual({ width: 260, height: 320 });
  const extended = webp(...Buffer.from('VP8X'), 10, 0, 0, 0, 0, 0, 0, 0, 0x9f, 0x0f, 0, 0xb7, 0x0b, 0);
  expect(pictureSize(extended)).toEqual({ width: 4000, height: 3000 });
  const lossless = webp(...Buffer.from('VP8L'), 9, 0, 0, 0, 0x2f, 0x9f, 0xcf, 0xed, 0x02);
  expect(pictureSize(lossless)).toEqual({ width: 4000, height: 3000 });
  expect(pictureSize(new TextEncoder().encode('tree 14'))).toBeUndefined();
});

test('a quarter turn exchanges the sides', () => {
  expect(asShown({ width: 4000, height: 3000 }, 6)).toEqual({ width: 3000, height: 4000 });
  expect(asShown({ width: 4000, height: 3000 }, 3)).toEqual({ width: 4000, height: 3000 });
});

test('never throws for a damaged file', () => {
  const whole = [sample('15-a.jpg'), sample('20-tomogram.png'), webp(...Buffer.from('VP8X'))];
  fc.assert(
    fc.property(
      fc.constantFrom(...whole),
      fc.nat(300),
      fc.nat(300),
      fc.nat(255),
      (file, length, at, value) => {
        const bytes = file.slice(0, length);
        if (at < bytes.length) bytes[at] = value;
        const size = pictureSize(bytes);
        if (size) expect(size.width > 0 && size.height > 0).toBe(true);
      },
    ),
    { numRuns: 300 },
  );
});
