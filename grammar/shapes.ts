/**
 * Reads lines that differ from an earlier line only in their digits without parsing them: no token and no form depends
 * on which digit is where. Tags and positions, which no two trees share, are of a few shapes. Saves 2 to 4 % of a check.
 */

import type { Item, Line, LineSyntax, Value } from './syntax.ts';
import type { Span } from './text.ts';

/** Size of the cache; cleared when full. Trees numbered by hand have a few dozen shapes. */
const CACHED_SHAPES = 1000;

/** Cache of lines below one head, by shape. */
export class Shapes {
  private readonly byHash = new Map<number, LineShape>();

  /** The line as read, if one of its shape is cached. */
  read(text: string): Line | undefined {
    const shape = this.byHash.get(hashOf(text));
    return shape && hasShape(text, shape.text) ? lineOf(text, shape) : undefined;
  }

  keep(line: Line): void {
    const shape = shapeOf(line);
    if (!shape) return;
    if (this.byHash.size >= CACHED_SHAPES) this.byHash.clear();
    this.byHash.set(hashOf(shape.text), shape);
  }
}

const isDigit = (code: number): boolean => code >= 48 && code <= 57;

/** Hash of the text with all digits replaced by 0. */
function hashOf(text: string): number {
  let hash = text.length;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    hash = (Math.imul(hash, 31) + (isDigit(code) ? 48 : code)) | 0;
  }
  return hash;
}

function hasShape(text: string, other: string): boolean {
  if (text.length !== other.length) return false;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    const its = other.charCodeAt(i);
    if (code !== its && !(isDigit(code) && isDigit(its))) return false;
  }
  return true;
}

interface LineShape {
  readonly text: string;
  readonly line: Line;
  readonly items: readonly Varying[];
  readonly values: readonly Varying[];
}

/** An item or value with digits, by index, and the span to read again. */
type Varying =
  | { readonly kind: 'number'; readonly index: number; readonly from: number; readonly to: number }
  | { readonly kind: 'text'; readonly index: number; readonly from: number; readonly to: number }
  /** A value with the quantity of an item. */
  | { readonly kind: 'quantity'; readonly index: number; readonly item: number };

/** A dot before a letter may begin a file extension, and `mp4` contains a digit. */
const MAY_BE_PATH = /\.[A-Za-z]/;

const HAS_DIGIT = /[0-9]/;

/** Undefined if the meaning depends on digits other than in numbers and texts (dates, paths). */
function shapeOf(line: Line): LineShape | undefined {
  const { syntax, values, mistake } = line;
  const { text } = syntax;
  if (mistake || MAY_BE_PATH.test(text)) return undefined;
  const itemsVarying = varying(syntax.items, (item, index) => itemVarying(item, index, text), text);
  const valuesVarying = varying(values, (value, index) => valueVarying(value, index, syntax), text);
  return itemsVarying && valuesVarying && { text, line, items: itemsVarying, values: valuesVarying };
}

function varying<T extends Span>(
  all: readonly T[],
  of: (one: T, index: number) => Varying | undefined,
  text: string,
): readonly Varying[] | undefined {
  const found: Varying[] = [];
  for (const [index, one] of all.entries()) {
    if (!HAS_DIGIT.test(text.slice(one.start, one.end))) continue;
    const known = of(one, index);
    if (!known) return undefined;
    found.push(known);
  }
  return found;
}

function itemVarying(item: Item, index: number, text: string): Varying | undefined {
  switch (item.kind) {
    case 'word':
    case 'cultivar':
    case 'text':
      return textVarying(item, index, text);
    case 'quantity':
      return numberVarying(item, index, text);
    default:
      return undefined;
  }
}

function valueVarying(value: Value, index: number, { items, text }: LineSyntax): Varying | undefined {
  if (value.type === 'text') return textVarying(value, index, text);
  if (value.type !== 'quantity') return undefined;
  const item = items.findIndex(one => one.kind === 'quantity' && one.quantity === value.quantity);
  return item < 0 ? undefined : { kind: 'quantity', index, item };
}

/** A text, with or without quotation marks. */
function textVarying(
  one: Span & { readonly text: string },
  index: number,
  line: string,
): Varying | undefined {
  const { start, end, text } = one;
  if (line.slice(start, end) === text) return { kind: 'text', index, from: start, to: end };
  if (line.slice(start + 1, end - 1) === text) return { kind: 'text', index, from: start + 1, to: end - 1 };
  return undefined;
}

const NUMBER = /^[-+]?\d+(?:\.\d+)?/;

/** One exact number, with or without a unit. */
function numberVarying(
  { quantity, start, end }: Extract<Item, { kind: 'quantity' }>,
  index: number,
  line: string,
): Varying | undefined {
  const written = line.slice(start, end);
  const number = NUMBER.exec(written)?.[0];
  if (quantity.form !== 'exact' || number === undefined || HAS_DIGIT.test(written.slice(number.length)))
    return undefined;
  return { kind: 'number', index, from: start, to: start + number.length };
}

function lineOf(text: string, { line, items: itemsVarying, values: valuesVarying }: LineShape): Line {
  const { syntax, role, word } = line;
  const items = syntax.items.slice();
  for (const one of itemsVarying) items[one.index] = itemLike(items[one.index]!, one, text);
  const values = line.values.slice();
  for (const one of valuesVarying) values[one.index] = valueLike(values[one.index]!, one, text, items);
  return {
    syntax: { text, items, comment: syntax.comment, mistake: undefined },
    role,
    word,
    values,
    mistake: undefined,
  };
}

function itemLike(item: Item, varying: Varying, text: string): Item {
  const { start, end } = item;
  if (item.kind === 'quantity' && varying.kind === 'number') {
    const { dimension, unit } = item.quantity;
    const number = Number(text.slice(varying.from, varying.to));
    const low = unit ? number * unit.factor : number;
    return { kind: 'quantity', quantity: { form: 'exact', low, high: low, dimension, unit }, start, end };
  }
  if (item.kind !== 'quantity' && 'text' in item && varying.kind === 'text')
    return { kind: item.kind, text: text.slice(varying.from, varying.to), start, end };
  return item;
}

function valueLike(value: Value, varying: Varying, text: string, items: readonly Item[]): Value {
  const { name, start, end } = value;
  if (varying.kind === 'quantity') {
    const item = items[varying.item]!;
    return item.kind === 'quantity' ? { name, type: 'quantity', quantity: item.quantity, start, end } : value;
  }
  return { name, type: 'text', text: text.slice(varying.from, varying.to), start, end };
}
