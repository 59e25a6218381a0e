/**
 * What people write from habit and the notation writes otherwise: decimal commas, dashes for ranges, marks of feet and
 * inches, dates of other countries, quotation marks of text processors. What the grammar would say of these misleads.
 */

import { parseDate } from '../server/base/dates.ts';
import { unitOf } from '../server/base/quantity.ts';
import { parseCompassPoint } from './bearing.ts';
import type { Item, Mistake, WordItem } from './syntax.ts';

/** Marks that stand for a unit where they follow a number. */
const MARKED_UNITS: Readonly<Record<string, string>> = {
  '°': 'deg',
  "'": 'ft',
  '’': 'ft',
  '′': 'ft',
  '"': 'in',
  '”': 'in',
  '″': 'in',
};

/** Quotation marks of text processors and telephones, with the straight ones that are meant. */
const CURLED: Readonly<Record<string, string>> = {
  '“': '"',
  '”': '"',
  '„': '"',
  '«': '"',
  '»': '"',
  '‘': "'",
  '’': "'",
  '‚': "'",
};

const CURLED_TEXT = /^[“„«]([^“”»"]*)[“”»"]/;

const ESTIMATES = new Set([
  'about',
  'approx',
  'approx.',
  'approximately',
  'around',
  'c.',
  'ca',
  'ca.',
  'circa',
]);

/** A line with all quotation marks straight, whatever a text processor made of them. */
export const withStraightMarks = (text: string): string => text.replace(/[“”„«»]/g, '"');

/** What is wrong with a mark that the notation has no use for, and stands at an offset of a line. */
export function markMistake(text: string, start: number, mark: string): Mistake {
  const before = text.slice(0, start);
  const after = text.slice(start + mark.length);
  const span = { start, end: start + mark.length };
  const unit = MARKED_UNITS[mark];
  if (unit !== undefined && /\d$/.test(before)) return unitMark(mark, unit, span);
  if (CURLED[mark] !== undefined) return curledMark(text, mark, span);
  if (/[-–—−]/.test(mark) && /\d(\s*[a-z%]+)?\s*$/i.test(before) && /^\s*[\d~]/.test(after)) {
    return {
      code: 'bad-range',
      message: `Found ${mark} between two values.`,
      remedy: 'Write a range with two dots, as in 2..4 in or 2026-09-15..2026-11-30.',
      ...span,
      fix: '..',
    };
  }
  return (
    (mark === '/' ? slashedDate(text, start) : undefined) ?? {
      code: 'stray-mark',
      message: /\p{Default_Ignorable_Code_Point}/u.test(mark)
        ? `Found a mark that takes no room (code ${mark.codePointAt(0)}), which has no meaning here.`
        : `Found the mark ${mark}, which has no meaning here.`,
      remedy:
        /[:=]/.test(mark) && /^\s*[\p{L}-]+\s*$/u.test(before)
          ? 'Leave it out: a blank is enough between a word and its value.'
          : 'Remove it, or put the whole text between quotation marks.',
      ...span,
      fix: '',
    }
  );
}

/** An inch mark begins what looks like a text that nothing closes. */
export const isInchMark = (text: string, start: number): boolean =>
  /\d$/.test(text.slice(0, start)) && /^"\s*($|[,#])/.test(text.slice(start));

const unitMark = (mark: string, unit: string, span: { start: number; end: number }): Mistake => ({
  code: 'unknown-unit',
  message: `Found ${mark}, which is not a unit here.`,
  remedy: `Write ${unit}.`,
  ...span,
  fix: ` ${unit}`,
});

function curledMark(text: string, mark: string, span: { start: number; end: number }): Mistake {
  const whole = CURLED_TEXT.exec(text.slice(span.start));
  const fix = whole ? `"${whole[1]!}"` : CURLED[mark]!;
  return {
    code: 'stray-mark',
    message: `Found the mark ${mark}; the notation has straight quotation marks.`,
    remedy: `Write ${fix}, and switch off what turns quotation marks as you type.`,
    start: span.start,
    end: whole ? span.start + whole[0].length : span.end,
    fix,
  };
}

function slashedDate(text: string, start: number): Mistake | undefined {
  for (const { 0: date, index } of text.matchAll(/\d{1,4}\/\d{1,2}\/\d{1,4}/g)) {
    if (start < index || start >= index + date.length) continue;
    // Which of the others is the month, a reader in another country can't tell.
    const fix = /^\d{4}\//.test(date) ? twoDigits(date.replaceAll('/', '-')) : undefined;
    return {
      code: 'bad-date',
      message: `${date} is not how the notation writes a day.`,
      remedy: fix === undefined ? 'Write year, month and day as in 2026-03-14.' : `Write ${fix}.`,
      start: index,
      end: index + date.length,
      ...(fix === undefined ? {} : { fix }),
    };
  }
  return undefined;
}

/** A day with a month or day of one digit (`2026-3-14`) as the notation writes it; undefined where it is none. */
export function twoDigits(date: string): string | undefined {
  const [year, month, day] = date.split('-');
  const written = `${year}-${month?.padStart(2, '0')}-${day?.padStart(2, '0')}`;
  return parseDate(written) === undefined ? undefined : written;
}

/** The habit that explains a mistake which was found in a line, if there is one. */
export function habitOf(text: string, items: readonly Item[], found: Mistake): Mistake | undefined {
  for (const [i, item] of items.entries()) {
    const next = items[i + 1];
    if (!next) return undefined;
    const mistake =
      decimalComma(text, [item, next, items[i + 2]], found) ??
      dashedRange(text, item, next) ??
      estimate(text, item, next);
    if (mistake) return mistake;
  }
  return undefined;
}

/** `1,2 m`. Names may be numbers with commas between them, so that not every such comma is one. */
function decimalComma(
  text: string,
  [first, comma, second]: readonly [Item, Item, Item | undefined],
  found: Mistake,
): Mistake | undefined {
  if (first.kind !== 'quantity' || comma.kind !== 'comma' || second?.kind !== 'quantity') return undefined;
  const { start } = first;
  const { end } = second;
  const digits = /^\d+/.exec(text.slice(second.start))?.[0].length ?? 0;
  if (first.end !== comma.start || comma.end !== second.start || digits === 0) return undefined;
  if (!second.quantity.unit && digits < 3 && found.code !== 'missing-unit') return undefined;
  const written = text.slice(start, end);
  const fix = written.replace(',', '.');
  return {
    code: 'unexpected',
    message: `Found ${written}; a comma parts two values.`,
    remedy: `Write a decimal point: ${fix}.`,
    start,
    end,
    fix,
  };
}

/** `2-4 in` is read as 2 and -4 in, `18-20 m` as a day of the year. */
function dashedRange(text: string, first: Item, second: Item): Mistake | undefined {
  const isTwo =
    first.kind === 'quantity' &&
    second.kind === 'quantity' &&
    first.end === second.start &&
    text[second.start] === '-';
  const isDay =
    first.kind === 'monthDays' &&
    second.kind === 'word' &&
    unitOf(second.text) !== undefined &&
    !text.slice(first.start, first.end).includes('.');
  if (!isTwo && !isDay) return undefined;
  const { start } = first;
  const { end } = second;
  const written = text.slice(start, end);
  const fix = written.replace('-', '..');
  return {
    code: 'bad-range',
    message: `Found ${written}; a range has two dots.`,
    remedy: `Write ${fix}.`,
    start,
    end,
    fix,
  };
}

/** `ca. 20 m`. */
function estimate(text: string, word: Item, amount: Item): Mistake | undefined {
  if (word.kind !== 'word' || amount.kind !== 'quantity' || !amount.quantity.unit) return undefined;
  if (!ESTIMATES.has(word.text.toLowerCase())) return undefined;
  const fix = `~${text.slice(amount.start, amount.end)}`;
  return {
    code: 'unexpected',
    message: `Found ${word.text}; an estimate is marked with ~.`,
    remedy: `Write ${fix}.`,
    start: word.start,
    end: amount.end,
    fix,
  };
}

const NOT_KNOWN = new Set(['unknown', 'unmeasured', 'unclear', 'na', 'tbd']);

/** A word in place of a quantity that nobody measured; undefined where it says something else. */
export function notKnown({ text, start, end }: WordItem): Mistake | undefined {
  if (!NOT_KNOWN.has(text.toLowerCase())) return undefined;
  return {
    code: 'unexpected',
    message: `Found ${text}; what was not measured is unseen.`,
    remedy: 'Write unseen, or leave the line out.',
    start,
    end,
    fix: 'unseen',
  };
}

/** `south-west`, or a number of degrees without its unit; undefined where it is no bearing. */
export function longBearing(item: Item, text: string): Mistake | undefined {
  const written = text.slice(item.start, item.end);
  const letters = written.toLowerCase().replace(/north|south|east|west/g, word => word[0]!.toUpperCase());
  const point = letters.replaceAll('-', '');
  const isPoint = item.kind === 'word' && parseCompassPoint(point) !== undefined;
  const isNumber = item.kind === 'quantity' && /^\d+(\.\d+)?$/.test(written);
  if (!isPoint && !isNumber) return undefined;
  const fix = isPoint ? point : `${written} deg`;
  return {
    code: isPoint ? 'unexpected' : 'missing-unit',
    message: isPoint ? `Found ${written}; points of the compass are short.` : `${written} has no unit.`,
    remedy: `Write ${fix}.`,
    start: item.start,
    end: item.end,
    fix,
  };
}
