/** What the forms of findings for a terminal share: colors, the line that a finding is about, the last line. */

import { counted } from '../base/words.ts';
import type { Finding } from '../rules/check.ts';
import { sanitizeForLog, sanitizeLine } from './sanitize.ts';
import type { Summary } from './summary.ts';

/** Colors a text; returns it unchanged without colors. */
export type Paint = (format: 'red' | 'yellow' | 'blue' | 'bold' | 'dim', text: string) => string;

/** No colors. */
export const plain: Paint = (_format, text) => text;

/** Width where the terminal does not tell its own. */
export const COLUMNS = 80;

const COLOURS = { error: 'red', warning: 'yellow', note: 'blue' } as const;

/** The text in the color of the finding's severity, which never is its only sign. */
export const paintAs = ({ level, accepted }: Finding, paint: Paint, text: string): string =>
  paint(accepted ? 'dim' : COLOURS[level], text);

/** Longest part of a line that is shown, around the marker. */
const EXCERPT_WIDTH = 100;
/** Characters shown before the marker in a cut line. */
const BEFORE_MARKER = 30;

/**
 * The line on which a finding begins, and a marker below it.
 * @param line text of the line, without line end
 * @param gutters before each of the two, of the same width
 */
export function excerpt(
  finding: Finding,
  line: string,
  paint: Paint,
  gutters: readonly [string, string],
): [string, string] {
  const column = finding.column - 1;
  // UTF-16 units.
  const width = finding.endLine > finding.line ? line.length : finding.endColumn - finding.column;
  const tooLong = line.length > EXCERPT_WIDTH;
  const from = tooLong ? Math.max(0, Math.min(column - BEFORE_MARKER, line.length - EXCERPT_WIDTH)) : 0;
  const cut = line.slice(from, from + EXCERPT_WIDTH);
  const [head, tail] = [from > 0 ? '…' : '', from + EXCERPT_WIDTH < line.length ? '…' : ''];
  const markFrom = column - from;
  const marked = sanitizeForLog(cut.slice(markFrom, markFrom + Math.max(0, width)));
  const under = `${gutters[1]}${head ? ' ' : ''}${blank(sanitizeForLog(cut.slice(0, markFrom)))}`;
  const marker = '^'.repeat(Math.max(1, columnsOf(marked.trimEnd())));
  return [`${gutters[0]}${head}${sanitizeForLog(cut)}${tail}`, `${under}${paintAs(finding, paint, marker)}`];
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
    return ` ${counted(beyond, 'sign')} beyond a limit or perhaps beyond it, addressed in time.`;
  return judged > 0
    ? ' All that is recorded was judged and lies within its limits.'
    : ' No sign that needs judging is on record.';
}
