/** Photographs of a report in a real browser: they stand as upright as before their record was taken off. */

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { stripMetadata } from '../../server/host/strip-metadata.ts';
import { newPage, openChromium, withoutBrowser } from './chromium.ts';

/** The smallest record that tells an orientation (CIPA DC-008, tag 0x0112). */
const record = (orientation: number): Buffer =>
  Buffer.from(
    `MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0${String.fromCharCode(orientation)}\0\0\0\0\0\0`,
    'latin1',
  );

/** Behind the header, with a sum that is wrong: `barePicture` writes its own. */
const recordedPng = (png: Buffer, orientation: number): Buffer =>
  Buffer.concat([
    png.subarray(0, 33),
    Buffer.from('\0\0\0\x1aeXIf', 'latin1'),
    record(orientation),
    Buffer.alloc(4),
    png.subarray(33),
  ]);

/** The extended form of an opaque picture of 40 by 20 pixels, without its colour profile. */
function recordedWebp(webp: Buffer, orientation: number): Buffer {
  const header = Buffer.from('VP8X\x0a\0\0\0\x08\0\0\0\x27\0\0\x13\0\0', 'latin1');
  const exif = Buffer.concat([Buffer.from('EXIF\x1a\0\0\0', 'latin1'), record(orientation)]);
  const body = Buffer.concat([Buffer.from('WEBP'), header, webp.subarray(webp.indexOf('VP8 ')), exif]);
  const size = Buffer.alloc(4);
  size.writeUInt32LE(body.length);
  return Buffer.concat([Buffer.from('RIFF'), size, body]);
}

/** A white picture with a dark corner where its first row and column meet, grey along the rest of the row. */
async function drawn(page: Page, type: string): Promise<Buffer> {
  const address = await page.evaluate(wanted => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [40, 20];
    const context = canvas.getContext('2d', { alpha: false })!;
    const fill = (style: string, wide: number, high: number) => {
      context.fillStyle = style;
      context.fillRect(0, 0, wide, high);
    };
    fill('white', 40, 20);
    fill('grey', 40, 8);
    fill('black', 8, 8);
    return canvas.toDataURL(wanted);
  }, type);
  return Buffer.from(address.slice(address.indexOf(',') + 1), 'base64');
}

/** Its size as it is seen, and the tone of its corners: dark, grey or light. */
const seen = (page: Page, { type, bytes }: NonNullable<ReturnType<typeof stripMetadata>>) =>
  page.evaluate(
    async address => {
      const picture = new Image();
      picture.src = address;
      await picture.decode();
      const canvas = document.createElement('canvas');
      const [wide, high] = [picture.naturalWidth, picture.naturalHeight];
      [canvas.width, canvas.height] = [wide, high];
      const context = canvas.getContext('2d')!;
      context.drawImage(picture, 0, 0);
      const tone = (x: number, y: number) => {
        const value = context.getImageData(x, y, 1, 1).data[0]!;
        return value < 60 ? 'dark' : value < 200 ? 'grey' : 'light';
      };
      const [right, bottom] = [wide - 4, high - 4];
      return [wide, high, tone(3, 3), tone(right, 3), tone(3, bottom), tone(right, bottom)].join(' ');
    },
    `data:${type};base64,${Buffer.from(bytes).toString('base64')}`,
  );

describe.skipIf(withoutBrowser)('in Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openChromium();
  });
  afterAll(() => browser?.close());

  /** Upper left, upper right, lower left, lower right, by what Exif says of the first row and column. */
  const EXPECTED = {
    1: '40 20 dark grey light light',
    2: '40 20 grey dark light light',
    3: '40 20 light light grey dark',
    4: '40 20 light light dark grey',
    5: '20 40 dark light grey light',
    6: '20 40 light dark light grey',
    7: '20 40 light grey light dark',
    8: '20 40 grey light dark light',
  };

  test.each([
    ['image/png', recordedPng],
    ['image/webp', recordedWebp],
  ] as const)('%s', async (type, recorded) => {
    const page = await newPage(browser);
    const plain = await drawn(page, type);
    const found: Record<string, string> = {};
    for (const orientation of Object.keys(EXPECTED))
      found[orientation] = await seen(page, stripMetadata(recorded(plain, Number(orientation)))!);
    expect(found).toEqual(EXPECTED);
    await page.close();
  });
});
