/** Writes the files that are printed from the tables: `npm run generate`. */

import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { printedFiles } from './printed.ts';

// Pages of rules that are gone must not stay behind.
rmSync('server/rules/pages', { recursive: true, force: true });
for (const [path, text] of printedFiles()) {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}
