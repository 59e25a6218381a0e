/** The program and the extension as they are shipped, bundled by build.ts once for the whole run. */

import { join } from 'node:path';
import { inject } from 'vitest';

const folder = inject('built');

/** Path of the program, to be started with node. */
export const PROGRAM = join(folder, 'server', 'soundwood.js');

/** Path of a file of the extension. */
export const extensionFile = (name: string): string => join(folder, 'client', name);

/** Path of esbuild's metafile: what each bundle consists of. */
export const metafileOf = (part: 'server' | 'client' | 'client-page'): string => join(folder, `${part}.json`);
