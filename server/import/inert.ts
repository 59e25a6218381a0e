/**
 * Texts in cells of a table that spreadsheets would take for a formula, or readers for "no value", begin with one
 * apostrophe more: `=1+1` is written `'=1+1`, `'=1+1` is written `''=1+1`, a tree named "none" `'none`. Reading
 * takes that one apostrophe off again; other cells, plain numbers below zero among them, are left as they are.
 */

import { saysNothing } from './sizes.ts';

const FORMULA = /^'*[=+@-]/;
const NUMBER = /^-?\d+(?:\.\d+)?$/;

const needsApostrophe = (text: string): boolean =>
  text !== '' && ((FORMULA.test(text) && !NUMBER.test(text)) || saysNothing(text.replace(/^'+/, '') || text));

/** A text as it is written into a cell. */
export const inertCell = (text: string): string => (needsApostrophe(text) ? `'${text}` : text);

/** The text of a cell that `inertCell` wrote; any other cell as it is. */
export const textOfCell = (cell: string): string =>
  cell.startsWith("'") && needsApostrophe(cell.slice(1)) ? cell.slice(1) : cell;
