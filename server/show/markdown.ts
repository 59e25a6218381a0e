/** Findings as Markdown, for a review comment. */

import { formatDate } from '../base/dates.ts';
import type { Finding } from '../rules/check.ts';
import type { Report } from './check-result.ts';
import { escapeReview } from './escape-markdown.ts';
import { NOT_CHECKED } from './summary.ts';
import { showSummary } from './terminal.ts';

/** @param head and @param rows Markdown */
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map(cells => `| ${cells.join(' | ')} |\n`).join('');

const MARKS = { error: '**error**', warning: 'warning', note: 'note' } as const;

export function showMarkdown({ on, findings, summary, unread, since, shown }: Report): string {
  const open = findings.filter(({ accepted }) => !accepted);
  const accepted = findings.filter((finding): finding is Accepted => finding.accepted !== undefined);
  const parts = [
    `### Inventory check for ${formatDate(on)}\n\n${escapeReview(`${showSummary(summary, (_format, text) => text, since).trimEnd()}${summary.trees > 0 ? ` ${NOT_CHECKED}` : ''}`)}\n`,
    ...(unread.length === 0
      ? []
      : [
          unread
            .map(({ file, message }) => `- **not read:** ${escapeReview(`${file} ${message}`)}\n`)
            .join(''),
        ]),
    ...(open.length === 0 ? [] : [openTable(open, shown)]),
    ...(accepted.length === 0 ? [] : [`#### Accepted\n\n${acceptedTable(accepted, shown)}`]),
  ];
  return parts.join('\n');
}

type Accepted = Finding & { readonly accepted: NonNullable<Finding['accepted']> };
type FileNaming = (file: string) => string;

const place = (finding: Finding, shown: FileNaming) => escapeReview(`${shown(finding.file)}:${finding.line}`);
const treeOf = ({ tree }: Finding) => (tree === undefined ? '' : escapeReview(tree));

const openTable = (findings: readonly Finding[], shown: FileNaming): string =>
  table(
    ['Level', 'Tree', 'Finding', 'What to do', 'Rule', 'Place'],
    findings.map(finding => [
      MARKS[finding.level],
      treeOf(finding),
      escapeReview(finding.message),
      escapeReview(finding.caution === undefined ? finding.remedy : `${finding.remedy} ${finding.caution}`),
      escapeReview(finding.rule),
      place(finding, shown),
    ]),
  );

const acceptedTable = (findings: readonly Accepted[], shown: FileNaming): string =>
  table(
    ['Tree', 'Finding', 'By', 'Until', 'Why', 'Rule', 'Place'],
    findings.map(finding => [
      treeOf(finding),
      escapeReview(finding.message),
      escapeReview(finding.accepted.by),
      formatDate(finding.accepted.until),
      escapeReview(finding.accepted.because),
      escapeReview(finding.rule),
      place(finding, shown),
    ]),
  );
