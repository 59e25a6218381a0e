/** Exits with 0 if node_modules matches package-lock.json. */

import { readFileSync } from 'node:fs';

const packagesOf = file => JSON.parse(readFileSync(file, 'utf8')).packages;
let installed;
try {
  installed = packagesOf('node_modules/.package-lock.json');
} catch {
  process.exit(1);
}
const stale = Object.entries(packagesOf('package-lock.json')).some(
  ([path, { version, optional, devOptional }]) =>
    path !== '' && !optional && !devOptional && installed[path]?.version !== version,
);
process.exit(stale ? 1 : 0);
