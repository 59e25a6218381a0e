/**
 * Prints the names of what failed, then `N passed, N failed`, from Vitest's JSON reports. A test file that could not be
 * loaded counts as one failure.
 */

import { readFileSync } from 'node:fs';
import { relative } from 'node:path';

/** Counts of one report; a missing report counts as one failure. */
function countsOf(path) {
  try {
    const report = JSON.parse(readFileSync(path, 'utf8'));
    const notLoaded = report.testResults.filter(
      file => file.status === 'failed' && file.assertionResults.length === 0,
    );
    const failed = report.testResults.flatMap(file =>
      file.assertionResults
        .filter(({ status }) => status === 'failed')
        .map(({ fullName }) => `${relative(process.cwd(), file.name)}: ${fullName}`),
    );
    return {
      passed: report.numPassedTests,
      failed: [...notLoaded.map(({ name }) => `${relative(process.cwd(), name)}: not loaded`), ...failed],
      success: report.success,
    };
  } catch {
    return { passed: 0, failed: [`${path}: no report`], success: false };
  }
}

const counts = process.argv.slice(2).map(countsOf);
const passed = counts.reduce((total, count) => total + count.passed, 0);
const failed = counts.flatMap(count => count.failed);
process.stdout.write(
  `${failed.map(name => `FAILED ${name}\n`).join('')}${passed} passed, ${failed.length} failed\n`,
);
process.exit(failed.length === 0 && counts.every(({ success }) => success) ? 0 : 1);
