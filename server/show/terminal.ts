/**
 * Findings for a terminal in the format of compilers, which editors and scripts parse:
 * `path:line:column: error: message [rule]`, the line with the span underlined, and the remedy.
 */

import { counted } from '../base/words.ts';
import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import { sanitizeForLog, sanitizeLine } from './sanitize.ts';
import type { Summary } from './summary.ts';

/** Colors a text; returns it unchanged without colors. */
export type Paint = (format: 'red' | 'yellow' | 'blue' | 'bold' | 'dim', text: string) => string;

/** No colors. */
export const plain: Paint = (_format, text) => text;

const COLOURS = { error: 'red', warning: 'yellow', note: 'blue' } as const;

/** Longest part of a line that is shown, around the marker. */
const EXCERPT_WIDTH = 100;
/** Characters shown before the marker in a cut line. */
const BEFORE_MARKER = 30;

/**
 * One finding.
 * @param file path as shown to the reader
 * @param line text of the line on which it begins, without line end; undefined if not available
 */
export function showFinding(finding: Finding, file: string, line: string | undefined, paint: Paint): string {
  const { level, accepted } = finding;
  const place = paint('bold', `${sanitizeLine(file)}:${finding.line}:${finding.column}:`);
  const label = accepted ? paint('dim', 'note: accepted:') : paint(COLOURS[level], `${level}:`);
  const head = `${place} ${label} ${sanitizeLine(finding.message)} ${paint('dim', `[${finding.rule}]`)}`;
  const parts = [head];
  if (line !== undefined) {
    const width = finding.endLine > finding.line ? line.length : finding.endColumn - finding.column;
    const marker = (text: string) => (accepted ? paint('dim', text) : paint(COLOURS[level], text));
    parts.push(...excerpt(line, finding.line, finding.column - 1, width, marker));
  }
  if (accepted) {
    parts.push(`  ${sanitizeLine(acceptedWords(accepted))}`);
  } else {
    parts.push(`  ${sanitizeLine(finding.remedy)}`);
    if (finding.caution) parts.push(`  ${paint('dim', sanitizeLine(finding.caution))}`);
  }
  for (const { file: other, line: otherLine, column, message } of finding.related ?? []) {
    parts.push(`  ${sanitizeLine(other)}:${otherLine}:${column}: ${sanitizeLine(message)}`);
  }
  return `${parts.join('\n')}\n`;
}

/** The line with its number, and a marker below it of `width` UTF-16 units from `column` (0-based). */
function excerpt(
  line: string,
  number: number,
  column: number,
  width: number,
  paintMarker: (text: string) => string,
): [string, string] {
  const tooLong = line.length > EXCERPT_WIDTH;
  const from = tooLong ? Math.max(0, Math.min(column - BEFORE_MARKER, line.length - EXCERPT_WIDTH)) : 0;
  const cut = line.slice(from, from + EXCERPT_WIDTH);
  const [head, tail] = [from > 0 ? '…' : '', from + EXCERPT_WIDTH < line.length ? '…' : ''];
  const markFrom = column - from;
  const marked = sanitizeForLog(cut.slice(markFrom, markFrom + Math.max(0, width)));
  const gutter = `${String(number).padStart(6)} | `;
  const under = `${' '.repeat(gutter.length - 2)}| ${head ? ' ' : ''}${blank(sanitizeForLog(cut.slice(0, markFrom)))}`;
  const marker = '^'.repeat(Math.max(1, columnsOf(marked.trimEnd())));
  return [`${gutter}${head}${sanitizeForLog(cut)}${tail}`, `${under}${paintMarker(marker)}`];
}

const WIDE =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\uFF01-\uFF60]/u;
const NO_WIDTH = /\p{Mark}|[\u200B-\u200D]/u;

const ASCII = /^[ -~]*$/;

/** Width of a text in terminal columns. */
function columnsOf(text: string): number {
  if (ASCII.test(text)) return text.length;
  let columns = 0;
  for (const letter of text) columns += NO_WIDTH.test(letter) ? 0 : WIDE.test(letter) ? 2 : 1;
  return columns;
}

/** Spaces as wide as the text; tabs are kept, so that they reach the same stops. */
const blank = (text: string): string =>
  text
    .split('\t')
    .map(part => ' '.repeat(columnsOf(part)))
    .join('\t');

/**
 * The last line: `12 trees in 4 files: 1 error, 2 warnings, 0 notes; 1 accepted; 7 signs not judged.`
 * @param since commit against which the findings are new; undefined if all findings count
 */
export function showSummary(summary: Summary, paint: Paint, since?: string): string {
  const { trees, files, errors, warnings, notes, accepted, judged, notJudged, beyond } = summary;
  const levels = [
    errors > 0 ? paint('red', counted(errors, 'error')) : counted(errors, 'error'),
    warnings > 0 ? paint('yellow', counted(warnings, 'warning')) : counted(warnings, 'warning'),
    counted(notes, 'note'),
  ].join(', ');
  const end = [
    ...(accepted > 0 ? [`; ${accepted} accepted`] : []),
    ...(notJudged > 0 ? [`; ${counted(notJudged, 'sign')} not judged`] : []),
  ].join('');
  const isQuiet = errors + warnings + notes + accepted + notJudged === 0;
  const news = since === undefined ? '' : `, new since ${sanitizeLine(since)}`;
  return `${counted(trees, 'tree')} in ${counted(files, 'file')}: ${levels}${end}${news}.${isQuiet && trees > 0 && since === undefined ? quietWords(judged, beyond) : ''}\n`;
}

/** Why there are no findings: all is within limits, what is beyond is answered, or nothing is recorded. */
function quietWords(judged: number, beyond: number): string {
  if (beyond > 0)
    return ` ${counted(beyond, 'sign')} beyond a limit or perhaps beyond it, each answered in time.`;
  return judged > 0
    ? ' All that is recorded was judged and lies within its limits.'
    : ' Nothing is recorded that would have to be judged.';
}
