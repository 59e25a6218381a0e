/** Prints `N passed, N failed` from a report of the test runner; a file that could not be loaded counts as one. */

import { readFileSync } from 'node:fs';

let report;
try {
  report = JSON.parse(readFileSync(process.argv[2], 'utf8'));
} catch {
  process.stdout.write('0 passed, 1 failed\n');
  process.exit(1);
}
const notLoaded = report.testResults.filter(
  file => file.status === 'failed' && file.assertionResults.length === 0,
);
const failed = report.numFailedTests + notLoaded.length;
process.stdout.write(`${report.numPassedTests} passed, ${failed} failed\n`);
process.exit(failed === 0 && report.success ? 0 : 1);
