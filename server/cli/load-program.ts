/**
 * Loads the bundled program, from V8's code cache where there is one: compiling takes longer than a small check. The
 * first check writes the cache beside the program. Without it (an installation that may not be written to, another
 * version of Node, a damaged file) the program runs all the same, only starts later.
 */

import {
  accessSync,
  constants,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Script } from 'node:vm';
import type * as Program from './main.ts';

/** The bundle's hash; set by server/build.mjs. V8 itself compares no more of the source than its length. */
declare const BUNDLE_HASH: string;

/** In µs of CPU. After a longer run V8 may have dropped the code of what ran only at the beginning. */
const LONGEST_RUN = 2_000_000;

/** In ms: a draft is written in far less, so the process of one that is older was killed. */
const ABANDONED = 60_000;

/**
 * @param folder of the bundle
 * @param saveCache whether to write a cache that is missing: for a command that runs what most commands need
 */
export function loadProgram(folder: string, { saveCache = false } = {}): typeof Program {
  const file = join(folder, 'main.js');
  const cache = `${file}.${BUNDLE_HASH}-${process.version}-${process.arch}.cache`;
  const cachedData = readIfThere(cache);
  const script = new Script(readFileSync(file, 'latin1'), {
    filename: file,
    ...(cachedData ? { cachedData } : {}),
  });
  const program: { exports: unknown } = { exports: {} };
  script.runInThisContext()(program.exports, createRequire(file), program, file, folder);
  if (saveCache && (!cachedData || script.cachedDataRejected)) process.on('exit', () => save(script, cache));
  return program.exports as typeof Program;
}

function readIfThere(path: string): Buffer | undefined {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}

/** Never fails: a start without a cache is only slower. */
function save(script: Script, cache: string): void {
  if (process.cpuUsage().user > LONGEST_RUN) return;
  const draft = `${cache}.${process.pid}`;
  try {
    accessSync(dirname(cache), constants.W_OK);
    writeFileSync(draft, script.createCachedData());
    // In one step: another process reads all of it or nothing.
    renameSync(draft, cache);
    const written = statSync(cache).mtimeMs;
    for (const name of readdirSync(dirname(cache))) {
      const path = join(dirname(cache), name);
      if (/\.cache\.\d+$/.test(name) && written - statSync(path).mtimeMs > ABANDONED)
        rmSync(path, { force: true });
    }
  } catch {
    rmSync(draft, { force: true });
  }
}
