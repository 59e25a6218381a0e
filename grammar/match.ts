/**
 * Holds the items of a line against a form. The result is the values by name, or the one mistake that stands
 * furthest right: what was found, what could stand there, the nearest word, and how to write it.
 */

import { COMPASS_POINTS, parseCompassPoint } from './bearing.ts';
import type { MonthDay } from './dates.ts';
import type { FormNode, ValueType } from './forms.ts';
import { nearest } from './nearest.ts';
import { type Dimension, type Quantity, UNSEEN, unitMeant, unitsFor } from './quantity.ts';
import { readSpecies, type SpeciesName, type SpeciesPart } from './species.ts';
import type { Item, LineSyntax, Mistake } from './syntax.ts';
import type { Span } from './text.ts';

export type Value = (
  | { readonly type: 'quantity'; readonly quantity: Quantity }
  | { readonly type: 'dates'; readonly from: number; readonly to: number }
  | { readonly type: 'monthDays'; readonly from: MonthDay; readonly to: MonthDay }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'bearing'; readonly degrees: number }
  | { readonly type: 'species'; readonly species: SpeciesName }
) &
  Span & { readonly name: string };

export type Match = { readonly values: readonly Value[]; readonly mistake: Mistake | undefined };

/** What could have stood at a place: a word, or a kind of value. */
type Expected = { readonly word: string } | { readonly type: ValueType } | { readonly comma: true };

const UNIT_EXAMPLE: Partial<Record<ValueType, string>> = {
  length: 'a length such as 26 in or 1.4 m',
  share: 'a share such as 18 %',
  angle: 'an angle such as 12 deg',
  speed: 'a speed such as 92 mph or 41 m/s',
  mass: 'a mass such as 400 lb or 180 kg',
  duration: 'a time such as 12 months',
  voltage: 'a voltage such as 12.5 kV',
};

const VALUE_PHRASE: Record<ValueType, string> = {
  length: UNIT_EXAMPLE.length!,
  share: UNIT_EXAMPLE.share!,
  angle: UNIT_EXAMPLE.angle!,
  speed: UNIT_EXAMPLE.speed!,
  mass: UNIT_EXAMPLE.mass!,
  duration: UNIT_EXAMPLE.duration!,
  voltage: UNIT_EXAMPLE.voltage!,
  number: 'a number without unit',
  date: 'a date such as 2026-03-14',
  window: 'a window such as 2026-09-15..2026-11-30',
  monthDays: 'days of the year such as 02-01..08-31',
  text: 'a text between quotation marks',
  path: 'the path of a file such as photos/14.jpg',
  name: 'a name without spaces',
  species: 'a botanical name such as Acer macrophyllum',
  bearing: 'a compass point such as SSW, or degrees such as 205 deg',
  region: 'a region code such as US-OR',
  rule: 'the name of a rule',
  limit: 'the name of a limit',
};

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
  if (end >= 0) state.expectAt(end, []);
  return { values: keepPartial ? state.values : [], mistake: state.mistake(example) };
}

export function fits(line: LineSyntax, firstItem: number, form: FormNode): boolean {
  return new Matching(line, false).match(form, firstItem) === line.items.length;
}

/** -1 from `match` means: does not fit; otherwise the index of the next item. */
class Matching {
  readonly values: Value[] = [];
  private furthest = -1;
  private expected: Expected[] = [];
  private special: Mistake | undefined;

  constructor(
    private readonly line: LineSyntax,
    private readonly keepPartial: boolean,
  ) {}

  expectAt(index: number, expected: readonly Expected[]): -1 {
    if (index > this.furthest) {
      this.furthest = index;
      this.expected = [...expected];
      this.special = undefined;
    } else if (index === this.furthest) this.expected.push(...expected);
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
        return this.expectAt(index, [{ word: node.word }]);
      }
      case 'comma':
        return this.line.items[index]?.kind === 'comma' ? index + 1 : this.expectAt(index, [{ comma: true }]);
      case 'value':
        return this.value(node.name, node.type, index);
      case 'choice':
        return this.choice(node.name, node.words, index);
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
        const left = [...node.nodes];
        let at = index;
        for (let i = 0; i < left.length; ) {
          const next = this.match(left[i]!, at);
          if (next > at) {
            at = next;
            left.splice(i, 1);
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

  private choice(name: string, words: readonly string[], index: number): number {
    let best: string | undefined;
    for (const words_ of words) {
      if ((best === undefined || words_.length > best.length) && this.follows(words_, index)) best = words_;
    }
    if (best === undefined) return this.noChoice(words, index);
    const next = index + best.split(' ').length;
    this.push({ name, type: 'text', text: best }, index, next);
    return next;
  }

  /** Where some of a choice's words were begun, the mistake is in the word that goes wrong. */
  private noChoice(words: readonly string[], index: number): -1 {
    this.expectAt(
      index,
      words.map(word => ({ word })),
    );
    for (const choice of words) {
      const parts = choice.split(' ');
      let i = 0;
      while (i < parts.length && this.wordAt(index + i) === parts[i]) i++;
      if (i > 0) this.expectAt(index + i, [{ word: parts[i]! }]);
    }
    return -1;
  }

  private follows(words: string, index: number): boolean {
    if (!words.includes(' ')) return this.wordAt(index) === words;
    return words.split(' ').every((word, i) => this.wordAt(index + i) === word);
  }

  private wordAt(index: number): string | undefined {
    const item = this.line.items[index];
    return item?.kind === 'word' ? item.text : undefined;
  }

  private push(value: { name: string } & Record<string, unknown>, from: number, next: number): void {
    const start = this.line.items[from]!.start;
    this.values.push({ ...value, start, end: this.line.items[next - 1]!.end } as unknown as Value);
  }

  private value(name: string, type: ValueType, index: number): number {
    const item = this.line.items[index];
    if (!item) return this.expectAt(index, [{ type }]);
    const expect = () => this.expectAt(index, [{ type }]);
    switch (type) {
      case 'date':
      case 'window':
        if (item.kind !== 'date') return expect();
        if (type === 'date' && item.window) {
          return this.failWith(index, {
            code: 'unexpected',
            message: 'Found a window where a single day should stand.',
            remedy: 'Write one date, as in 2026-03-14.',
            start: item.start,
            end: item.end,
          });
        }
        this.push({ name, type: 'dates', from: item.from, to: item.to }, index, index + 1);
        return index + 1;
      case 'monthDays':
        if (item.kind !== 'monthDays') return expect();
        this.push({ name, type: 'monthDays', from: item.from, to: item.to }, index, index + 1);
        return index + 1;
      case 'text':
        if (item.kind !== 'text') return expect();
        this.push({ name, type: 'text', text: item.text }, index, index + 1);
        return index + 1;
      case 'path':
        if (item.kind !== 'path' && item.kind !== 'text') return expect();
        this.push({ name, type: 'text', text: item.text }, index, index + 1);
        return index + 1;
      case 'name':
      case 'region':
      case 'rule':
      case 'limit':
        return this.name(name, type, index);
      case 'species':
        return this.species(name, index);
      case 'bearing':
        return this.bearing(name, index);
      default:
        return this.quantity(name, type, index);
    }
  }

  /** Names may look like numbers, dates or words with marks in them: every item that touches the last one. */
  private name(name: string, type: ValueType, index: number): number {
    const { items, text } = this.line;
    let next = index;
    while (next < items.length && items[next]!.kind !== 'comma' && items[next]!.kind !== 'text') {
      if (next > index && items[next]!.start !== items[next - 1]!.end) break;
      next++;
    }
    if (next === index) return this.expectAt(index, [{ type }]);
    const raw = text.slice(items[index]!.start, items[next - 1]!.end);
    if (/\s/.test(raw) || /[~<>]/.test(raw)) return this.expectAt(index, [{ type }]);
    if (type === 'region' && !/^[A-Z]{2}(-[A-Z0-9]{1,3})?$/.test(raw)) {
      return this.failWith(index, {
        code: 'unexpected',
        message: `${raw} is not a region code.`,
        remedy:
          'Write the ISO 3166 code of the country, with the state or province where there is one: US-OR, GB, DE-BY.',
        start: items[index]!.start,
        end: items[next - 1]!.end,
      });
    }
    this.push({ name, type: 'text', text: raw }, index, next);
    return next;
  }

  private species(name: string, index: number): number {
    const parts: SpeciesPart[] = [];
    for (let i = index; i < this.line.items.length; i++) {
      const item = this.line.items[i]!;
      if (item.kind !== 'word' && item.kind !== 'cultivar') break;
      parts.push(item as SpeciesPart);
    }
    const read = readSpecies(parts);
    if (!read) return this.expectAt(index, [{ type: 'species' }]);
    this.push({ name, type: 'species', species: read.name }, index, index + read.length);
    return index + read.length;
  }

  private bearing(name: string, index: number): number {
    const item = this.line.items[index]!;
    const point = item.kind === 'word' ? parseCompassPoint(item.text) : undefined;
    if (point !== undefined) {
      this.push({ name, type: 'bearing', degrees: point }, index, index + 1);
      return index + 1;
    }
    if (item.kind === 'quantity' && item.quantity.dimension === 'angle' && item.quantity.form === 'exact') {
      this.push(
        { name, type: 'bearing', degrees: ((item.quantity.low % 360) + 360) % 360 },
        index,
        index + 1,
      );
      return index + 1;
    }
    return this.expectAt(index, [{ type: 'bearing' }]);
  }

  private quantity(name: string, dimension: Dimension, index: number): number {
    const item = this.line.items[index]!;
    if (item.kind === 'word' && item.text === 'unseen') {
      this.push({ name, type: 'quantity', quantity: UNSEEN(dimension) }, index, index + 1);
      return index + 1;
    }
    if (item.kind !== 'quantity') return this.expectAt(index, [{ type: dimension as ValueType }]);
    let quantity = item.quantity;
    if (!quantity.unit && dimension !== 'number') {
      const borrowed =
        this.borrowUnit(quantity, index) ?? (quantity.high === 0 ? { ...quantity, dimension } : undefined);
      if (!borrowed) return this.missingUnit(item, dimension, index);
      quantity = borrowed;
    }
    if (quantity.dimension !== dimension) {
      return this.failWith(index, {
        code: 'wrong-unit',
        message: `Found ${this.line.text.slice(item.start, item.end)} where ${dimension === 'number' ? 'a plain number' : `a ${dimension}`} should stand.`,
        remedy:
          dimension === 'number' ? 'Leave the unit out.' : `Write ${UNIT_EXAMPLE[dimension as ValueType]}.`,
        start: item.start,
        end: item.end,
      });
    }
    this.push({ name, type: 'quantity', quantity }, index, index + 1);
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
      const couldStand = this.isFormWord(after.text);
      if (!couldStand && (near !== undefined || index + 2 >= this.line.items.length)) {
        return this.failWith(index, {
          code: 'unknown-unit',
          message: `${after.text} is not a unit${near ? `; the nearest is ${near}` : ''}.`,
          remedy: `Write ${written} with one of ${symbols.join(', ')}.`,
          start: after.start,
          end: after.end,
          ...(near ? { mend: near } : {}),
        });
      }
    }
    return this.failWith(index, {
      code: 'missing-unit',
      message: `${written} has no unit.`,
      remedy: `Write ${symbols.map(symbol => `${written} ${symbol}`).join(', ')}.`,
      start: item.start,
      end: item.end,
      ...(symbols.length === 1 ? { mend: `${written} ${symbols[0]}` } : {}),
    });
  }

  private isFormWord(word: string): boolean {
    return [
      'wide',
      'tall',
      'to',
      'at',
      'away',
      'beyond',
      'x',
      '×',
      'thick',
      'lens',
      'toward',
      'of',
      'stand-off',
    ].includes(word);
  }

  mistake(example: string): Mistake {
    if (this.special) return this.special;
    const { items, text } = this.line;
    const item = items[this.furthest];
    const words = [...new Set(this.expected.flatMap(e => ('word' in e ? [e.word] : [])))];
    const types = [...new Set(this.expected.flatMap(e => ('type' in e ? [e.type] : [])))];
    const phrases = [...types.map(type => VALUE_PHRASE[type]), ...wordsPhrase(words)];
    if (this.expected.some(e => 'comma' in e)) phrases.push('a comma');
    const could = phrases.length > 0 ? phrases.join(', or ') : 'the end of the line';
    if (!item) {
      const end = items.length > 0 ? items[items.length - 1]!.end : text.length;
      return {
        code: 'incomplete',
        message: `The line ends too early: ${could} is missing.`,
        remedy: `Write it as in: ${example}`,
        start: Math.max(0, Math.min(items[0]?.start ?? 0, end)),
        end,
      };
    }
    const found = text.slice(item.start, item.end);
    const candidates = types.includes('bearing') ? [...words, ...COMPASS_POINTS] : words;
    const near = item.kind === 'word' ? nearest(found, candidates) : undefined;
    if (near !== undefined) {
      return {
        code: 'unknown-word',
        message: `Found ${found}; the nearest word that can stand here is ${near}.`,
        remedy: `Write ${near}, or: ${could}.`,
        start: item.start,
        end: item.end,
        mend: near,
      };
    }
    return {
      code: 'unexpected',
      message: `Found ${found} where ${could} should stand.`,
      remedy: `Write it as in: ${example}`,
      start: item.start,
      end: item.end,
    };
  }
}

function wordsPhrase(words: readonly string[]): string[] {
  if (words.length === 0) return [];
  return [words.length === 1 ? `the word ${words[0]}` : `one of the words ${words.join(', ')}`];
}
