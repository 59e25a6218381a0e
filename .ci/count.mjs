/** Prints `N passed, N failed` from reports of the test runner; a file that could not be loaded counts as one. */

import { readFileSync } from 'node:fs';

/** Of a report; one that is not there is a failure. */
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
