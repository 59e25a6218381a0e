/**
 * Findings as JSON, the output of `check --format json`; schema in findings.schema.json. A breaking change increases
 * `version`.
 */

import { formatDate } from '../base/dates.ts';
import type { Finding } from '../rules/check.ts';
import type { Report } from './check-result.ts';
import { jsonText } from './sanitize.ts';

const FINDINGS_VERSION = 1;

export function showJson({ on, findings, summary, unread, since, shown }: Report): string {
  const report = {
    version: FINDINGS_VERSION,
    on: formatDate(on),
    // JSON.stringify omits undefined members.
    since,
    findings: findings.map(finding => findingForJson(finding, shown)),
    summary,
    unread,
  };
  return `${jsonText(report, 2)}\n`;
}

/** @param shown path of a file as shown to the reader */
export const findingForJson = (finding: Finding, shown: Report['shown']) => ({
  rule: finding.rule,
  level: finding.level,
  grade: finding.grade,
  file: shown(finding.file),
  line: finding.line,
  column: finding.column,
  endLine: finding.endLine,
  endColumn: finding.endColumn,
  tree: finding.tree,
  subject: finding.subject,
  message: finding.message,
  remedy: finding.remedy,
  caution: finding.caution,
  accepted: finding.accepted && { ...finding.accepted, until: formatDate(finding.accepted.until) },
  related: finding.related?.map(({ file, line, column, message }) => ({
    file: shown(file),
    line,
    column,
    message,
  })),
});
