#!/usr/bin/env node
/** The command line. Only the version is answered here; everything else is loaded when it is asked for. */

import { version } from '../../package.json';

const args = process.argv.slice(2);
if (args.length === 1 && (args[0] === '--version' || args[0] === '-V')) {
  process.stdout.write(`${version}\n`);
} else {
  const [{ run }, { processIo }] = await Promise.all([import('./program.ts'), import('./io.ts')]);
  process.exitCode = await run(args, await processIo());
}
