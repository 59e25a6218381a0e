/** Photographs that an inventory names, read for a report: only from the folder of their site and below. */

import { readFile, realpath, stat } from 'node:fs/promises';
import { join, sep } from 'node:path';
import type { ReportPhoto } from '../show/report/data.ts';
import { reasonOf } from './files.ts';

/** A photograph of more bytes makes a report that no mail carries. */
const MOST_BYTES = 8_000_000;

const starts = (bytes: Uint8Array, at: number, text: string): boolean =>
  text === String.fromCharCode(...bytes.subarray(at, at + text.length));

/** By their first bytes, whatever the name says: JPEG (ISO/IEC 10918-1), PNG (RFC 2083), WebP (RFC 9649). */
function typeOf(bytes: Uint8Array): string | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return 'image/jpeg';
  if (starts(bytes, 0, '\x89PNG\r\n\x1a\n')) return 'image/png';
  if (starts(bytes, 0, 'RIFF') && starts(bytes, 8, 'WEBP')) return 'image/webp';
  return undefined;
}

/**
 * @param path as written
 * @param inside relative to `bounds`; undefined where what is written leads out of the inventory
 * @param bounds absolute folder that no link may lead out of
 */
export async function readPhoto(
  path: string,
  inside: string | undefined,
  bounds: string,
): Promise<ReportPhoto> {
  const missing = (why: string): ReportPhoto => ({ path, image: { missing: why } });
  if (inside === undefined) return missing('lies outside the folder of the site');
  try {
    const file = await realpath(join(bounds, inside));
    const real = await realpath(bounds);
    if (!file.startsWith(real.endsWith(sep) ? real : real + sep))
      return missing('lies outside the folder of the site');
    const { size } = await stat(file);
    if (size > MOST_BYTES) return missing(`is larger than ${MOST_BYTES / 1e6} MB`);
    const bytes = await readFile(file);
    const type = typeOf(bytes);
    if (!type) return missing('is no JPEG, PNG or WebP picture');
    return { path, image: { address: `data:${type};base64,${bytes.toString('base64')}` } };
  } catch (error) {
    return missing(reasonOf(error));
  }
}
