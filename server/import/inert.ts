/**
 * Texts in cells of a table that spreadsheets would take for a formula, or readers for "no value", begin with one
 * apostrophe more: `=1+1` is written `'=1+1`, `'=1+1` is written `''=1+1`, a tree named "none" `'none`. Where the
 * decimal mark is a comma, spreadsheets part cells at semicolons, and what a cell holds behind one, or on a line of its
 * own, is a cell to them: `a;=1+1` is written `a;'=1+1`. Reading takes these apostrophes off again; other cells, plain
 * numbers below zero among them, are left as they are.
 */

import { saysNothing } from './sizes.ts';

/** The last four are as wide as the letters of East Asian scripts, and as good to some spreadsheets. */
const SIGNS = '=+@\\-\uFF1D\uFF0B\uFF20\uFF0D';
const FORMULA = new RegExp(`^'*[${SIGNS}]`);
const NUMBER = /^-?\d+(?:\.\d+)?$/;
/** Where a spreadsheet may begin another cell within a text; quotation marks there may be read as those of a cell. */
const INNER = new RegExp(`(?<=[;\n])(?=[\\s"']*[${SIGNS}])`, 'g');
const INNER_WRITTEN = new RegExp(`(?<=[;\n])'(?=[\\s"']*[${SIGNS}])`, 'g');

const needsApostrophe = (text: string): boolean =>
  text !== '' && ((FORMULA.test(text) && !NUMBER.test(text)) || saysNothing(text.replace(/^'+/, '') || text));

/** A text as it is written into a cell. */
export const inertCell = (text: string): string =>
  (needsApostrophe(text) ? `'${text}` : text).replace(INNER, "'");

/** The text of a cell that `inertCell` wrote; any other cell as it is. */
export const textOfCell = (cell: string): string => {
  const text = cell.replace(INNER_WRITTEN, '');
  return text.startsWith("'") && needsApostrophe(text.slice(1)) ? text.slice(1) : text;
};
