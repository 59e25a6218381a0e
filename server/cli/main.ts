/** What the start loads, bundled into one file. */

import { EXIT_FAILURE, faultText, processIo, wantsDebug } from './io.ts';
import { run } from './program.ts';

/** Runs one command line and sets the exit code. */
export async function main(args: readonly string[]): Promise<void> {
  const giveUp = (error: unknown) => {
    process.stderr.write(`soundwood: ${faultText(error, wantsDebug(args))}\n`);
    process.exit(EXIT_FAILURE);
  };
  // What nobody waits for. A server goes on.
  if (args[0] !== 'serve') process.on('uncaughtException', giveUp);
  try {
    process.exitCode = await run(args, await processIo(args));
  } catch (error) {
    giveUp(error);
  }
}
