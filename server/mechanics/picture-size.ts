/** Width and height of a picture as its pixels are stored, from the first bytes of its file. */

import type { PictureSize } from './measure.ts';

const textAt = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));

/** Undefined if it is no JPEG, PNG or WebP, or damaged. Never throws. */
export function pictureSize(bytes: Uint8Array): PictureSize | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    const size = sizeIn(bytes, view);
    return size && size.width > 0 && size.height > 0 ? size : undefined;
  } catch (error) {
    // Read beyond the end.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

function sizeIn(bytes: Uint8Array, view: DataView): PictureSize | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return sizeOfJpeg(view);
  if (textAt(bytes, 0, 8) === '\x89PNG\r\n\x1a\n')
    return { width: view.getUint32(16), height: view.getUint32(20) };
  if (textAt(bytes, 0, 4) === 'RIFF' && textAt(bytes, 8, 4) === 'WEBP')
    return sizeOfWebp(view, textAt(bytes, 12, 4));
  return undefined;
}

/** Frame headers of ISO/IEC 10918-1, table B.1: C0 to CF without the tables C4, C8 and CC. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

function sizeOfJpeg(view: DataView): PictureSize | undefined {
  for (let at = 2; view.getUint8(at) === 0xff; ) {
    const marker = view.getUint8(at + 1);
    if (isFrame(marker)) return { width: view.getUint16(at + 7), height: view.getUint16(at + 5) };
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return undefined;
}

/** RFC 9649. */
function sizeOfWebp(view: DataView, chunk: string): PictureSize | undefined {
  switch (chunk) {
    case 'VP8X': {
      const uint24 = (at: number) => view.getUint16(at, true) + (view.getUint8(at + 2) << 16);
      return { width: uint24(24) + 1, height: uint24(27) + 1 };
    }
    case 'VP8L': {
      const packed = view.getUint32(21, true);
      return { width: (packed & 0x3fff) + 1, height: ((packed >>> 14) & 0x3fff) + 1 };
    }
    case 'VP8 ':
      return { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff };
    default:
      return undefined;
  }
}

/** From orientation 5 on, Exif turns a picture by a quarter. */
export const asShown = ({ width, height }: PictureSize, orientation = 1): PictureSize =>
  orientation >= 5 ? { width: height, height: width } : { width, height };
