/** The tokens of one line. Every character of a line falls into some token, so lexing itself never fails. */

import { createToken, type IToken, type TokenType } from 'chevrotain';
import { UNITS, unitWords } from '../server/base/quantity.ts';

const escapePattern = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const letterUnits = UNITS.flatMap(unitWords)
  .filter(symbol => symbol !== '%')
  .sort((a, b) => b.length - a.length)
  .map(escapePattern);

/** Letters of any script count as letters; × and typographic dashes, quotes and spaces do not. */
const LETTER =
  'A-Za-z_\\u00AA\\u00B5\\u00BA\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u1FFF\\u2C00-\\uD7FF\\uF900-\\uFDFF\\uFE70-\\uFEFE\\uFF10-\\uFFEF';
const PATH_START = new RegExp(`[${LETTER}0-9./\\\\]`);
const PATH_RUN = new RegExp(`[${LETTER}0-9./\\\\()-]*`, 'y');
const PATH_ENDING =
  /\.(?:jpe?g|JPE?G|png|PNG|tiff?|heic|webp|dng|gif|pdf|svg|csv|txt|mp4|mov)(?![A-Za-z0-9])/y;

/** The latest run of path characters: the dot of its last file extension and the end of that path, or -1. */
const run = { text: '', start: 0, end: 0, dot: -1, pathEnd: -1 };

/** The path at an offset. Each run is searched once: searching at each of its tokens would be quadratic. */
function pathAt(text: string, offset: number): [string] | null {
  if (!PATH_START.test(text.charAt(offset))) return null;
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

export const Space = createToken({ name: 'Space', pattern: /[ \t\u00A0\uFEFF]+/ });
export const Comment = createToken({ name: 'Comment', pattern: /#[^\r\n]*/ });
/** A quotation mark inside a string is written twice. */
export const Text = createToken({ name: 'Text', pattern: /"[^"\r\n]*(?:""[^"\r\n]*)*"/, line_breaks: false });
export const UnclosedText = createToken({ name: 'UnclosedText', pattern: /"[^\r\n]*/ });
export const Cultivar = createToken({ name: 'Cultivar', pattern: /'[^'\r\n]+'/ });
export const Path = createToken({
  name: 'Path',
  pattern: { exec: pathAt },
  line_breaks: false,
});
export const DateText = createToken({ name: 'DateText', pattern: /\d{4}-\d{1,2}-\d{1,2}(?![\w-])/ });
export const MonthDayText = createToken({ name: 'MonthDayText', pattern: /\d{2}-\d{2}(?![\w-])/ });
export const Number_ = createToken({ name: 'Number', pattern: /[-+]?\d+(?:\.\d+|\/\d+)?/ });
export const Word = createToken({
  name: 'Word',
  pattern: new RegExp(`×|[${LETTER}][${LETTER}0-9-]*(?:\\.(?!\\.)|/[${LETTER}]+)?`),
});
/** A name such as 7.2.1 or 14-a, which begins like a number. */
const NumberedName = createToken({
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
/** Any other character. */
export const Stray = createToken({
  name: 'Stray',
  pattern: /[\uD800-\uDBFF][\uDC00-\uDFFF]|[^\r\n]/,
});

/** In the order in which they are tried. */
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

/** Tokens with a regular expression. Path may be tried first: no token before it begins with the same character. */
const PLAIN = TOKENS.filter(type => type !== Path);
const sourceOf = ({ PATTERN }: TokenType): string => (PATTERN as RegExp).source;
const ANY = new RegExp(PLAIN.map(type => `(${sourceOf(type)})`).join('|'), 'y');
const WORD = new RegExp(sourceOf(Word), 'y');

/** The tokens of a line without its space and, apart, its comment. */
export interface Lexed {
  readonly tokens: IToken[];
  readonly comment: IToken | undefined;
}

/**
 * Equivalent to Chevrotain's lexer for the same tokens (test/grammar/tokens.test.ts), without its analysis of their
 * regular expressions, which takes a tenth of a small check.
 */
export function lex(text: string): Lexed {
  const tokens: IToken[] = [];
  let comment: IToken | undefined;
  for (let startOffset = 0; startOffset < text.length; ) {
    const token = tokenAt(text, startOffset);
    if (!token) break;
    startOffset += token.image.length;
    if (token.tokenType === Comment) comment = token;
    else if (token.tokenType !== Space) tokens.push(token);
  }
  return { tokens, comment };
}

/** Undefined at a line end. */
function tokenAt(text: string, startOffset: number): IToken | undefined {
  const path = pathAt(text, startOffset);
  if (path) return tokenOf(Path, path[0], startOffset);
  ANY.lastIndex = startOffset;
  const found = ANY.exec(text);
  if (!found) return undefined;
  let group = 1;
  while (found[group] === undefined) group++;
  const type = PLAIN[group - 1]!;
  const image = found[0];
  if (type !== Unit) return tokenOf(type, image, startOffset);
  // `longer_alt` of the token.
  WORD.lastIndex = startOffset;
  const word = WORD.exec(text)?.[0] ?? '';
  return word.length > image.length ? tokenOf(Word, word, startOffset) : tokenOf(type, image, startOffset);
}

const tokenOf = (tokenType: TokenType, image: string, startOffset: number): IToken => ({
  image,
  startOffset,
  tokenTypeIdx: tokenType.tokenTypeIdx!,
  tokenType,
});

let latest: { readonly text: string; readonly lexed: Lexed } | undefined;

/** Caches the latest line: one with a lexical error is lexed again immediately. */
export function tokensOf(text: string): Lexed {
  if (latest?.text !== text) latest = { text, lexed: lex(text) };
  return latest.lexed;
}
