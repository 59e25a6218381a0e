/**
 * Findings for other programs: the published form of `check --as json`, described by findings.schema.json.
 * A change that could break a reader raises `version`.
 */

import { formatDate } from '../../grammar/dates.ts';
import type { Finding } from '../rules/check.ts';
import type { Summary } from './summary.ts';

export const FINDINGS_VERSION = 1;

export interface Report {
  /** Day number for which the inventory was checked. */
  readonly on: number;
  readonly findings: readonly Finding[];
  readonly summary: Summary;
  /** What could not be read, and why. */
  readonly unread: readonly { readonly file: string; readonly message: string }[];
}

/** @param shown how a file of the workspace is named for the reader */
export function showJson({ on, findings, summary, unread }: Report, shown: (file: string) => string): string {
  const report = {
    version: FINDINGS_VERSION,
    on: formatDate(on),
    findings: findings.map(finding => ({
      rule: finding.rule,
      level: finding.level,
      grade: finding.grade,
      file: shown(finding.file),
      line: finding.line,
      column: finding.column,
      endLine: finding.endLine,
      endColumn: finding.endColumn,
      // A member that is undefined is left out of the text.
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
    })),
    summary,
    unread,
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}
