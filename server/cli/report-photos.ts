/** Reads the photographs for a report, only from the folder of their site and below. */

import { readFile, realpath, stat } from 'node:fs/promises';
import { join, sep } from 'node:path';
import { dataUri } from '../base/data-uri.ts';
import { stripMetadata } from '../host/strip-metadata.ts';
import type { ReportPhoto } from '../report/data.ts';
import { reasonOf } from './files.ts';

/** Larger photographs would make the report too large for email. */
const MOST_BYTES = 8_000_000;

/**
 * @param path as written
 * @param inside relative to `bounds`; undefined if the path leads out of the inventory
 * @param bounds absolute folder; links that lead out of it are not followed
 */
export async function readPhoto(
  path: string,
  inside: string | undefined,
  bounds: string,
): Promise<ReportPhoto> {
  const missing = (why: string): ReportPhoto => ({ path, image: { missing: why } });
  if (inside === undefined) return missing('is outside the folder of the site');
  try {
    const file = await realpath(join(bounds, inside));
    const real = await realpath(bounds);
    if (!file.startsWith(real.endsWith(sep) ? real : real + sep))
      return missing('is outside the folder of the site');
    const status = await stat(file);
    // Reading a pipe could block without end.
    if (!status.isFile()) return missing('is not a file');
    if (status.size > MOST_BYTES) return missing(`is larger than ${MOST_BYTES / 1e6} MB`);
    const picture = stripMetadata(await readFile(file));
    if (!picture) return missing('is not a JPEG, PNG or WebP picture');
    return { path, image: { address: dataUri(picture.type, picture.bytes) } };
  } catch (error) {
    return missing(reasonOf(error));
  }
}
