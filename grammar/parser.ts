/**
 * One line of text → its items. A line is the unit of parsing because nothing in the notation spans lines:
 * a mistake can't reach past the line's end, and equal lines are parsed once.
 */

import { EmbeddedActionsParser, EOF, type IOrAlt, type IToken, type TokenType } from 'chevrotain';
import { type MonthDay, parseDate, parseMonthDay } from '../server/base/dates.ts';
import {
  type Quantity,
  type QuantityForm,
  type Unit as UnitOfMeasure,
  unitOf,
} from '../server/base/quantity.ts';
import { lexicalMistake, mistakeOfRawLine } from './lexical-errors.ts';
import type { Item, LineSyntax, Mistake } from './syntax.ts';
import { inQuotes, ownText } from './text.ts';
import * as T from './tokens.ts';

/** Rules record a mistake here and go on: throwing would reset the shared parser and cost ten times the line. */
interface Notes {
  mistake: Mistake | undefined;
  /** The unexpected token; EOF if the line ends too early. */
  fault: IToken | undefined;
}

/** Placeholder for an incomplete item; a line with a fault has no items. */
const FAULTY: Item = { kind: 'comma', start: 0, end: 0 };

class LineParser extends EmbeddedActionsParser {
  readonly notes: Notes = { mistake: undefined, fault: undefined };

  constructor() {
    super([...T.TOKENS], { recoveryEnabled: false, skipValidations: true, maxLookahead: 2 });
    this.performSelfAnalysis();
  }

  private note(mistake: Mistake) {
    this.notes.mistake ??= mistake;
  }

  /** Whether the next token is of the required type; records a fault if not. */
  private follows(type: TokenType): boolean {
    // Chevrotain records the grammar by running the rules without tokens.
    if (this.RECORDING_PHASE || this.LA(1).tokenType === type) return true;
    this.notes.fault ??= this.LA(1);
    return false;
  }

  /** Created once: allocating the alternatives for every item costs more than choosing among them. */
  private items: IOrAlt<Item>[] | undefined;
  private signs: IOrAlt<IToken>[] | undefined;

  line = this.RULE('line', (): Item[] => {
    const items: Item[] = [];
    const alternatives = (this.items ??= [
      { ALT: () => this.single(this.CONSUME(T.Word)) },
      { ALT: () => this.SUBRULE(this.amount) },
      { ALT: () => this.single(this.CONSUME(T.Comma)) },
      { ALT: () => this.single(this.CONSUME(T.Text)) },
      { ALT: () => this.SUBRULE(this.date) },
      { ALT: () => this.SUBRULE(this.monthDays) },
      { ALT: () => this.single(this.CONSUME(T.Path)) },
      { ALT: () => this.single(this.CONSUME(T.Cultivar)) },
      // A unit that does not follow a number is an ordinary word.
      { ALT: () => this.single(this.CONSUME(T.Unit)) },
      { ALT: () => this.misplaced(this.CONSUME(T.Dots)) },
    ]);
    this.MANY(() => {
      items.push(this.OR(alternatives));
    });
    return items;
  });

  private single({ image, startOffset: start, tokenType }: IToken): Item {
    const end = start + image.length;
    switch (tokenType) {
      case T.Comma:
        return { kind: 'comma', start, end };
      case T.Text:
        return { kind: 'text', text: image.slice(1, -1).replaceAll('""', '"'), start, end };
      case T.Path:
        return { kind: 'path', text: image, start, end };
      case T.Cultivar:
        return { kind: 'cultivar', text: image, start, end };
      default:
        return { kind: 'word', text: image, start, end };
    }
  }

  private misplaced(token: IToken): Item {
    this.notes.fault ??= token;
    return FAULTY;
  }

  /** `26 in`, `~26 in`, `2..4 in`, `24 in..3 ft`, `> 11 in`, `5 ft 6 in`, `44.3127`. */
  amount = this.RULE('amount', (): Item => {
    let form: QuantityForm = 'exact';
    let start = -1;
    let sign: IToken | undefined;
    this.OPTION(() => {
      sign = this.OR(
        (this.signs ??= [
          { ALT: () => this.CONSUME(T.About) },
          { ALT: () => this.CONSUME(T.Above) },
          { ALT: () => this.CONSUME(T.Below) },
        ]),
      );
      start = sign.startOffset;
      form = sign.tokenType === T.About ? 'about' : sign.tokenType === T.Above ? 'above' : 'below';
    });
    if (!this.follows(T.Number_)) return FAULTY;
    const first = this.SUBRULE(this.measure);
    if (start < 0) start = first.start;
    let second: Measure | undefined;
    this.OPTION2(() => {
      this.CONSUME(T.Dots);
      if (this.follows(T.Number_)) second = this.SUBRULE2(this.measure);
    });
    return this.ACTION(() => ({
      kind: 'quantity',
      quantity: this.quantity(form, first, second, start),
      start,
      end: second?.end ?? first.end,
    }));
  });

  private quantity(form: QuantityForm, first: Measure, second: Measure | undefined, start: number): Quantity {
    const unit = second?.unit ?? first.unit;
    const dimension = unit?.dimension ?? 'number';
    // The unit after a range applies to both ends.
    const scale = (measure: Measure) => (measure.unit ? measure.value : measure.value * (unit?.factor ?? 1));
    const low = scale(first);
    if (!second) {
      switch (form) {
        case 'above':
          return { form, low, high: Number.POSITIVE_INFINITY, dimension, unit };
        case 'below':
          return { form, low: 0, high: low, dimension, unit };
        default:
          return { form, low, high: low, dimension, unit };
      }
    }
    const high = scale(second);
    const span = { start, end: second.end };
    if (first.unit && second.unit && first.unit.dimension !== second.unit.dimension) {
      this.note({
        code: 'bad-range',
        message: `This range mixes units of different kinds, ${first.unit.symbol} and ${second.unit.symbol}.`,
        remedy: 'Use units of one kind for both ends.',
        ...span,
      });
    } else if (high < low) {
      this.note({
        code: 'bad-range',
        message: 'The larger value comes first in this range.',
        remedy: 'Write the smaller value first, as in "2..4 in".',
        ...span,
      });
    }
    return { form: low === high ? 'exact' : 'range', low, high, dimension, unit };
  }

  private measure = this.RULE('measure', (): Measure => {
    const number = this.CONSUME(T.Number_);
    let value = 0;
    let end = 0;
    let unit: UnitOfMeasure | undefined;
    this.ACTION(() => {
      value = numberOf(number.image);
      end = number.startOffset + number.image.length;
    });
    this.OPTION(() => {
      const token = this.CONSUME(T.Unit);
      this.ACTION(() => {
        unit = unitOf(token.image);
        value *= unit?.factor ?? 1;
        end = token.startOffset + token.image.length;
      });
      // `5 ft 6 in`: a smaller unit of the same kind may follow.
      this.OPTION2(() => {
        const more = this.CONSUME2(T.Number_);
        if (!this.follows(T.Unit)) return;
        const smaller = this.CONSUME2(T.Unit);
        this.ACTION(() => {
          const next = unitOf(smaller.image);
          end = smaller.startOffset + smaller.image.length;
          if (!unit || !next || next.dimension !== unit.dimension || next.factor >= unit.factor) {
            this.note({
              code: 'unexpected',
              message: `Found "${more.image} ${smaller.image}" directly after another quantity.`,
              remedy:
                'Separate two quantities with a comma. Only a smaller unit of the same kind needs none, as in "5 ft 6 in".',
              start: more.startOffset,
              end,
            });
            return;
          }
          value += numberOf(more.image) * next.factor;
          unit = next;
        });
      });
    });
    return { value, unit, start: number.startOffset, end };
  });

  date = this.RULE('date', (): Item => {
    const first = this.CONSUME(T.DateText);
    let second: IToken | undefined;
    let dots = false;
    this.OPTION(() => {
      this.CONSUME(T.Dots);
      dots = true;
      if (this.follows(T.DateText)) second = this.CONSUME2(T.DateText);
    });
    return this.ACTION(() => {
      const from = this.day(first);
      const to = second ? this.day(second) : from;
      const span = spanOf(first, second);
      if (to < from) {
        this.note({
          code: 'bad-date',
          message: 'The window ends before it begins.',
          remedy: 'Write the earlier date first.',
          ...span,
        });
      }
      return { kind: 'date', from, to, window: dots, ...span };
    });
  });

  private day(token: IToken): number {
    const day = parseDate(token.image);
    if (day === undefined) {
      this.note({
        code: 'bad-date',
        message: `${token.image} is not a calendar date.`,
        remedy: 'Write year, month and day, as in "2026-03-14".',
        ...spanOf(token, undefined),
      });
    }
    return day ?? 0;
  }

  monthDays = this.RULE('monthDays', (): Item => {
    const first = this.CONSUME(T.MonthDayText);
    let second: IToken | undefined;
    this.OPTION(() => {
      this.CONSUME(T.Dots);
      if (this.follows(T.MonthDayText)) second = this.CONSUME2(T.MonthDayText);
    });
    return this.ACTION(() => {
      const from = this.monthDay(first);
      return { kind: 'monthDays', from, to: second ? this.monthDay(second) : from, ...spanOf(first, second) };
    });
  });

  private monthDay(token: IToken): MonthDay {
    const read = parseMonthDay(token.image);
    if (!read) {
      this.note({
        code: 'bad-date',
        message: `${token.image} is not a day of any month.`,
        remedy: 'Write month and day, as in "02-01..08-31".',
        start: token.startOffset,
        end: token.startOffset + token.image.length,
      });
    }
    return read ?? { month: 1, day: 1 };
  }
}

interface Measure {
  readonly value: number;
  readonly unit: UnitOfMeasure | undefined;
  readonly start: number;
  readonly end: number;
}

function spanOf(first: IToken, last: IToken | undefined) {
  const end = last ?? first;
  return { start: first.startOffset, end: end.startOffset + end.image.length };
}

function numberOf(image: string): number {
  const slash = image.indexOf('/');
  return slash < 0 ? Number(image) : Number(image.slice(0, slash)) / Number(image.slice(slash + 1));
}

const parser = new LineParser();

/** The syntax of one line (without its line end). */
export function parseLine(line: string): LineSyntax {
  // The syntax is cached and outlives the file's text.
  const text = ownText(line);
  const early = mistakeOfRawLine(text);
  if (early) return { text, items: [], comment: undefined, mistake: early };
  const { tokens, comment: note } = T.tokensOf(text);
  const comment = note && { start: note.startOffset, end: note.startOffset + note.image.length };
  for (const token of tokens) {
    if (token.tokenType === T.Stray || token.tokenType === T.UnclosedText) {
      return { text, items: [], comment, mistake: lexicalMistake(token) };
    }
  }
  if (tokens.length === 0) return { text, items: [], comment, mistake: undefined };
  const { notes } = parser;
  notes.mistake = notes.fault = undefined;
  parser.input = tokens;
  const items = parser.line();
  if (notes.fault) return { text, items: [], comment, mistake: grammarMistake(notes.fault, tokens, text) };
  const { mistake } = notes;
  return { text, items, comment, mistake };
}

function grammarMistake(fault: IToken, tokens: readonly IToken[], text: string): Mistake {
  const atEnd = fault.tokenType === EOF;
  const found = atEnd ? tokens[tokens.length - 1]! : fault;
  const start = atEnd ? found.startOffset + found.image.length : found.startOffset;
  const previous = tokens[tokens.indexOf(found) - (atEnd ? 0 : 1)];
  if (previous?.tokenType === T.Dots || found.tokenType === T.Dots) {
    return {
      code: 'bad-range',
      message: 'A range needs a value of the same kind on each side of its two dots.',
      remedy: 'Write it like "2..4 in", "2026-09-15..2026-11-30" or "02-01..08-31".',
      start: found.startOffset,
      end: found.startOffset + found.image.length,
    };
  }
  return {
    code: 'unexpected',
    message: atEnd
      ? 'A number is missing at the end of the line.'
      : `Expected a number, found ${inQuotes(found.image)}.`,
    remedy: 'Write ~, > or < before a number with its unit, as in "~26 in".',
    start: Math.min(start, text.length),
    end: Math.max(start, found.startOffset + found.image.length),
  };
}
