/** Sizes as people write them in cells: a number, several stems, a class, an estimate, a code for "no value". */

import type { LengthUnit } from './meanings.ts';
import { unitOfWord } from './meanings.ts';
import type { Separator } from './table.ts';

/** One reading, in the unit of its cell, or of its column where the cell has none. */
export interface SizeRead {
  readonly form: 'exact' | 'about' | 'range' | 'above' | 'below';
  readonly low: number;
  readonly high: number;
  readonly unit: LengthUnit | undefined;
}

export type CellRead =
  | { readonly kind: 'sizes'; readonly sizes: readonly SizeRead[] }
  | { readonly kind: 'missing'; readonly reason: string }
  | { readonly kind: 'unreadable'; readonly reason: string };

const NOTHING = /^(?:n\.?\/?a\.?|nan|null|nil|none|unknown|not (?:known|measured|recorded)|-+|\?+|x)$/i;

/** Whether a cell is empty or a code for "no value". */
export const isNoValue = (cell: string): boolean => cell === '' || NOTHING.test(cell);

/** The decimal sign of a column: 12.5 or 12,5. */
export type DecimalSign = 'point' | 'comma';

/**
 * The decimal sign of a column; undefined where its cells are ambiguous. A comma before exactly
 * three digits is a thousands separator where commas also separate the cells.
 */
export function decimalSign(cells: readonly string[], separator: Separator): DecimalSign | undefined {
  if (cells.some(cell => /\d\.\d/.test(cell))) return 'point';
  const tells = separator === ',' ? /\d,(?!\d{3}(?!\d))\d/ : /\d,\d/;
  return cells.some(cell => tells.test(cell)) ? 'comma' : undefined;
}

/** Why a cell is ambiguous in a column with this decimal sign. */
export function signConflict(cell: string, sign: DecimalSign, separator: Separator): string | undefined {
  if (sign === 'comma') {
    return /\d\.\d/.test(cell) ? 'the column has decimal commas, but this is a point' : undefined;
  }
  const one = /^[^,]*\d,\d[^,]*$/.test(cell) && decimalSign([cell], separator) === 'comma';
  return one ? 'the column has decimal points, but this is a comma' : undefined;
}

const NUMBER = String.raw`\d+(?:\.\d+)?|\.\d+`;
const UNIT = String.raw`["']|[A-Za-z]+\.?`;
const ONE = new RegExp(
  `^([~<>]|about |approx\\.? |ca\\.? |c\\. ?)?\\s*(-?(?:${NUMBER}))\\s*(${UNIT})?(\\+)?$`,
  'i',
);
const CLASS = new RegExp(
  `^(${NUMBER})\\s*(${UNIT})?\\s*(?:-|–|\\.\\.|to|tot|bis|à|a|até|fino a|hasta)\\s*(${NUMBER})\\s*(${UNIT})?$`,
  'i',
);
const FEET_AND_INCHES = new RegExp(`^(\\d+)\\s*(?:'|ft|feet)\\s*(${NUMBER})\\s*(?:"|''|in|inches)$`, 'i');

/** Why a 0 is left out. */
export const NO_SIZE = 'no tree has the size 0; it stands for an unknown value';

/** Reads one cell. Several stems are separated by ; / + & or `and`. */
export function readSize(cell: string, sign: DecimalSign | undefined): CellRead {
  if (isNoValue(cell)) return { kind: 'missing', reason: 'it means that there is no value' };
  const plain =
    sign === 'comma' ? cell.replace(/(\d),(\d)/g, '$1.$2') : cell.replace(/(\d),(\d{3})(?!\d)/g, '$1$2');
  const sizes: SizeRead[] = [];
  for (const part of plain.split(/\s*(?:[;/+&,]\s*(?=\S)|\band\b)\s*/)) {
    const read = readOne(part.trim());
    if (read === undefined) return { kind: 'unreadable', reason: 'it is not a size' };
    sizes.push(read);
  }
  if (sizes.some(size => size.low < 0)) return { kind: 'unreadable', reason: 'a size cannot be negative' };
  if (sizes.every(size => size.high === 0)) return { kind: 'missing', reason: NO_SIZE };
  if (sizes.some(size => size.high === 0)) return { kind: 'unreadable', reason: 'one of its sizes is 0' };
  return { kind: 'sizes', sizes };
}

function readOne(text: string): SizeRead | undefined {
  const both = FEET_AND_INCHES.exec(text);
  if (both) {
    const inches = Number(both[1]) * 12 + Number(both[2]);
    return { form: 'exact', low: inches, high: inches, unit: 'in' };
  }
  const range = CLASS.exec(text);
  if (range) {
    const word = range[4] ?? range[2];
    const unit = word === undefined ? undefined : unitOfWord(word.replace(/\.$/, ''));
    const [low, high] = [Number(range[1]), Number(range[3])];
    if ((word !== undefined && unit === undefined) || high < low) return undefined;
    return { form: low === high ? 'exact' : 'range', low, high, unit };
  }
  const one = ONE.exec(text);
  if (!one) return undefined;
  const unit = one[3] === undefined ? undefined : unitOfWord(one[3].replace(/\.$/, ''));
  if (one[3] !== undefined && unit === undefined) return undefined;
  const value = Number(one[2]);
  const sign = one[1]?.trim();
  const form =
    one[4] || sign === '>' ? 'above' : sign === '<' ? 'below' : sign !== undefined ? 'about' : 'exact';
  return { form, low: value, high: value, unit };
}

const FORMS = { exact: '', about: '~', above: '> ', below: '< ', range: '' } as const;

/** A reading in the notation: `12.5 in`, `6..10 in`, `> 30 in`. */
export function showSize(size: SizeRead, columnUnit: LengthUnit): string {
  const amount = size.form === 'range' ? `${size.low}..${size.high}` : `${size.low}`;
  return `${FORMS[size.form]}${amount} ${size.unit ?? columnUnit}`;
}
