/** The program as it is shipped, bundled for a test file. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect } from 'vitest';

/** Builds it before the tests of the file, into a folder that goes after them. Returns the program's path. */
export function builtProgram(): string {
  const dist = mkdtempSync(join(tmpdir(), 'soundwood-dist-'));
  afterAll(() => rmSync(dist, { recursive: true, force: true }));
  beforeAll(() => {
    const build = fileURLToPath(new URL('../../server/build.mjs', import.meta.url));
    expect(spawnSync(process.execPath, [build, dist], { encoding: 'utf8' })).toMatchObject({
      status: 0,
      stderr: '',
    });
  });
  return join(dist, 'soundwood.js');
}
