/** Lexical errors, and the text of a line without them, from which it can still be classified. */

import type { IToken } from 'chevrotain';
import { withStraightMarks } from './habits.ts';
import type { Mistake } from './syntax.ts';
import { inQuotes, NO_TEXT } from './text.ts';
import * as T from './tokens.ts';

const NOT_TEXT = new RegExp(`[${NO_TEXT}]`);
const ALL_NOT_TEXT = new RegExp(NOT_TEXT, 'g');

/** Longest line that is parsed; a longer one is a mistake in itself. */
export const LINE_LIMIT = 20_000;

/** Mistakes that are found without lexing. */
export function mistakeOfRawLine(text: string): Mistake | undefined {
  const span = { start: 0, end: Math.min(text.length, 80) };
  if (text.length > LINE_LIMIT) {
    return {
      code: 'line-too-long',
      message: `This line is ${text.length} characters long; the limit is ${LINE_LIMIT}.`,
      remedy: 'Check that the file is an inventory, and split long text into several notes.',
      ...span,
    };
  }
  const control = text.search(NOT_TEXT);
  if (control >= 0) {
    return {
      code: 'not-text',
      message: `Found a character that is not text (code ${text.charCodeAt(control)}).`,
      remedy: 'Remove the character, and save the file as plain UTF-8 text.',
      start: control,
      end: control + 1,
      fix: '',
    };
  }
  if (/^(<{7}|={7}|>{7}|\|{7})( |$)/.test(text)) {
    return {
      code: 'merge-conflict',
      message: 'This merge conflict was not resolved.',
      remedy: 'Keep one of the versions, and delete the marker lines.',
      start: 0,
      end: text.length,
    };
  }
  return undefined;
}

/** The mistake of a stray mark or an unclosed text; habits.ts may know better what is meant. */
export function lexicalMistake({ tokenType, image, startOffset: start }: IToken): Mistake {
  if (tokenType === T.UnclosedText) {
    return {
      code: 'unclosed-quote',
      message: 'This quotation mark is not closed on the same line.',
      remedy: 'Add a closing ", or write "" for a quotation mark inside the text.',
      start,
      end: start + image.trimEnd().length,
      fix: `${image.trimEnd()}"`,
    };
  }
  return {
    code: 'stray-mark',
    message: /\p{Default_Ignorable_Code_Point}/u.test(image)
      ? `Found an invisible character (code ${image.codePointAt(0)}).`
      : `Unexpected character ${inQuotes(image)}.`,
    remedy: 'Remove it, or put the whole text in quotation marks.',
    start,
    end: start + image.length,
    fix: '',
  };
}

/**
 * A line without its lexical errors, so that it can be classified: stray marks become blanks of the same length, and an
 * unclosed text is cut off.
 */
export function withoutLexicalErrors(text: string): string {
  const straight = withStraightMarks(text.replace(ALL_NOT_TEXT, ' '));
  const kept: string[] = [];
  let end = 0;
  for (const { tokenType, image, startOffset } of T.tokensOf(straight).tokens) {
    if (tokenType !== T.Stray && tokenType !== T.UnclosedText) continue;
    kept.push(straight.slice(end, startOffset));
    if (tokenType === T.UnclosedText) return kept.join('');
    kept.push(' '.repeat(image.length));
    end = startOffset + image.length;
  }
  return kept.join('') + straight.slice(end);
}
