/** Prints `N passed, N failed` from Vitest's JSON reports; a test file that could not be loaded counts as one failure. */

import { readFileSync } from 'node:fs';

/** Counts of one report; a missing report counts as one failure. */
function countsOf(path) {
  try {
    const report = JSON.parse(readFileSync(path, 'utf8'));
    const notLoaded = report.testResults.filter(
      file => file.status === 'failed' && file.assertionResults.length === 0,
    );
    return {
      passed: report.numPassedTests,
      failed: report.numFailedTests + notLoaded.length,
      success: report.success,
    };
  } catch {
    return { passed: 0, failed: 1, success: false };
  }
}

const counts = process.argv.slice(2).map(countsOf);
const sum = name => counts.reduce((total, count) => total + count[name], 0);
process.stdout.write(`${sum('passed')} passed, ${sum('failed')} failed\n`);
process.exit(sum('failed') === 0 && counts.every(({ success }) => success) ? 0 : 1);
