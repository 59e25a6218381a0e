/** Texts of cells as the notation writes them. */

import { NO_TEXT } from '../../grammar/text.ts';

/** What can't stand in a line as it is: line breaks, other control characters, runs of white space. */
const ODD = new RegExp(`[${NO_TEXT}]|[^\\S ]|^ | $| {2}`);
const BLANKS = new RegExp(`[\\s${NO_TEXT}]+`, 'g');

/** Text without line breaks and other control characters, which can't stand in a line. */
export const oneLine = (text: string): string => (ODD.test(text) ? text.replace(BLANKS, ' ').trim() : text);

/** A text of one line as the notation has it: quotation marks inside are written twice. */
export const quoted = (line: string): string =>
  line.includes('"') ? `"${line.replaceAll('"', '""')}"` : `"${line}"`;

/** Texts kept by `remembered` for one column. */
const MOST_KEPT = 5000;

/** Asks once for each text, as long as there are not too many of them. */
export function remembered<T>(read: (text: string) => T): (text: string) => T {
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
