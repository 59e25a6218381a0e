/** Findings as Markdown, for a review comment: the gravest first, as many as a comment holds. */

import { capital, counted, listed } from '../base/words.ts';
import type { Finding } from '../rules/check.ts';
import { Cautions } from './cautions.ts';
import type { StartForm } from './check-result.ts';
import { escapeReview } from './escape-markdown.ts';
import { Gravest } from './gravest.ts';
import { COMMENT_BYTES } from './host-limits.ts';
import { readInRegion } from './in-region.ts';
import { longDate, type RegionCode } from './long-date.ts';
import { NOT_CHECKED } from './summary.ts';
import { showSummary } from './terminal.ts';

const MARKS = { error: '**error**', warning: 'warning', note: 'note' } as const;

/** As many as fit into a comment at most: a row takes more than 60 bytes. */
const ROWS = Math.ceil(COMMENT_BYTES.most / 60);
/** Kept free for what was left out. */
const LEFT_OUT = 500;

export const showMarkdown: StartForm = ({ on, unread, since, shown, regionOf }, write) => {
  const found = new Gravest(ROWS);
  return {
    add: some => some.forEach(one => void found.add(one)),
    end(summary) {
      const [first] = found.all;
      const cautions = new Cautions();
      for (const { finding } of found.all) {
        const region = { code: regionOf(finding.file) };
        cautions.add(finding, text => readInRegion(text, region));
      }
      const warned = cautions.all
        .map(
          ({ text, about }) => `- **Caution** for ${escapeReview(`${about}: ${text}`)}
`,
        )
        .join('');
      const page = new Page(COMMENT_BYTES.most - LEFT_OUT - new TextEncoder().encode(warned).length);
      page.add(
        `### Inventory check for ${longDate(on, { code: first ? regionOf(first.finding.file) : '' })}\n\n${escapeReview(`${showSummary(summary, (_format, text) => text, since).trimEnd()}${summary.trees > 0 ? ` ${NOT_CHECKED}` : ''}`)}\n`,
      );
      const findings = found.all.map(({ finding }) => finding);
      const told = page.list(
        '',
        unread.map(({ file, message }) => `- **not read:** ${escapeReview(`${file} ${message}`)}\n`),
      );
      const open = findings.filter(({ accepted }) => !accepted);
      const opened = page.list(
        head(OPEN),
        lazily(open, finding => openRow(finding, shown, { code: regionOf(finding.file) })),
      );
      const accepted = findings.filter((finding): finding is Accepted => finding.accepted !== undefined);
      const excused = page.list(
        `#### Accepted\n\n${head(ACCEPTED)}`,
        lazily(accepted, finding => acceptedRow(finding, shown, { code: regionOf(finding.file) })),
      );
      if (warned !== '') page.end(warned);
      const left = [
        [unread.length - told, 'file that was not read', 'files that were not read'],
        [summary.errors + summary.warnings + summary.notes - opened, 'finding', 'findings'],
        [summary.accepted - excused, 'accepted finding', 'accepted findings'],
      ] as const;
      const words = left.flatMap(([count, one, many]) => (count > 0 ? [counted(count, one, many)] : []));
      if (words.length > 0)
        page.end(
          `${capital(listed(words))} more: a comment holds no more. The gravest stand here; soundwood check shows all.\n`,
        );
      write(page.text);
      return words.length > 0 ? listed(words) : undefined;
    },
  };
};

/** Markdown that grows up to a number of bytes. */
class Page {
  text = '';
  private room: number;

  constructor(most: number) {
    this.room = most;
  }

  add(text: string): boolean {
    const bytes = new TextEncoder().encode(text).length;
    if (bytes > this.room) return false;
    this.room -= bytes;
    this.text += text;
    return true;
  }

  /** Adds as many rows as there is room for, in a part of their own. Returns how many. */
  list(before: string, rows: Iterable<string>): number {
    let count = 0;
    for (const row of rows) {
      if (!this.add(count === 0 ? `\n${before}${row}` : row)) {
        // What comes later is less grave.
        this.room = 0;
        break;
      }
      count++;
    }
    return count;
  }

  /** Into the room that was kept free. */
  end(text: string): void {
    this.text += `\n${text}`;
  }
}

function* lazily<T>(items: readonly T[], row: (item: T) => string): Iterable<string> {
  for (const item of items) yield row(item);
}

type Accepted = Finding & { readonly accepted: NonNullable<Finding['accepted']> };
type FileNaming = (file: string) => string;

const place = (finding: Finding, shown: FileNaming) => escapeReview(`${shown(finding.file)}:${finding.line}`);
const treeOf = ({ tree }: Finding) => (tree === undefined ? '' : escapeReview(tree));

const OPEN = ['Level', 'Tree', 'Finding', 'What to do', 'Rule', 'Place'];
const ACCEPTED = ['Tree', 'Finding', 'By', 'Until', 'Why', 'Rule', 'Place'];

/** @param cells Markdown */
const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |\n`;
const head = (columns: readonly string[]): string => row(columns) + row(columns.map(() => '---'));

const openRow = (finding: Finding, shown: FileNaming, region: RegionCode): string =>
  row([
    MARKS[finding.level],
    treeOf(finding),
    escapeReview(readInRegion(finding.message, region)),
    escapeReview(readInRegion(finding.remedy, region)),
    escapeReview(finding.rule),
    place(finding, shown),
  ]);

const acceptedRow = (finding: Accepted, shown: FileNaming, region: RegionCode): string =>
  row([
    treeOf(finding),
    escapeReview(readInRegion(finding.message, region)),
    escapeReview(finding.accepted.by),
    longDate(finding.accepted.until, region),
    escapeReview(finding.accepted.because),
    escapeReview(finding.rule),
    place(finding, shown),
  ]);
