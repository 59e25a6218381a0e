/**
 * Removes the metadata of photographs. A report is passed on, and must not tell where, when, by whom and with which
 * camera a photograph was taken. Only segments known to be needed to show the picture are kept, and its orientation.
 */

import { dataUri } from '../base/data-uri.ts';

type ImageType = 'image/jpeg' | 'image/png' | 'image/webp' | 'image/svg+xml';

export interface StrippedImage {
  readonly type: ImageType;
  readonly bytes: Uint8Array;
}

const textAt = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** @param text characters up to U+00FF */
const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, character => character.charCodeAt(0));

function concatenate(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** The type is recognized by the first bytes. Undefined if it is no JPEG, PNG or WebP, or damaged. */
export function stripMetadata(bytes: Uint8Array): StrippedImage | undefined {
  if (isJpeg(bytes)) return typed('image/jpeg', stripJpeg(bytes));
  if (textAt(bytes, 0, 8) === '\x89PNG\r\n\x1a\n') return typed('image/png', stripPng(bytes));
  if (textAt(bytes, 0, 4) === 'RIFF' && textAt(bytes, 8, 4) === 'WEBP') return stripWebp(bytes);
  return undefined;
}

const typed = (type: ImageType, bytes: Uint8Array | undefined): StrippedImage | undefined =>
  bytes && { type, bytes };

const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff;

/** Markers of ISO/IEC 10918-1, table B.1. */
const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;
const COMMENT = 0xfe;
const isRestart = (marker: number) => marker >= 0xd0 && marker <= 0xd7;
const isApplication = (marker: number) => marker >= 0xe0 && marker <= 0xef;

/**
 * Application segments that are kept: JFIF without thumbnail (ISO/IEC 10918-5), color profile (ICC.1, annex B.4), color
 * transform (ISO/IEC 10918-6). Data after the end of the image, often a video or more images, is dropped.
 */
function stripJpeg(bytes: Uint8Array): Uint8Array | undefined {
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  const orientation = orientationOf(bytes);
  if (orientation !== undefined)
    kept.push(Uint8Array.of(0xff, 0xe1, 0, 34), EXIF, orientationRecord(orientation));
  let scanned = false;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1]!;
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === END_OF_IMAGE) break;
    const length = viewOf(bytes).getUint16(at + 2);
    let end = at + 2 + length;
    if (length < 2 || end > bytes.length) return scanned ? concatenate(kept) : undefined;
    if (marker === START_OF_SCAN) {
      end = endOfScan(bytes, end);
      scanned = true;
    }
    if (keepsSegment(bytes, at, marker, length)) kept.push(bytes.subarray(at, end));
    at = end;
  }
  // A truncated image is shown as far as it goes.
  if (!scanned) return undefined;
  return concatenate([...kept, Uint8Array.of(0xff, END_OF_IMAGE)]);
}

function keepsSegment(bytes: Uint8Array, at: number, marker: number, length: number): boolean {
  if (marker === COMMENT) return false;
  if (!isApplication(marker)) return true;
  const name = textAt(bytes, at + 4, 12);
  return (
    (marker === 0xe0 && length === 16 && name.startsWith('JFIF\0')) ||
    (marker === 0xe2 && name === 'ICC_PROFILE\0') ||
    (marker === 0xee && name.startsWith('Adobe'))
  );
}

/** Offset of the first marker after the data of a scan. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1];
    if (next !== undefined && next !== 0 && next !== 0xff && !isRestart(next)) return at;
  }
  return bytes.length;
}

/** Tag 0x0112 of the first directory of Exif 3.0 (CIPA DC-008), 2 to 8; undefined for 1, upright. */
function orientationOf(bytes: Uint8Array): number | undefined {
  let at = 2;
  while (at + 10 <= bytes.length && bytes[at] === 0xff && isApplication(bytes[at + 1]!)) {
    const length = viewOf(bytes).getUint16(at + 2);
    if (bytes[at + 1] === 0xe1 && textAt(bytes, at + 4, 6) === 'Exif\0\0')
      return orientationIn(bytes.subarray(at + 10, at + 2 + length));
    at += 2 + length;
  }
  return undefined;
}

function orientationIn(tiff: Uint8Array): number | undefined {
  if (tiff.length < 14) return undefined;
  const view = viewOf(tiff);
  const little = textAt(tiff, 0, 2) === 'II';
  const directory = view.getUint32(4, little);
  if (directory + 2 > tiff.length) return undefined;
  const count = view.getUint16(directory, little);
  for (let i = 0; i < count; i++) {
    const entry = directory + 2 + 12 * i;
    if (entry + 12 > tiff.length) return undefined;
    if (view.getUint16(entry, little) !== 0x0112) continue;
    const value = view.getUint16(entry + 8, little);
    return value >= 2 && value <= 8 ? value : undefined;
  }
  return undefined;
}

/** Prefix of the record in JPEG, and from some writers in WebP. */
const EXIF = bytesOf('Exif\0\0');

/** The smallest Exif record (TIFF 6.0): the orientation and nothing else. */
function orientationRecord(orientation: number): Uint8Array {
  const record = new Uint8Array(26);
  const view = viewOf(record);
  record.set(bytesOf('MM\0*'));
  view.setUint32(4, 8);
  view.setUint16(8, 1);
  view.setUint16(10, 0x0112);
  view.setUint16(12, 3);
  view.setUint32(14, 1);
  view.setUint16(18, orientation);
  return record;
}

/** Chunks of PNG (third edition, 2025) that affect how the image looks; all others are metadata. */
const PNG_CHUNKS = new Set(
  'IHDR PLTE IDAT IEND tRNS gAMA cHRM sRGB iCCP cICP mDCV cLLI sBIT bKGD pHYs acTL fcTL fdAT'.split(' '),
);

function stripPng(bytes: Uint8Array): Uint8Array | undefined {
  const kept: Uint8Array[] = [bytes.subarray(0, 8)];
  for (let at = 8; at + 12 <= bytes.length; ) {
    const end = at + 12 + viewOf(bytes).getUint32(at);
    if (end > bytes.length) return undefined;
    const name = textAt(bytes, at + 4, 4);
    if (PNG_CHUNKS.has(name)) kept.push(bytes.subarray(at, end));
    const orientation = name === 'eXIf' ? orientationIn(bytes.subarray(at + 8, end - 4)) : undefined;
    if (orientation !== undefined) kept.push(pngChunk('eXIf', orientationRecord(orientation)));
    if (name === 'IEND') return concatenate(kept);
    at = end;
  }
  return undefined;
}

function pngChunk(name: string, data: Uint8Array): Uint8Array {
  const chunk = new Uint8Array(12 + data.length);
  viewOf(chunk).setUint32(0, data.length);
  chunk.set(bytesOf(name), 4);
  chunk.set(data, 8);
  viewOf(chunk).setUint32(8 + data.length, crc32(chunk.subarray(4, 8 + data.length)));
  return chunk;
}

/** CRC-32 of PNG (third edition, annex D). */
function crc32(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}

/** Chunks of WebP (RFC 9649) with the image, its transparency, color profile and animation. */
const WEBP_CHUNKS = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ANIM', 'ANMF', 'ICCP']);
/** Flags of the extended header for Exif and XMP. */
const METADATA_FLAGS = 0b1100;

/** Browsers ignore the orientation of WebP: a rotated image is wrapped in an SVG that turns it. */
function stripWebp(bytes: Uint8Array): StrippedImage | undefined {
  const kept: Uint8Array[] = [];
  let canvas: Uint8Array | undefined;
  let orientation: number | undefined;
  const end = Math.min(bytes.length, 8 + viewOf(bytes).getUint32(4, true));
  for (let at = 12; at + 8 <= end; ) {
    const length = viewOf(bytes).getUint32(at + 4, true);
    // Chunks begin at even offsets.
    const next = at + 8 + length + (length % 2);
    if (at + 8 + length > end) return undefined;
    const name = textAt(bytes, at, 4);
    if (WEBP_CHUNKS.has(name)) {
      const chunk = bytes.slice(at, next);
      if (name === 'VP8X') {
        chunk[8]! &= ~METADATA_FLAGS;
        canvas = chunk.subarray(8);
      }
      kept.push(chunk);
    } else if (name === 'EXIF') {
      const record = bytes.subarray(at + 8, at + 8 + length);
      orientation = orientationIn(textAt(record, 0, 6) === 'Exif\0\0' ? record.subarray(6) : record);
    }
    at = next;
  }
  if (kept.length === 0) return undefined;
  const body = concatenate(kept);
  const head = new Uint8Array(12);
  head.set(bytes.subarray(0, 12));
  viewOf(head).setUint32(4, 4 + body.length, true);
  const picture: StrippedImage = { type: 'image/webp', bytes: concatenate([head, body]) };
  return orientation === undefined || canvas === undefined || canvas.length < 10
    ? picture
    : uprightSvg(picture, orientation, uint24(canvas, 4) + 1, uint24(canvas, 7) + 1);
}

const uint24 = (bytes: Uint8Array, at: number): number =>
  bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16);

/** An SVG with the image upright. @param wide and @param high px, as stored */
function uprightSvg(
  { type, bytes }: StrippedImage,
  orientation: number,
  wide: number,
  high: number,
): StrippedImage {
  const [a, b, c, d, e, f] = ORIENTATION_MATRICES[orientation]!(wide, high);
  const [width, height] = a === 0 ? [high, wide] : [wide, high];
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><image width="${wide}" height="${high}" transform="matrix(${a} ${b} ${c} ${d} ${e} ${f})" href="${dataUri(type, bytes)}"/></svg>`;
  return { type: 'image/svg+xml', bytes: bytesOf(svg) };
}

type OrientationMatrix = (
  wide: number,
  high: number,
) => readonly [number, number, number, number, number, number];

/** Transforms (SVG 2, 8.5) by orientation, which tells where the stored first row and column belong (Exif 3.0). */
const ORIENTATION_MATRICES: Readonly<Record<number, OrientationMatrix>> = {
  2: wide => [-1, 0, 0, 1, wide, 0],
  3: (wide, high) => [-1, 0, 0, -1, wide, high],
  4: (_, high) => [1, 0, 0, -1, 0, high],
  5: () => [0, 1, 1, 0, 0, 0],
  6: (_, high) => [0, 1, -1, 0, high, 0],
  7: (wide, high) => [0, -1, -1, 0, high, wide],
  8: wide => [0, -1, 1, 0, 0, wide],
};
