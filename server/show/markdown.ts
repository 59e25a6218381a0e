/** Findings as Markdown, for the comment of a review. */

import { formatDate } from '../../grammar/dates.ts';
import type { Finding } from '../rules/check.ts';
import type { Report } from './report.ts';
import { showSummary } from './terminal.ts';
import { visible } from './visible.ts';

/**
 * A text of the user as Markdown that shows it as it is: no mark-up, no HTML, no cell border, no control character.
 * A word joiner after @ and # keeps reviews from calling people and linking issues.
 */
export const escapeMarkdown = (text: string): string =>
  visible(text.replace(/\s+/g, ' '))
    .replace(/[&<>]/g, letter => ({ '&': '&amp;', '<': '&lt;' })[letter] ?? '&gt;')
    .replace(/[\\`*_[\]#!|~$]/g, '\\$&')
    .replace(/(@|#)(?=\w)/g, '$1\u2060');

/** A table; cells are Markdown already. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map(cells => `| ${cells.join(' | ')} |\n`).join('');

const MARKS = { error: '**error**', warning: 'warning', note: 'note' } as const;

export function showMarkdown({ on, findings, summary, unread, since, shown }: Report): string {
  const open = findings.filter(({ accepted }) => !accepted);
  const accepted = findings.filter((finding): finding is Accepted => finding.accepted !== undefined);
  const parts = [
    `### Inventory check for ${formatDate(on)}\n\n${escapeMarkdown(showSummary(summary, (_format, text) => text, since))}\n`,
    ...(unread.length === 0
      ? []
      : [
          unread
            .map(({ file, message }) => `- **not read:** ${escapeMarkdown(`${file} ${message}`)}\n`)
            .join(''),
        ]),
    ...(open.length === 0 ? [] : [openTable(open, shown)]),
    ...(accepted.length === 0 ? [] : [`#### Accepted\n\n${acceptedTable(accepted, shown)}`]),
  ];
  return parts.join('\n');
}

type Accepted = Finding & { readonly accepted: NonNullable<Finding['accepted']> };
type Shown = (file: string) => string;

const place = (finding: Finding, shown: Shown) => escapeMarkdown(`${shown(finding.file)}:${finding.line}`);
const treeOf = ({ tree }: Finding) => (tree === undefined ? '' : escapeMarkdown(tree));

export const openTable = (findings: readonly Finding[], shown: Shown): string =>
  table(
    ['Level', 'Tree', 'Finding', 'What to do', 'Rule', 'Place'],
    findings.map(finding => [
      MARKS[finding.level],
      treeOf(finding),
      escapeMarkdown(finding.message),
      escapeMarkdown(finding.caution === undefined ? finding.remedy : `${finding.remedy} ${finding.caution}`),
      escapeMarkdown(finding.rule),
      place(finding, shown),
    ]),
  );

const acceptedTable = (findings: readonly Accepted[], shown: Shown): string =>
  table(
    ['Tree', 'Finding', 'By', 'Until', 'Why', 'Rule', 'Place'],
    findings.map(finding => [
      treeOf(finding),
      escapeMarkdown(finding.message),
      escapeMarkdown(finding.accepted.by),
      formatDate(finding.accepted.until),
      escapeMarkdown(finding.accepted.because),
      escapeMarkdown(finding.rule),
      place(finding, shown),
    ]),
  );
