/** The words of one line. Every character of a line falls into some token, so lexing itself never fails. */

import { createToken, Lexer, type TokenType } from 'chevrotain';
import { UNITS, unitWords } from '../server/base/quantity.ts';

const escapePattern = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const letterUnits = UNITS.flatMap(unitWords)
  .filter(symbol => symbol !== '%')
  .sort((a, b) => b.length - a.length)
  .map(escapePattern);

/** Letters of any script count as letters; × and typographic dashes, quotes and spaces do not. */
const LETTER =
  'A-Za-z_\\u00AA\\u00B5\\u00BA\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u1FFF\\u2C00-\\uD7FF\\uF900-\\uFDFF\\uFE70-\\uFEFE\\uFF10-\\uFFEF';
const PATH_START = `[${LETTER}0-9./\\\\]`;
const PATH_RUN = new RegExp(`[${LETTER}0-9./\\\\()-]*`, 'y');
const PATH_ENDING =
  /\.(?:jpe?g|JPE?G|png|PNG|tiff?|heic|webp|dng|gif|pdf|svg|csv|txt|mp4|mov)(?![A-Za-z0-9])/y;

/** The last run of characters that a path may hold, and in it the dot and the end of the last path; -1 without one. */
const run = { text: '', start: 0, end: 0, dot: -1, pathEnd: -1 };

/** A path from an offset on. Looked for once in each run: at each of its words the whole run would be passed again. */
function pathAt(text: string, offset: number): [string] | null {
  if (offset < run.start || offset >= run.end || text !== run.text) readRun(text, offset);
  return offset < run.dot ? [text.slice(offset, run.pathEnd)] : null;
}

function readRun(text: string, start: number): void {
  PATH_RUN.lastIndex = start;
  PATH_RUN.test(text);
  const end = PATH_RUN.lastIndex;
  run.text = text;
  run.start = start;
  run.end = end;
  run.dot = run.pathEnd = -1;
  const own = text.slice(start, end);
  for (let dot = own.lastIndexOf('.'); dot > 0; dot = own.lastIndexOf('.', dot - 1)) {
    PATH_ENDING.lastIndex = start + dot;
    if (!PATH_ENDING.test(text)) continue;
    run.dot = start + dot;
    run.pathEnd = PATH_ENDING.lastIndex;
    return;
  }
}

export const Space = createToken({
  name: 'Space',
  pattern: /[ \t\u00A0\uFEFF]+/,
  group: Lexer.SKIPPED,
});
export const Comment = createToken({ name: 'Comment', pattern: /#[^\r\n]*/, group: 'comments' });
/** A quotation mark inside a string is written twice. */
export const Text = createToken({ name: 'Text', pattern: /"[^"\r\n]*(?:""[^"\r\n]*)*"/, line_breaks: false });
export const UnclosedText = createToken({ name: 'UnclosedText', pattern: /"[^\r\n]*/ });
export const Cultivar = createToken({ name: 'Cultivar', pattern: /'[^'\r\n]+'/ });
export const Path = createToken({
  name: 'Path',
  pattern: { exec: pathAt },
  line_breaks: false,
  // Where a path may begin; beyond the first 256 characters the lexer goes by groups of 255.
  start_chars_hint: Array.from({ length: 512 }, (_, i) => (i < 256 ? i : 256 + (i - 256) * 255)).filter(
    code => code > 255 || new RegExp(PATH_START).test(String.fromCharCode(code)),
  ),
});
export const DateText = createToken({ name: 'DateText', pattern: /\d{4}-\d{1,2}-\d{1,2}(?![\w-])/ });
export const MonthDayText = createToken({ name: 'MonthDayText', pattern: /\d{2}-\d{2}(?![\w-])/ });
export const Number_ = createToken({ name: 'Number', pattern: /[-+]?\d+(?:\.\d+|\/\d+)?/ });
export const Word = createToken({
  name: 'Word',
  pattern: new RegExp(`×|[${LETTER}][${LETTER}0-9-]*(?:\\.(?!\\.)|/[${LETTER}]+)?`),
});
/** A name such as 7.2.1 or 14-a, which would otherwise begin like a number. */
export const NumberedName = createToken({
  name: 'NumberedName',
  pattern: new RegExp(`\\d+(?:(?:\\.\\d+){2,}|-[${LETTER}])[${LETTER}0-9-]*`),
  categories: [Word],
});
export const Unit = createToken({
  name: 'Unit',
  pattern: new RegExp(`%|(?:${letterUnits.join('|')})(?![${LETTER}0-9.-])`),
  longer_alt: Word,
});
export const Dots = createToken({ name: 'Dots', pattern: /\.\./ });
export const Comma = createToken({ name: 'Comma', pattern: /,/ });
export const About = createToken({ name: 'About', pattern: /~/ });
export const Above = createToken({ name: 'Above', pattern: />/ });
export const Below = createToken({ name: 'Below', pattern: /</ });
/**
 * Anything else: a mark that the notation has no use for. Written without a complement set, which would keep the
 * lexer from choosing patterns by the first character of a word.
 */
export const Stray = createToken({
  name: 'Stray',
  pattern: /[\uD800-\uDBFF][\uDC00-\uDFFF]|[\0-\x09\x0B\x0C\x0E-\uFFFF]/,
});

export const TOKENS: readonly TokenType[] = [
  Space,
  Comment,
  Text,
  UnclosedText,
  Cultivar,
  Path,
  DateText,
  MonthDayText,
  NumberedName,
  Number_,
  Unit,
  Word,
  Dots,
  Comma,
  About,
  Above,
  Below,
  Stray,
];

const lexer = new Lexer([...TOKENS], {
  positionTracking: 'onlyOffset',
  // The token table is checked by the tests; at run time the check would only cost start-up time.
  skipValidations: true,
  ensureOptimizations: false,
});

/** The words of a line and, apart, its comment. */
export type Words = Pick<ReturnType<typeof lexer.tokenize>, 'tokens' | 'groups'>;

let last: { readonly text: string; readonly words: Words } | undefined;

/** Who finds a line spoilt asks for its words once more at once. */
export function wordsOf(text: string): Words {
  if (last?.text !== text) last = { text, words: lexer.tokenize(text) };
  return last.words;
}
