/** Writes the generated files: `npm run generate`. */

import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { printedFiles } from './printed.ts';

// Remove the pages of deleted rules.
rmSync('server/rules/pages', { recursive: true, force: true });
for (const [path, text] of printedFiles()) {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}
