/** Paths as people see them. */

import { relative, sep } from 'node:path';

export const slashed = (path: string): string => (sep === '/' ? path : path.split(sep).join('/'));

/** The path as shown to people: relative to the working folder, with slashes. */
export const shown = (cwd: string, path: string): string => slashed(relative(cwd, path)) || '.';
