/** Cell texts in the notation. */

import { NO_TEXT } from '../../grammar/text.ts';

/** Not allowed in a line: line breaks, other control characters, runs of white space. */
const ODD = new RegExp(`[${NO_TEXT}]|[^\\S ]|^ | $| {2}`);
const BLANKS = new RegExp(`[\\s${NO_TEXT}]+`, 'g');

/** The text on one line, without control characters. */
export const oneLine = (text: string): string => (ODD.test(text) ? text.replace(BLANKS, ' ').trim() : text);

/** A string in the notation: quotation marks inside are doubled. */
export const stringLiteral = (line: string): string =>
  line.includes('"') ? `"${line.replaceAll('"', '""')}"` : `"${line}"`;

/** Greatest number of results kept per column. */
const MOST_KEPT = 5000;

/** Memoizes by text: most cells of a long table repeat. */
export function memoized<T>(read: (text: string) => T): (text: string) => T {
  const known = new Map<string, T>();
  return text => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const result = read(text);
    if (known.size >= MOST_KEPT) known.clear();
    known.set(text, result);
    return result;
  };
}
