/**
 * Inventories drawn from the tables of heads and fields, with what each line must be read as. White space, order
 * of optional parts and forms of quantities vary as far as the notation lets them.
 */

import fc from 'fast-check';
import { COMPASS_POINTS, parseCompassPoint } from '../../grammar/bearing.ts';
import { type FieldSpec, HEADS, type HeadSpec, headsUnder } from '../../grammar/fields.ts';
import type { FormNode, ValueType } from '../../grammar/forms.ts';
import type { Value } from '../../grammar/syntax.ts';
import { NO_TEXT } from '../../grammar/text.ts';
import { dayNumber, formatDate, formatMonthDay } from '../../server/base/dates.ts';
import { type Dimension, type Quantity, UNSEEN, type Unit, unitsFor } from '../../server/base/quantity.ts';
import { limits } from '../../server/practice/limits.ts';
import { speciesNames } from '../../server/practice/species.ts';
import { ruleNames } from '../../server/rules/registry.ts';

/** A value without its place. */
type Drawn = { readonly name: string; readonly type: Value['type'] } & Readonly<Record<string, unknown>>;

export interface WrittenLine {
  /** Head or field. */
  readonly word: string;
  readonly values: readonly Drawn[];
}

export interface Written {
  readonly text: string;
  /** One for each head and field, in the order of the text. */
  readonly lines: readonly WrittenLine[];
}

type Gen = fc.GeneratorValue;
type Bare<T> = T extends unknown ? Omit<T, 'start' | 'end' | 'name'> : never;

/** What stands in a line: a piece of text, a comma, or a value. */
interface Part {
  readonly text: string;
  readonly value?: Drawn;
}

const oneOf = <T>(gen: Gen, items: readonly T[]): T => gen(fc.constantFrom, ...items);
const below = (gen: Gen, max: number): number => gen(fc.nat, { max: max - 1 });
const tossed = (gen: Gen): boolean => gen(fc.boolean);

const NOT_WRITTEN = new RegExp(`[\\r\\n${NO_TEXT}]`, 'g');

/** Without what no text may hold: line ends, control characters and the mark of bytes that could not be read. */
const printable = fc.string({ unit: 'binary', maxLength: 24 }).map(text => text.replace(NOT_WRITTEN, ''));

const NAMES = [
  'A',
  'R1',
  'T-014',
  '12-5',
  '14m',
  '7.2.1',
  '14-a',
  '00127',
  '2026-03-14',
  'a/b',
  '3.5x',
  'Ö9',
  'North',
  'x_1',
];
const BLANKS = [' ', ' ', ' ', '  ', '\t', '\u00A0', ' \t '];

const FIRST_DAY = dayNumber(100, 1, 1)!;
const LAST_DAY = dayNumber(9999, 12, 31)!;
const day = (gen: Gen): number =>
  tossed(gen)
    ? gen(fc.integer, { min: dayNumber(2020, 1, 1)!, max: dayNumber(2030, 12, 31)! })
    : gen(fc.integer, { min: FIRST_DAY, max: LAST_DAY });

const number = (gen: Gen): string => {
  const whole = String(below(gen, oneOf(gen, [10, 100, 100_000])));
  const how = below(gen, 6);
  if (how === 0) return `${whole}.${below(gen, 1000)}`;
  if (how === 1) return `${whole}/${1 + below(gen, 64)}`;
  return whole;
};

function numberOf(text: string): number {
  const [above, under] = text.split('/').map(Number);
  return under === undefined ? above! : above! / under;
}

/** Nothing seen, and nothing at all, are of every kind: which one was meant, only its reader could say. */
export const anyKind = ({ values, ...line }: WrittenLine): WrittenLine => ({
  ...line,
  values: values.map(value => {
    const { dimension: _, ...amount } = (value.quantity ?? {}) as Partial<Quantity>;
    const open = amount.form === 'unseen' || (amount.high === 0 && amount.unit === undefined);
    return open ? { ...value, name: '', quantity: amount } : value;
  }),
});

const tail = (gen: Gen, unit: Unit | undefined) => (unit ? (tossed(gen) ? ' ' : '') + unit.symbol : '');

function quantity(gen: Gen, dimension: Dimension): { text: string; quantity: Quantity } {
  const units = dimension === 'number' ? [undefined] : unitsFor(dimension);
  const unit = oneOf(gen, units);
  const factor = unit?.factor ?? 1;
  const [a, b] = [number(gen), number(gen)].sort((x, y) => numberOf(x) - numberOf(y)) as [string, string];
  const low = numberOf(a) * factor;
  const end = tail(gen, unit);
  const gap = oneOf(gen, ['', ' ']);
  switch (
    oneOf(gen, ['exact', 'exact', 'about', 'range', 'above', 'below', 'two units', 'unseen'] as const)
  ) {
    case 'exact':
      return { text: a + end, quantity: { form: 'exact', low, high: low, dimension, unit } };
    case 'about':
      return { text: `~${gap}${a}${end}`, quantity: { form: 'about', low, high: low, dimension, unit } };
    case 'range': {
      const high = numberOf(b) * factor;
      const form = low === high ? 'exact' : 'range';
      return { text: `${a}${gap}..${gap}${b}${end}`, quantity: { form, low, high, dimension, unit } };
    }
    case 'above':
      return { text: `>${gap}${a}${end}`, quantity: { form: 'above', low, high: Infinity, dimension, unit } };
    case 'below':
      return { text: `<${gap}${a}${end}`, quantity: { form: 'below', low: 0, high: low, dimension, unit } };
    case 'two units': {
      const smaller = unitsFor(dimension).filter(other => unit && other.factor < unit.factor);
      if (smaller.length === 0) return { text: 'unseen', quantity: UNSEEN(dimension) };
      const second = oneOf(gen, smaller);
      const both = low + numberOf(b) * second.factor;
      return {
        text: `${a}${end} ${b}${tail(gen, second)}`,
        quantity: { form: 'exact', low: both, high: both, dimension, unit: second },
      };
    }
    case 'unseen':
      return { text: 'unseen', quantity: UNSEEN(dimension) };
  }
}

/** Written and read: of texts, quotation marks are doubled; of windows, both ends count. */
function valueFor(gen: Gen, type: ValueType): { text: string; value: Bare<Value> } {
  const text = (written: string, read = written) => ({
    text: written,
    value: { type: 'text' as const, text: read },
  });
  switch (type) {
    case 'text': {
      const said = gen(() => printable);
      return text(`"${said.replaceAll('"', '""')}"`, said);
    }
    case 'path':
      return text(oneOf(gen, ['photos/14.jpg', 'a.png', '../up/é(1).JPG', 'b\\c.heic', './x.webp']));
    case 'name':
      return text(oneOf(gen, NAMES));
    case 'region':
      return text(oneOf(gen, ['US-OR', 'GB', 'DE-BY', 'US']));
    case 'rule':
      return text(oneOf(gen, ruleNames));
    case 'limit':
      return text(oneOf(gen, limits).name);
    case 'species': {
      const name = oneOf(gen, speciesNames);
      const [genus] = name.replace(/^× /, '').split(' ');
      return { text: name, value: { type: 'species', species: { name, genus: genus!, binomial: name } } };
    }
    case 'bearing': {
      if (tossed(gen)) {
        const degrees = below(gen, 720);
        return {
          text: `${degrees}${tossed(gen) ? ' ' : ''}deg`,
          value: { type: 'bearing', degrees: degrees % 360 },
        };
      }
      const point = oneOf(gen, COMPASS_POINTS);
      return { text: point, value: { type: 'bearing', degrees: parseCompassPoint(point)! } };
    }
    case 'date': {
      const at = day(gen);
      return { text: formatDate(at), value: { type: 'dates', from: at, to: at } };
    }
    case 'window': {
      const [from, to] = [day(gen), day(gen)].sort((a, b) => a - b) as [number, number];
      const gap = oneOf(gen, ['', ' ']);
      return {
        text: `${formatDate(from)}${gap}..${gap}${formatDate(to)}`,
        value: { type: 'dates', from, to },
      };
    }
    case 'monthDays': {
      const monthDay = () => {
        const month = 1 + below(gen, 12);
        return { month, day: 1 + below(gen, month === 2 ? 29 : 30) };
      };
      const [from, to] = [monthDay(), monthDay()];
      return {
        text: `${formatMonthDay(from)}..${formatMonthDay(to)}`,
        value: { type: 'monthDays', from, to },
      };
    }
    default: {
      const drawn = quantity(gen, type);
      return { text: drawn.text, value: { type: 'quantity', quantity: drawn.quantity } };
    }
  }
}

const MOST_REPEATS = 3;

function partsOf(gen: Gen, node: FormNode): readonly Part[] {
  switch (node.kind) {
    case 'literal':
      return [{ text: node.word }];
    case 'comma':
      return [{ text: ',' }];
    case 'choice': {
      const text = oneOf(gen, node.words);
      return [{ text, value: { name: node.name, type: 'text', text } }];
    }
    case 'value': {
      const { text, value } = valueFor(gen, node.type);
      return [{ text, value: { name: node.name, ...value } }];
    }
    case 'sequence':
      return node.nodes.flatMap(inner => partsOf(gen, inner));
    case 'optional':
      return tossed(gen) ? partsOf(gen, node.node) : [];
    case 'repeat':
      return Array.from({ length: below(gen, MOST_REPEATS) }, () => partsOf(gen, node.node)).flat();
    case 'anyOrder':
      return gen(() => fc.shuffledSubarray([...node.nodes])).flatMap(inner => partsOf(gen, inner));
    case 'either':
      return partsOf(gen, oneOf(gen, node.nodes));
  }
}

interface Output {
  readonly texts: string[];
  readonly lines: WrittenLine[];
}

function write(gen: Gen, { texts, lines }: Output, { word, node }: FieldSpec): void {
  const parts = partsOf(gen, node);
  let text = oneOf(gen, ['', '  ', '\t', '     ']) + word.replace(' ', () => oneOf(gen, BLANKS));
  for (const part of parts) {
    text += part.text === ',' ? oneOf(gen, ['', ' ']) : oneOf(gen, BLANKS);
    text += part.text;
  }
  if (below(gen, 5) === 0) text += `${oneOf(gen, ['  ', ' '])}#${gen(() => printable)}`;
  if (below(gen, 8) === 0) text += '  ';
  texts.push(text);
  lines.push({ word, values: parts.flatMap(({ value }) => (value ? [value] : [])) });
  if (below(gen, 8) === 0) texts.push(oneOf(gen, ['', '  ', '# remark', '    # ""']));
}

const MOST_FIELDS = 5;

function writeHead(gen: Gen, output: Output, head: HeadSpec): void {
  write(gen, output, head);
  const fields = [...head.fields.values()];
  if (fields.length === 0) return;
  const chosen = gen(() => fc.shuffledSubarray(fields, { maxLength: Math.min(MOST_FIELDS, fields.length) }));
  for (const field of chosen) write(gen, output, field);
}

const MOST_HEADS = 3;

/** An inventory of a few blocks, without a mistake. */
export const written: fc.Arbitrary<Written> = fc.gen().map(gen => {
  const output: Output = { texts: [], lines: [] };
  const heads = 1 + below(gen, MOST_HEADS);
  for (let i = 0; i < heads; i++) {
    const top = oneOf(gen, [...headsUnder(undefined), HEADS.get('tree')!, HEADS.get('tree')!]);
    writeHead(gen, output, top);
    const inner = headsUnder(top.word);
    if (inner.length === 0) continue;
    for (let j = below(gen, MOST_HEADS + 1); j > 0; j--) writeHead(gen, output, oneOf(gen, inner));
  }
  return { text: output.texts.join(oneOf(gen, ['\n', '\n', '\r\n'])), lines: output.lines };
});
