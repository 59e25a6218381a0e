#!/usr/bin/env node
/** The command line. Only the version is answered here; everything else is loaded when it is asked for. */

import { version } from '../../package.json';

const args = process.argv.slice(2);
if (args.length === 1 && (args[0] === '--version' || args[0] === '-V')) {
  process.stdout.write(`${version}\n`);
} else {
  const [{ run }, { EXIT_FAILURE, faultText, processIo }] = await Promise.all([
    import('./program.ts'),
    import('./io.ts'),
  ]);
  const giveUp = (error: unknown) => {
    process.stderr.write(`soundwood: ${faultText(error, !!process.env.SOUNDWOOD_DEBUG)}\n`);
    process.exit(EXIT_FAILURE);
  };
  // What nobody waits for. A server goes on.
  if (args[0] !== 'serve') process.on('uncaughtException', giveUp);
  try {
    process.exitCode = await run(args, await processIo());
  } catch (error) {
    giveUp(error);
  }
}
