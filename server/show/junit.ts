/**
 * Findings as JUnit XML for build servers: a suite per file, a case per finding and per tree without findings. Findings
 * at a rejected level fail, accepted ones are skipped.
 */

import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import type { Report } from './check-result.ts';
import { sanitizeXml } from './sanitize.ts';

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

/** Characters that XML 1.0 excludes or discourages (section 2.2). */
const UNWRITABLE = /[^\t\n\r\x20-\x7E\x85\xA0-\uD7FF\uE000-\uFDCF\uFDF0-\uFFFD\u{10000}-\u{10FFFF}]/gu;

export const escapeXml = (text: string): string =>
  sanitizeXml(text.replace(UNWRITABLE, '\uFFFD').replace(/[&<>"'\t\n\r]/g, letter => ESCAPES[letter]!));

interface TestCase {
  readonly name: string;
  readonly outcome: 'passed' | 'failure' | 'skipped' | 'error';
  readonly message?: string;
  readonly type?: string;
  readonly text?: string;
}

export function showJunit(report: Report): string {
  const suites = report.files.map(({ file, trees }) => {
    const own = report.findings.filter(finding => finding.file === file);
    const named = new Set(own.map(({ tree }) => tree));
    const sound = trees
      .filter(tree => !named.has(tree))
      .map((tree): TestCase => ({ name: `tree ${tree}`, outcome: 'passed' }));
    return suite(report.shown(file), [...own.map(finding => caseOf(finding, report)), ...sound]);
  });
  const unread = report.unread.map(({ file, message }) =>
    suite(file, [{ name: 'reading', outcome: 'error', type: 'unread', message: `${file} ${message}` }]),
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="soundwood">\n${[...suites, ...unread].join('')}</testsuites>\n`;
}

function caseOf(finding: Finding, { rejected, shown }: Report): TestCase {
  const { tree, rule, subject, level, message, accepted } = finding;
  const name = [
    ...(tree === undefined ? [] : [`tree ${tree}`]),
    rule,
    ...(subject === rule ? [] : [subject]),
  ].join(' ');
  const text = `${shown(finding.file)}:${finding.line}:${finding.column}: ${level}: ${message}\n${finding.remedy}`;
  if (accepted) return { name, outcome: 'skipped', message: acceptedWords(accepted), text };
  return { name, outcome: rejected.includes(level) ? 'failure' : 'passed', type: rule, message, text };
}

function suite(file: string, cases: readonly TestCase[]): string {
  const count = (outcome: TestCase['outcome']) => cases.filter(one => one.outcome === outcome).length;
  const counts = `tests="${cases.length}" failures="${count('failure')}" errors="${count('error')}" skipped="${count('skipped')}"`;
  const head = `  <testsuite name="${escapeXml(file)}" ${counts}>\n`;
  return `${head}${cases.map(one => showCase(one, file)).join('')}  </testsuite>\n`;
}

function showCase({ name, outcome, message = '', type = '', text = '' }: TestCase, file: string): string {
  const open = `    <testcase name="${escapeXml(name)}" classname="${escapeXml(file)}"`;
  const output = text === '' ? '' : `      <system-out>${escapeXml(text)}</system-out>\n`;
  switch (outcome) {
    case 'passed':
      return output === '' ? `${open}/>\n` : `${open}>\n${output}    </testcase>\n`;
    case 'skipped':
      return `${open}>\n      <skipped message="${escapeXml(message)}"/>\n${output}    </testcase>\n`;
    case 'failure':
    case 'error':
      return `${open}>\n      <${outcome} type="${escapeXml(type)}" message="${escapeXml(message)}">${escapeXml(text)}</${outcome}>\n    </testcase>\n`;
  }
}
