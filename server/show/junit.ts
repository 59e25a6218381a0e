/**
 * Findings as JUnit XML for build servers: a suite per file, a case per finding and per tree without findings. Findings
 * at a rejected level fail, accepted ones are skipped.
 */

import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import type { Report, StartForm } from './check-result.ts';
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

export const showJunit: StartForm = (report, write) => {
  const files = report.listFiles();
  let next = 0;
  let own: TestCase['outcome'][] = [];
  let cases = '';
  let named = new Set<string | undefined>();
  const add = (one: TestCase, file: string) => {
    own.push(one.outcome);
    cases += showCase(one, file);
  };
  /** A suite begins with the counts of its cases. */
  const endFile = () => {
    const { file, trees } = files[next++]!;
    const shown = report.shown(file);
    for (const tree of trees) if (!named.has(tree)) add({ name: `tree ${tree}`, outcome: 'passed' }, shown);
    write(suite(shown, own, cases));
    own = [];
    cases = '';
    named = new Set();
  };
  write('<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="soundwood">\n');
  return {
    add(found) {
      for (const { finding } of found) {
        while (files[next]!.file !== finding.file) endFile();
        named.add(finding.tree);
        add(caseOf(finding, report), report.shown(finding.file));
      }
    },
    end() {
      while (next < files.length) endFile();
      for (const { file, message } of report.unread) {
        const one: TestCase = {
          name: 'reading',
          outcome: 'error',
          type: 'unread',
          message: `${file} ${message}`,
        };
        write(suite(file, [one.outcome], showCase(one, file)));
      }
      write('</testsuites>\n');
      return undefined;
    },
  };
};

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

function suite(file: string, outcomes: readonly TestCase['outcome'][], cases: string): string {
  const count = (outcome: TestCase['outcome']) => outcomes.filter(one => one === outcome).length;
  const counts = `tests="${outcomes.length}" failures="${count('failure')}" errors="${count('error')}" skipped="${count('skipped')}"`;
  return `  <testsuite name="${escapeXml(file)}" ${counts}>\n${cases}  </testsuite>\n`;
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
