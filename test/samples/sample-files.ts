/** The files of the demo inventory, for the tests that read them. */

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const SAMPLES = fileURLToPath(new URL('../../samples/', import.meta.url));

export interface SampleFile {
  /** Relative to the folder asked for, with '/'. */
  readonly path: string;
  readonly text: string;
}

/** Every inventory file below a folder of samples, sorted by path. */
export function sampleFiles(folder: string): readonly SampleFile[] {
  const root = `${SAMPLES}${folder}/`;
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .map(path => path.replaceAll('\\', '/'))
    .filter(path => path.endsWith('.wood'))
    .sort()
    .map(path => ({ path, text: readFileSync(root + path, 'utf8') }));
}
