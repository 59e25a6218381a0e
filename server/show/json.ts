/**
 * Findings as JSON, the output of `check --format json`; schema in findings.schema.json. A breaking change increases
 * `version`.
 */

import { formatDate } from '../base/dates.ts';
import type { Finding } from '../rules/check.ts';
import type { Report, StartForm } from './check-result.ts';
import { jsonMembers, jsonText } from './sanitize.ts';

const FINDINGS_VERSION = 1;

export const showJson: StartForm = ({ on, since, unread, shown }, write) => {
  // JSON.stringify omits undefined members.
  write(`{\n${jsonMembers({ version: FINDINGS_VERSION, on: formatDate(on), since })},\n  "findings": [`);
  let before = '\n    ';
  return {
    add(found) {
      let text = '';
      for (const { finding } of found) {
        text += before + jsonText(findingForJson(finding, shown), 2).replaceAll('\n', '\n    ');
        before = ',\n    ';
      }
      write(text);
    },
    end(summary) {
      write(`${before.startsWith(',') ? '\n  ' : ''}],\n${jsonMembers({ summary, unread })}\n}\n`);
      return undefined;
    },
  };
};

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
