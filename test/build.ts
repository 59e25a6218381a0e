/**
 * Bundles the program and the extension once for all tests that start them, into a temporary folder of this run:
 * server/dist and client/dist may be in use meanwhile.
 */

import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Folder of the bundles; see built.ts. */
    built: string;
  }
}

const run = promisify(execFile);

export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-built-'));
  const bundle = async (part: string, into: string) => {
    const { stderr } = await run(process.execPath, [`${part}/build.mjs`, join(folder, into)], {
      env: { ...process.env, METAFILE: join(folder, `${part.replace('/', '-')}.json`) },
    });
    if (stderr) throw new Error(`${part}/build.mjs has warnings:\n${stderr}`);
  };
  const build = async () => {
    await bundle('server', 'server');
    await bundle('client', 'client');
    // Beside the program, which serves it.
    await bundle('client/page', 'server/page');
  };
  await build();
  project.provide('built', folder);
  project.onTestsRerun(build);
  return () => rmSync(folder, { recursive: true, force: true });
}
