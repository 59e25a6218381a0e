/**
 * Holds the items of a line against a form. The result is the values by name, or the one mistake that stands
 * furthest right: what was found, what could stand there, the nearest word, and how to write it.
 * Long because every kind of value shares the one state of a match and its furthest mistake.
 */

import {
  type Dimension,
  type Quantity,
  UNSEEN,
  unitMeant,
  unitsFor,
  withUnit,
} from '../server/base/quantity.ts';
import { COMPASS_POINTS, parseCompassPoint } from './bearing.ts';
import { FORM_WORDS } from './fields.ts';
import type { FormNode, ValueType } from './forms.ts';
import { nearest, slipOf } from './nearest.ts';
import { readSpecies, type SpeciesPart } from './species.ts';
import type { Item, LineSyntax, Mistake, Value } from './syntax.ts';
import { inQuotes } from './text.ts';

export type Match = { readonly values: readonly Value[]; readonly mistake: Mistake | undefined };

type Literal = Extract<FormNode, { readonly kind: 'literal' }>;
type ValueNode = Extract<FormNode, { readonly kind: 'value' }>;
type Choice = Extract<FormNode, { readonly kind: 'choice' }>;
type Comma = Extract<FormNode, { readonly kind: 'comma' }>;
/** What could have stood at a place, as the form has it: most lines fail somewhere, where something is optional. */
type Expected = (Literal & { readonly inChoice?: true }) | ValueNode | Choice | Comma;

const UNIT_EXAMPLE: Partial<Record<ValueType, string>> = {
  length: 'a length such as 26 in or 1.4 m',
  share: 'a share such as 18 %',
  angle: 'an angle such as 12 deg',
  speed: 'a speed such as 92 mph or 41 m/s',
  mass: 'a mass such as 400 lb or 180 kg',
  force: 'a force such as 12 kN or 2700 lbf',
  duration: 'a time such as 12 months',
  voltage: 'a voltage such as 12.5 kV',
};

const VALUE_PHRASE: Record<ValueType, string> = {
  length: UNIT_EXAMPLE.length!,
  share: UNIT_EXAMPLE.share!,
  angle: UNIT_EXAMPLE.angle!,
  speed: UNIT_EXAMPLE.speed!,
  mass: UNIT_EXAMPLE.mass!,
  force: UNIT_EXAMPLE.force!,
  duration: UNIT_EXAMPLE.duration!,
  voltage: UNIT_EXAMPLE.voltage!,
  number: 'a number without a unit',
  date: 'a date such as 2026-03-14',
  window: 'a window such as 2026-09-15..2026-11-30',
  monthDays: 'days of the year such as 02-01..08-31',
  text: 'text in quotation marks',
  path: 'the path of a file, such as photos/14.jpg',
  name: 'a name without spaces',
  species: 'a botanical name such as Acer macrophyllum',
  bearing: 'a compass point such as SSW, or degrees such as 205 deg',
  region: 'a region code such as US-OR',
  rule: 'the name of a rule',
  limit: 'the name of a limit',
};

/** Values that have a direction, or a zero that is only agreed on. */
const SIGNED: ReadonlySet<string> = new Set([
  'latitude',
  'longitude',
  'altitude',
  'slope',
  'inclinations',
  'strain',
]);

/**
 * Matches the items from `firstItem` on. With `keepPartial`, what was understood before a mistake is kept:
 * a damaged head still names its block.
 */
export function matchLine(
  line: LineSyntax,
  firstItem: number,
  form: FormNode,
  example: string,
  keepPartial = false,
): Match {
  const state = new Matching(line, keepPartial);
  const end = state.match(form, firstItem);
  if (end === line.items.length) return { values: state.values, mistake: undefined };
  if (end >= 0) state.expectAt(end);
  const mistake = state.mistake(example);
  return {
    values: keepPartial ? state.values : [],
    mistake,
  };
}

export function fits(line: LineSyntax, firstItem: number, form: FormNode): boolean {
  return new Matching(line, false).match(form, firstItem) === line.items.length;
}

export type ExpectedNext =
  /** A literal, or the words of a choice, which is one thing however many of them are there already. */
  | { readonly kind: 'word'; readonly words: string }
  | { readonly kind: 'comma' }
  | { readonly kind: 'value'; readonly name: string; readonly type: ValueType }
  /** The last number has no unit yet. */
  | { readonly kind: 'unit'; readonly type: ValueType };

/** What the form allows after the last item of an unfinished line, for completion and fixes. */
export function expectedAfter(line: LineSyntax, firstItem: number, form: FormNode): readonly ExpectedNext[] {
  const state = new Matching(line, false, true);
  state.match(form, firstItem);
  return state.expectedAtEnd();
}

const NONE: readonly never[] = [];

/** The choices that begin with a word, in the order of the form. */
const begunBy = (node: Choice, word: string | undefined): readonly (readonly string[])[] =>
  (word === undefined ? undefined : node.byFirst.get(word)) ?? NONE;

function nextOf(expected: Expected): readonly ExpectedNext[] {
  switch (expected.kind) {
    case 'literal':
      return expected.inChoice ? [] : [{ kind: 'word', words: expected.word }];
    case 'choice':
      return expected.words.map(words => ({ kind: 'word', words }));
    case 'value':
      return [{ kind: 'value', name: expected.name, type: expected.type }];
    case 'comma':
      return [{ kind: 'comma' }];
  }
}

/** -1 from `match` means: does not fit; otherwise the index of the next item. */
class Matching {
  readonly values: Value[] = [];
  private furthest = -1;
  private expected: Expected[] = [];
  private special: Mistake | undefined;
  private missingUnits: ValueType[] = [];

  constructor(
    private readonly line: LineSyntax,
    private readonly keepPartial: boolean,
    /** The line ends at the cursor, so a number may still get its unit. */
    private readonly isUnfinished = false,
  ) {}

  expectedAtEnd(): readonly ExpectedNext[] {
    const next = [
      ...this.missingUnits.map((type): ExpectedNext => ({ kind: 'unit', type })),
      ...(this.furthest === this.line.items.length ? this.expected : []).flatMap(nextOf),
    ];
    return [...new Map(next.map(one => [JSON.stringify(one), one])).values()];
  }

  expectAt(index: number, expected?: Expected): -1 {
    if (index > this.furthest) {
      this.furthest = index;
      this.expected = expected ? [expected] : [];
      this.special = undefined;
    } else if (expected && index === this.furthest) this.expected.push(expected);
    return -1;
  }

  private failWith(index: number, mistake: Mistake): -1 {
    if (index >= this.furthest) {
      this.furthest = index;
      this.special ??= mistake;
    }
    return -1;
  }

  match(node: FormNode, index: number): number {
    switch (node.kind) {
      case 'literal': {
        const item = this.line.items[index];
        if (item?.kind === 'word' && item.text === node.word) return index + 1;
        return this.expectAt(index, node);
      }
      case 'comma':
        return this.line.items[index]?.kind === 'comma' ? index + 1 : this.expectAt(index, node);
      case 'value':
        return this.value(node, index);
      case 'choice':
        return this.choice(node, index);
      case 'sequence': {
        const mark = this.values.length;
        let at = index;
        for (const part of node.nodes) {
          at = this.match(part, at);
          if (at < 0) {
            if (!this.keepPartial) this.values.length = mark;
            return -1;
          }
        }
        return at;
      }
      case 'optional': {
        const at = this.match(node.node, index);
        return at < 0 ? index : at;
      }
      case 'repeat': {
        let at = index;
        for (;;) {
          const next = this.match(node.node, at);
          if (next <= at) return at;
          at = next;
        }
      }
      case 'anyOrder': {
        let left = node.nodes;
        let at = index;
        for (let i = 0; i < left.length; ) {
          const part = left[i]!;
          const next = this.match(part, at);
          if (next > at) {
            at = next;
            left = left.filter(other => other !== part);
            i = 0;
          } else i++;
        }
        return at;
      }
      case 'either': {
        let best = -1;
        let bestValues: Value[] = [];
        const mark = this.values.length;
        // The longest alternative wins, so that their order in the form does not matter.
        for (const part of node.nodes) {
          const at = this.match(part, index);
          if (at > best) {
            best = at;
            bestValues = this.values.slice(mark);
          }
          this.values.length = mark;
        }
        this.values.push(...bestValues);
        return best;
      }
    }
  }

  private choice(node: Choice, index: number): number {
    const begun = begunBy(node, this.wordAt(index));
    let best: readonly string[] | undefined;
    for (const parts of begun) {
      if ((!best || parts.length > best.length) && parts.every((part, i) => this.wordAt(index + i) === part))
        best = parts;
    }
    if (!best) return this.noChoice(node, index, begun);
    return this.keepText(node, best.join(' '), index, index + best.length);
  }

  /** Where some of a choice's words were begun, the mistake is in the word that goes wrong. */
  private noChoice(node: Choice, index: number, begun: readonly (readonly string[])[]): -1 {
    this.expectAt(index, node);
    for (const parts of begun) {
      let i = 1;
      while (i < parts.length && this.wordAt(index + i) === parts[i]) i++;
      this.expectAt(index + i, { kind: 'literal', word: parts[i]!, inChoice: true });
    }
    return -1;
  }

  private wordAt(index: number): string | undefined {
    const item = this.line.items[index];
    return item?.kind === 'word' ? item.text : undefined;
  }

  /** Keeps the items from one index up to the next as a text, and returns the latter. */
  private keepText({ name }: Choice | ValueNode, text: string, from: number, next: number): number {
    const { items } = this.line;
    this.values.push({ name, type: 'text', text, start: items[from]!.start, end: items[next - 1]!.end });
    return next;
  }

  private value(node: ValueNode, index: number): number {
    const item = this.line.items[index];
    if (!item) return this.expectAt(index, node);
    const { name, type } = node;
    const { start, end } = item;
    switch (type) {
      case 'date':
      case 'window':
        if (item.kind !== 'date') return this.expectAt(index, node);
        if (type === 'date' && item.window) {
          return this.failWith(index, {
            code: 'unexpected',
            message: 'Expected a single date, found a window.',
            remedy: 'Write one date, such as "2026-03-14".',
            start,
            end,
          });
        }
        this.values.push({ name, type: 'dates', from: item.from, to: item.to, start, end });
        return index + 1;
      case 'monthDays':
        if (item.kind !== 'monthDays') return this.expectAt(index, node);
        this.values.push({ name, type: 'monthDays', from: item.from, to: item.to, start, end });
        return index + 1;
      case 'text':
        if (item.kind !== 'text') return this.expectAt(index, node);
        return this.keepText(node, item.text, index, index + 1);
      case 'path':
        if (item.kind !== 'path' && item.kind !== 'text') return this.expectAt(index, node);
        return this.keepText(node, item.text, index, index + 1);
      case 'name':
      case 'region':
      case 'rule':
      case 'limit':
        return this.name(node, index);
      case 'species':
        return this.species(node, index);
      case 'bearing':
        return this.bearing(node, index);
      default:
        return this.quantity(node, type, index);
    }
  }

  /** Names may look like numbers, dates or words with marks in them: every item that touches the last one. */
  private name(node: ValueNode, index: number): number {
    const { items, text } = this.line;
    let next = index;
    while (next < items.length && items[next]!.kind !== 'comma' && items[next]!.kind !== 'text') {
      if (next > index && items[next]!.start !== items[next - 1]!.end) break;
      next++;
    }
    if (next === index) return this.expectAt(index, node);
    const raw = text.slice(items[index]!.start, items[next - 1]!.end);
    if (/[\s~<>]|\.\./.test(raw)) return this.expectAt(index, node);
    if (node.type === 'region' && !/^[A-Z]{2}(-[A-Z0-9]{1,3})?$/.test(raw)) {
      return this.failWith(index, {
        code: 'unexpected',
        message: `${inQuotes(raw)} is not a region code.`,
        remedy:
          'Write the ISO 3166 code of the country, with its state or province if it has one: US-OR, GB, DE-BY.',
        start: items[index]!.start,
        end: items[next - 1]!.end,
      });
    }
    // The same letters can be written as one code point or as several.
    return this.keepText(node, raw.normalize('NFC'), index, next);
  }

  private species(node: ValueNode, index: number): number {
    const { items } = this.line;
    const parts: SpeciesPart[] = [];
    for (let i = index; i < items.length; i++) {
      const item = items[i]!;
      if (item.kind !== 'word' && item.kind !== 'cultivar') break;
      parts.push(item as SpeciesPart);
    }
    const read = readSpecies(parts);
    if (!read) return this.expectAt(index, node);
    const next = index + read.length;
    const { start } = items[index]!;
    this.values.push({
      name: node.name,
      type: 'species',
      species: read.name,
      start,
      end: items[next - 1]!.end,
    });
    return next;
  }

  private bearing(node: ValueNode, index: number): number {
    const item = this.line.items[index]!;
    const degrees = bearingOf(item);
    if (degrees === undefined) return this.expectAt(index, node);
    this.values.push({ name: node.name, type: 'bearing', degrees, start: item.start, end: item.end });
    return index + 1;
  }

  private quantity(node: ValueNode, dimension: Dimension, index: number): number {
    const item = this.line.items[index]!;
    if (item.kind === 'word' && item.text === 'unseen')
      return this.keepQuantity(node, UNSEEN(dimension), index);
    if (item.kind !== 'quantity') return this.expectAt(index, node);
    let quantity = item.quantity;
    if (!quantity.unit && dimension !== 'number') {
      if (this.isUnfinished) {
        // `28 x 24 in` states the unit once, with the last number.
        if (index + 1 < this.line.items.length) return index + 1;
        this.missingUnits.push(dimension);
        return -1;
      }
      const borrowed =
        this.borrowUnit(quantity, index) ?? (quantity.high === 0 ? { ...quantity, dimension } : undefined);
      if (!borrowed) return this.missingUnit(item, dimension, index);
      quantity = borrowed;
    }
    if (quantity.dimension !== dimension) {
      return this.failWith(index, {
        code: 'wrong-unit',
        message: `Expected ${dimension === 'number' ? 'a number without a unit' : `${dimension === 'angle' ? 'an' : 'a'} ${dimension}`}, found ${inQuotes(this.line.text.slice(item.start, item.end))}.`,
        remedy:
          dimension === 'number' ? 'Leave out the unit.' : `Write ${UNIT_EXAMPLE[dimension as ValueType]}.`,
        start: item.start,
        end: item.end,
      });
    }
    if (Math.min(quantity.low, quantity.high) < 0 && !SIGNED.has(node.name)) {
      return this.failWith(index, {
        code: 'bad-range',
        message: `${inQuotes(this.line.text.slice(item.start, item.end))} is negative, which is impossible here.`,
        remedy: 'Remove the minus sign. A range is written with two dots, as in "4..8 ft".',
        start: item.start,
        end: item.end,
      });
    }
    return this.keepQuantity(node, quantity, index);
  }

  private keepQuantity({ name }: ValueNode, quantity: Quantity, index: number): number {
    const { start, end } = this.line.items[index]!;
    this.values.push({ name, type: 'quantity', quantity, start, end });
    return index + 1;
  }

  /** `28 x 24 in`: the first number takes the unit of the second. */
  private borrowUnit(quantity: Quantity, index: number): Quantity | undefined {
    const times = this.wordAt(index + 1);
    const second = this.line.items[index + 2];
    if ((times !== 'x' && times !== '×') || second?.kind !== 'quantity' || !second.quantity.unit)
      return undefined;
    const { unit, dimension } = second.quantity;
    return {
      ...quantity,
      low: quantity.low * unit.factor,
      high: quantity.high * unit.factor,
      unit,
      dimension,
    };
  }

  private missingUnit(item: Item, dimension: Dimension, index: number): -1 {
    const written = this.line.text.slice(item.start, item.end);
    const symbols = unitsFor(dimension).map(unit => unit.symbol);
    const after = this.line.items[index + 1];
    if (after?.kind === 'word') {
      const meant = unitMeant(after.text) ?? undefined;
      const near = meant?.symbol ?? (symbols.includes(after.text) ? undefined : nearest(after.text, symbols));
      const couldStand = FORM_WORDS.has(after.text);
      if (!couldStand && (near !== undefined || index + 2 >= this.line.items.length)) {
        return this.failWith(index, {
          code: 'unknown-unit',
          message: `Unknown unit ${inQuotes(after.text)}.${near ? ` Did you mean ${inQuotes(near)}?` : ''}`,
          remedy: `Write ${oneOf((near ? [near] : symbols).map(symbol => `${written} ${symbol}`))}.`,
          start: after.start,
          end: after.end,
          ...(meant ? { fix: meant.symbol, sure: true } : {}),
        });
      }
    }
    return this.failWith(index, {
      code: 'missing-unit',
      message: `${written} has no unit.`,
      remedy: `Write ${oneOf(unitsFor(dimension).map(unit => withUnit(written, unit)))}.`,
      start: item.start,
      end: item.end,
      ...(symbols.length === 1 ? { fix: `${written} ${symbols[0]}` } : {}),
    });
  }

  mistake(example: string): Mistake {
    if (this.special) return this.special;
    const { items, text } = this.line;
    const item = items[this.furthest];
    const words = [...new Set(this.expected.flatMap(wordsOf))];
    const types = [...new Set(this.expected.flatMap(e => (e.kind === 'value' ? [e.type] : [])))];
    const phrases = [...types.map(type => VALUE_PHRASE[type]), ...wordsPhrase(words)];
    if (this.expected.some(e => e.kind === 'comma')) phrases.push('a comma');
    const could = phrases.length > 0 ? phrases.join(', or ') : 'the end of the line';
    if (!item) {
      const end = items.length > 0 ? items[items.length - 1]!.end : text.length;
      return {
        code: 'incomplete',
        message: `The line is incomplete: ${could} is missing.`,
        remedy: `Example: ${example}`,
        start: Math.max(0, Math.min(items[0]?.start ?? 0, end)),
        end,
      };
    }
    const found = text.slice(item.start, item.end);
    const candidates = types.includes('bearing') ? [...words, ...COMPASS_POINTS] : words;
    // A word that is only near may say something else altogether (`owner ok`, `over people`): that is asked.
    const near = item.kind === 'word' ? slipOf(found, candidates) : undefined;
    if (near !== undefined) {
      return {
        code: 'unknown-word',
        message: `Unknown word ${inQuotes(found)}. Did you mean ${inQuotes(near)}?`,
        remedy: `Write ${near}.${phrases.length === 1 && words.length === 1 ? '' : ` Allowed here: ${could}.`}`,
        start: item.start,
        end: item.end,
        fix: near,
        sure: true,
      };
    }
    return {
      code: 'unexpected',
      message: `Expected ${could}, found ${inQuotes(found)}.`,
      remedy: `Example: ${example}`,
      start: item.start,
      end: item.end,
    };
  }
}

const wordsOf = (node: Expected): readonly string[] =>
  node.kind === 'literal' ? [node.word] : node.kind === 'choice' ? node.words : [];

/** Degrees clockwise from north, from 0 to below 360. */
function bearingOf(item: Item): number | undefined {
  if (item.kind === 'word') return parseCompassPoint(item.text);
  if (item.kind !== 'quantity') return undefined;
  const { dimension, form, low } = item.quantity;
  return dimension === 'angle' && form === 'exact' ? ((low % 360) + 360) % 360 : undefined;
}

/** `a, b or c`. */
export const oneOf = (words: readonly string[]): string => words.join(', ').replace(/, ([^,]*)$/, ' or $1');

function wordsPhrase(words: readonly string[]): string[] {
  if (words.length === 0) return [];
  return [words.length === 1 ? `the word ${words[0]}` : `one of the words ${oneOf(words)}`];
}
