/** Our own source files, without what only measures speed. */

import { readdirSync } from 'node:fs';
import { join } from 'node:path';

export const sources: readonly string[] = ['grammar', 'server', 'client'].flatMap(folder =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map(name => join(folder, name))
    .filter(name => name.endsWith('.ts') && !/(^|\/)(dist|bench)\//.test(name) && !name.endsWith('.d.ts')),
);
