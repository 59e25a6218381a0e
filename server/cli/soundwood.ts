#!/usr/bin/env node
/** The command line. Only the version is answered here; everything else is in the program that this loads. */

import { join } from 'node:path';
import { version } from '../../package.json';
import { loadProgram } from './load-program.ts';

const args = process.argv.slice(2);
if (args.length === 1 && (args[0] === '--version' || args[0] === '-V')) {
  process.stdout.write(`${version}\n`);
} else {
  const { main } = loadProgram(join(__dirname, 'parts'), { saveCache: args[0] === 'check' });
  void main(args);
}
