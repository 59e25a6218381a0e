/** The words of one line. Every character of a line falls into some token, so lexing itself never fails. */

import { createToken, Lexer, type TokenType } from 'chevrotain';
import { UNITS } from './quantity.ts';

const escapePattern = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const letterUnits = UNITS.map(unit => unit.symbol)
  .filter(symbol => symbol !== '%')
  .sort((a, b) => b.length - a.length)
  .map(escapePattern);

/** Letters of any script count as letters; × and typographic dashes, quotes and spaces do not. */
const LETTER =
  'A-Za-z_\\u00AA\\u00B5\\u00BA\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u1FFF\\u2C00-\\uD7FF\\uF900-\\uFDFF\\uFE70-\\uFEFE\\uFF10-\\uFFEF';
const PATH_ENDINGS = 'jpe?g|png|tiff?|heic|webp|dng|gif|pdf|svg|csv|txt|mp4|mov';

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
  pattern: new RegExp(
    `[${LETTER}0-9./\\\\][${LETTER}0-9./\\\\()-]*\\.(?:${PATH_ENDINGS}|JPE?G|PNG)(?![A-Za-z0-9])`,
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

export const lexer = new Lexer([...TOKENS], {
  positionTracking: 'onlyOffset',
  // The token table is checked by the tests; at run time the check would only cost start-up time.
  skipValidations: true,
  ensureOptimizations: false,
});
