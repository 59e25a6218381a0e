/**
 * Cells that a spreadsheet would read as a formula, or an importer as "no value", get one more leading apostrophe:
 * `=1+1` is written `'=1+1`, `'=1+1` is written `''=1+1`, a tree named "none" `'none`. With a decimal comma,
 * spreadsheets separate cells at semicolons, so text after a semicolon or a line break can start a cell as well:
 * `a;=1+1` is written `a;'=1+1`. Reading removes these apostrophes; other cells, including negative numbers, are
 * unchanged.
 */

import { isNoValue } from './sizes.ts';

/** The last four are the fullwidth forms, which some spreadsheets accept as well. */
const SIGNS = '=+@\\-\uFF1D\uFF0B\uFF20\uFF0D';
const FORMULA = new RegExp(`^'*[${SIGNS}]`);
const NUMBER = /^-?\d+(?:\.\d+)?$/;
/** Where a spreadsheet may start another cell within a text; quotation marks there may be read as cell quotes. */
const INNER = new RegExp(`(?<=[;\n])(?=[\\s"']*[${SIGNS}])`, 'g');
const INNER_WRITTEN = new RegExp(`(?<=[;\n])'(?=[\\s"']*[${SIGNS}])`, 'g');

const needsApostrophe = (text: string): boolean =>
  text !== '' && ((FORMULA.test(text) && !NUMBER.test(text)) || isNoValue(text.replace(/^'+/, '') || text));

/** A text as it is written into a cell. */
export const inertCell = (text: string): string =>
  (needsApostrophe(text) ? `'${text}` : text).replace(INNER, "'");

/** The inverse of `inertCell`; any other cell is unchanged. */
export const textOfCell = (cell: string): string => {
  const text = cell.replace(INNER_WRITTEN, '');
  return text.startsWith("'") && needsApostrophe(text.slice(1)) ? text.slice(1) : text;
};
