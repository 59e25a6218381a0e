/**
 * What people write from habit and the notation writes otherwise: marks of feet and inches, dashes for ranges, dates of
 * other countries, names without quotation marks. What the grammar would say of these misleads.
 *
 * One row each: how it is recognized in a line that has a mistake, what is meant, and examples of both. Whether a
 * reading is right is not for the row to know: the line is read again with it, and the mistake must be gone.
 * Long because it is one table.
 */

import { calendarDate, dayNumber, formatDate, parseDate } from '../server/base/dates.ts';
import { UNITS, unitMeant, unitOf, unitWords } from '../server/base/quantity.ts';
import { compassPoint, parseCompassPoint } from './bearing.ts';
import { SAID } from './said.ts';
import type { Mistake, MistakeCode } from './syntax.ts';
import { inQuotes } from './text.ts';

export interface Habit {
  readonly name: string;
  /** Stands alone, or only where the mistake was found. */
  readonly at?: 'mistake';
  /** Searched in the line without its comment, the letters of quoted texts blanked out. */
  readonly pattern: RegExp;
  readonly code: MistakeCode;
  /** What is meant by it: a text, or several of which the writer has to choose. Undefined where it is no such habit. */
  readonly meant: (match: RegExpExecArray, line: string) => string | readonly string[] | undefined;
  /** Follows `Found …:` and what was found. */
  readonly because: string;
  readonly remedy?: string;
  /** Only where the form of the line has a text. */
  readonly needs?: 'text';
  /** A mark that no line can keep, so that it is told of even where something else is wrong with the line. */
  readonly isMark?: true;
  /** Lines below a head, with what is meant: one line, or several to choose from. */
  readonly examples: readonly HabitExample[];
  /** Lines with a mistake that look like it and mean something else. */
  readonly not: readonly string[];
}

interface HabitExample {
  /** The head that the line stands below; a tree if left out. */
  readonly below?: string;
  readonly written: string;
  readonly meant: string | readonly string[];
}

const literal = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const longestFirst = (words: readonly string[]): string =>
  [...words]
    .sort((a, b) => b.length - a.length)
    .map(literal)
    .join('|');

const NUM = '\\d+(?:\\.\\d+|/\\d+)?';
const FOOT = "['’′]";
const INCH = '(?:["”″]|[\'’′]{2})(?!(?!x\\s*\\d)[\\p{L}\\d])';
/** Units as the notation has them, and as people say them; marks are rows of their own. */
const UNIT = `(?:${longestFirst(UNITS.flatMap(unit => [...unitWords(unit), ...unit.said]))})(?![\\p{L}\\d])`;
const AMOUNT = `~?${NUM}(?:\\s*${UNIT})?`;
const DAY = '\\d{4}-\\d{2}-\\d{2}';
const SLASHED = '\\d{1,4}/\\d{1,2}/\\d{1,4}';
const ANY_DAY = /^(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})$/;
const POINT = '(?:[NESW]{1,3}|(?:north|south|east|west)(?:-?(?:north|south|east|west))*)(?![\\p{L}])';
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'] as const;
const MONTH = `(?:${MONTHS.join('|')})\\p{L}*\\.?`;

const pattern = (source: string, flags = ''): RegExp => new RegExp(source, `gu${flags}`);

/** Two digits of a year from here on are of the last century: nothing is planned so far ahead. */
const FIRST_OF_1900 = 50;

const day = (year: string, month: number, date: string): string | undefined => {
  const full = year.length === 2 ? Number(year) + (Number(year) < FIRST_OF_1900 ? 2000 : 1900) : Number(year);
  const number = full < 1000 ? undefined : dayNumber(full, month, Number(date));
  return number === undefined ? undefined : formatDate(number);
};

/** The days that three numbers can mean; a year has two digits or four. */
function days(a: string, b: string, c: string): string | readonly string[] | undefined {
  const isYear = (text: string) => text.length === 4 || text.length === 2;
  const read = a.length === 4 ? [day(a, Number(b), c)] : [];
  if (a.length <= 2 && isYear(c)) read.push(day(c, Number(a), b), day(c, Number(b), a));
  if (a.length === 2 && c.length <= 2) read.push(day(a, Number(b), c));
  const found = [...new Set(read.filter(one => one !== undefined))];
  return found.length > 1 ? found : found[0];
}

/** All that a day can mean; none where it is no day. */
const daysMeant = (text: string): readonly string[] => {
  const [a = '', b = '', c = ''] = text.split(/[./-]/);
  return [days(a, b, c) ?? []].flat();
};

/** The day that three numbers mean in one order: 3/4/26 with the month first is 2026-03-04. */
export function dayInOrder(
  text: string,
  order: 'month first' | 'day first' | 'year first',
): string | undefined {
  const [, a = '', , b = '', c = ''] = ANY_DAY.exec(text) ?? [];
  if (order === 'year first') return a.length === 4 || a.length === 2 ? day(a, Number(b), c) : undefined;
  if (c.length !== 4 && c.length !== 2) return undefined;
  return order === 'month first' ? day(c, Number(a), b) : day(c, Number(b), a);
}

const monthOf = (word: string): number => MONTHS.indexOf(word.slice(0, 3).toLowerCase() as 'jan') + 1;

/** A point of the compass as the notation writes it: `south-west`, `sw`. */
const pointOf = (word: string): string | undefined => {
  const letters = word
    .toLowerCase()
    .replace(/north|south|east|west/g, one => one[0]!)
    .replaceAll('-', '')
    .toUpperCase();
  return parseCompassPoint(letters) === undefined ? undefined : letters;
};

/** Both ends of an arc and the point between them: a bearing is one point. */
function pointsBetween(from: string, to: string): readonly string[] | undefined {
  const ends = [pointOf(from), pointOf(to)];
  const [a, b] = ends.map(point => (point === undefined ? undefined : parseCompassPoint(point)));
  if (a === undefined || b === undefined) return undefined;
  const turn = ((b - a + 540) % 360) - 180;
  return [...new Set([compassPoint(a + turn / 2), ends[0]!, ends[1]!])];
}

const symbolOf = (word: string): string => (unitOf(word) ?? unitMeant(word))?.symbol ?? word;

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

/** A line with all quotation marks straight, whatever a text processor made of them. */
export const withStraightMarks = (text: string): string => text.replace(/[“”„«»]/g, '"');

const quoted = (text: string): string => `"${text.trim().replaceAll('"', '""')}"`;

const bySaid = new Map<string, string | readonly string[]>();
for (const { said, meant } of SAID)
  for (const word of said) {
    const known = bySaid.get(word);
    const all = known === undefined ? meant : [...new Set([known, meant].flat())];
    bySaid.set(word, all.length === 1 ? all[0]! : all);
  }

/** A text without quotation marks, from each place where one can begin to each where it can end. */
const BARE = '[^\\s"\\u0001](?:[^"\\u0001]*?[^\\s"\\u0001])??';
const BARE_ENDS = ['(?=,[^,]*$)', '(?=\\s+(?:from|permit|until|by)\\s)', '(?=\\s*$)'] as const;
const unquoted = (before: number, until: string): RegExp =>
  pattern(`(?<=^\\s*(?:\\S+\\s+){${before}})${BARE}${until}`);

const UNQUOTED: readonly HabitExample[] = [
  { written: 'note gate code from the office', meant: 'note "gate code from the office"' },
  { written: "note don't cut", meant: 'note "don\'t cut"' },
  { written: 'target Play lawn', meant: 'target "Play lawn"' },
  { written: 'tree 14 Lawn maple', meant: 'tree 14 "Lawn maple"' },
  { written: 'person RV Ruth Varga', meant: 'person RV "Ruth Varga"' },
  { written: 'risk Play lawn from A', meant: 'risk "Play lawn" from A' },
  {
    below: 'person RV "Ruth Varga"',
    written: 'certificate remote pilot 4417, until 2027-05-31',
    meant: 'certificate "remote pilot 4417", until 2027-05-31',
  },
  {
    below: 'site "Court"',
    written: 'storm 2026-01-18 gusts to 61 mph',
    meant: 'storm 2026-01-18 "gusts to 61 mph"',
  },
];

const isMark = true;

/** In the order in which they are tried. */
export const HABITS: readonly Habit[] = [
  {
    name: 'feet and inches',
    pattern: pattern(`(\\d+)\\s*${FOOT}\\s*-?\\s*(${NUM})(?:\\s*${INCH}|(?![\\d.]))`),
    code: 'unknown-unit',
    // 8' 30' are two lengths.
    meant: ([, feet, inches]) => (Number(inches) < 12 ? `${feet} ft ${inches} in` : undefined),
    because: 'feet and inches are written with ft and in',
    isMark,
    examples: [
      { written: `height 5'6"`, meant: 'height 5 ft 6 in' },
      { written: 'height 5’ 6”', meant: 'height 5 ft 6 in' },
      { below: 'limb L1', written: `from 9' 6`, meant: 'from 9 ft 6 in' },
    ],
    not: [`note 5'6`, `height 5'x`],
  },
  {
    name: 'foot mark',
    pattern: pattern(`(?<=\\d)\\s?${FOOT}(?![\\p{L}'’′])(?:\\s+(?=,))?`),
    code: 'unknown-unit',
    meant: () => ' ft',
    because: 'feet are written as ft',
    remedy: 'Write ft.',
    isMark,
    examples: [
      { written: "height 60'", meant: 'height 60 ft' },
      { written: 'height 60’', meant: 'height 60 ft' },
      { written: "crown from 12' , 30 ft wide", meant: 'crown from 12 ft, 30 ft wide' },
    ],
    not: ["species Acer rubrum 'October 3'x"],
  },
  {
    name: 'inch mark',
    pattern: pattern(`(?<=\\d)\\s?${INCH}(?:\\s+(?=,))?`),
    code: 'unknown-unit',
    meant: () => ' in',
    because: 'inches are written as in',
    remedy: 'Write in.',
    isMark,
    examples: [
      { written: 'dbh 41"', meant: 'dbh 41 in' },
      { written: 'dbh 41”', meant: 'dbh 41 in' },
      { written: 'dbh 1/2"', meant: 'dbh 1/2 in' },
    ],
    not: ['note "wall 41" x'],
  },
  {
    name: 'degree mark',
    pattern: pattern('(?<=\\d)\\s*[°º]'),
    code: 'unknown-unit',
    meant: () => ' deg',
    because: 'degrees are written as deg',
    remedy: 'Write deg.',
    isMark,
    examples: [{ written: 'lean 5°', meant: 'lean 5 deg' }],
    not: ['lean °'],
  },
  {
    name: 'curled quotation marks',
    pattern: pattern('[“„«][^“”»"]*[”“»"]|[“”„«»‘’‚]'),
    code: 'stray-mark',
    meant: ({ 0: written }) =>
      written.length > 1 ? `"${written.slice(1, -1)}"` : (CURLED[written] ?? undefined),
    because: 'quotation marks must be straight',
    isMark,
    examples: [
      { written: 'note “the old oak”', meant: 'note "the old oak"' },
      { written: 'note „die alte Eiche“', meant: 'note "die alte Eiche"' },
    ],
    not: ['note "the “old” oak" x'],
  },
  {
    name: 'window of days of another order',
    pattern: pattern(
      `(?<![\\d./-])(${SLASHED}|${DAY})(?:\\s*[-–—−]\\s*|\\s+(?:to|through|thru|until|and)\\s+|\\s*\\.\\.\\s*)(${SLASHED}|${DAY})(?![\\d/])`,
    ),
    code: 'bad-date',
    meant: ([written, from, to]) => {
      if (!written.includes('/')) return undefined;
      const [first, last] = [daysMeant(from!), daysMeant(to!)];
      if (first.length === 0 || last.length === 0) return undefined;
      // Both days are of one order.
      const orders = Math.max(first.length, last.length);
      const windows = Array.from(
        { length: orders },
        (_, i) => `${first[first.length === 1 ? 0 : i]}..${last[last.length === 1 ? 0 : i]}`,
      ).filter(window => !window.includes('undefined'));
      return windows.length > 1 ? windows : windows[0];
    },
    because: 'dates are written as year-month-day, with two dots between them',
    isMark,
    examples: [
      {
        below: 'prescription R1 thin',
        written: 'between 9/15/26 - 11/30/26',
        meant: 'between 2026-09-15..2026-11-30',
      },
      {
        below: 'prescription R1 thin',
        written: 'between 9/1/26 to 11/2/26',
        meant: ['between 2026-09-01..2026-11-02', 'between 2026-01-09..2026-02-11'],
      },
    ],
    not: ['felled 31/31/2026 - 3/16/26'],
  },
  {
    name: 'date of another order',
    pattern: pattern('(?<![\\d./-])(\\d{1,4})([./-])(\\d{1,2})\\2(\\d{1,4})(?![\\d/])'),
    code: 'bad-date',
    meant: ([written, a, , b, c]) => {
      const read = days(a!, b!, c!);
      return read === written ? undefined : read;
    },
    because: 'dates are written as year-month-day',
    isMark,
    examples: [
      { written: 'felled 3/16/26', meant: 'felled 2026-03-16' },
      { written: 'planted 3/16/98', meant: 'planted 1998-03-16' },
      { written: 'felled 3/14/2026', meant: 'felled 2026-03-14' },
      { written: 'felled 14.03.2026', meant: 'felled 2026-03-14' },
      { written: 'felled 2026/03/14', meant: 'felled 2026-03-14' },
      { written: 'felled 2026-3-4', meant: 'felled 2026-03-04' },
      { written: 'felled 1.3.2026', meant: ['felled 2026-01-03', 'felled 2026-03-01'] },
      { written: 'felled 03/04/2026', meant: ['felled 2026-03-04', 'felled 2026-04-03'] },
      { written: 'felled 05/03/24', meant: ['felled 2024-05-03', 'felled 2024-03-05', 'felled 2005-03-24'] },
    ],
    not: ['felled 2026-02-30', 'felled 31/31/2026', 'height 1.2.3'],
  },
  {
    name: 'month as a word',
    pattern: pattern(
      `(?<![\\p{L}\\d])(?:(${MONTH})\\s*(\\d{1,2})(?:st|nd|rd|th)?,?\\s+(\\d{4})|(\\d{1,2})(?:st|nd|rd|th)?\\.?[\\s-](?:of\\s+)?(${MONTH}),?[\\s-]*(\\d{4}))(?!\\d)`,
      'i',
    ),
    code: 'bad-date',
    meant: ([, first, date, year, dateFirst, second, lastYear]) =>
      day((year ?? lastYear)!, monthOf((first ?? second)!), (date ?? dateFirst)!),
    because: 'dates are written as year-month-day',
    isMark,
    examples: [
      { written: 'felled March 14, 2026', meant: 'felled 2026-03-14' },
      { written: 'felled 14 Mar 2026', meant: 'felled 2026-03-14' },
    ],
    not: ['felled March 2026', 'felled Mar 32, 2026'],
  },
  {
    name: 'end before the beginning',
    at: 'mistake',
    pattern: pattern(`(${DAY})\\.\\.(${DAY})`),
    code: 'bad-date',
    meant: ([, from, to]) => {
      const [start, end] = [parseDate(from!), parseDate(to!)];
      if (start === undefined || end === undefined || end >= start) return undefined;
      const { year, month, day: date } = calendarDate(end);
      const years = [1, 2].map(more => dayNumber(year + more, month, date)).filter(one => one !== undefined);
      const later = years.find(one => one >= start);
      return [...(later === undefined ? [] : [`${from}..${formatDate(later)}`]), `${to}..${from}`];
    },
    because: 'the later date comes first',
    examples: [
      {
        below: 'prescription R1 thin',
        written: 'between 2026-11-15..2026-02-01',
        meant: ['between 2026-11-15..2027-02-01', 'between 2026-02-01..2026-11-15'],
      },
    ],
    not: ['felled 2026-11-15..2027-02-01'],
  },
  {
    name: 'larger value first',
    at: 'mistake',
    pattern: pattern(`(~?)(${NUM})(\\s*${UNIT})?\\s*\\.\\.\\s*(${NUM})(\\s*${UNIT})?`),
    code: 'bad-range',
    meant: ([, about, low, first, high, last]) => [
      first && last
        ? `${about}${high}${last} .. ${low}${first}`
        : `${about}${high}..${low}${last ?? first ?? ''}`,
    ],
    because: 'the larger value comes first',
    examples: [
      { written: 'height 8..4 m', meant: ['height 4..8 m'] },
      { written: 'height 3 ft .. 24 in', meant: ['height 24 in .. 3 ft'] },
    ],
    not: ['height 8..4 lb'],
  },
  {
    name: 'window in place of a day',
    at: 'mistake',
    pattern: pattern(`(${DAY})\\.\\.(${DAY})`),
    code: 'unexpected',
    meant: ([, from, to]) => [from!, to!],
    because: 'only one date is allowed here',
    examples: [
      { written: 'felled 2026-03-01..2026-03-02', meant: ['felled 2026-03-01', 'felled 2026-03-02'] },
    ],
    not: ['height 2026-03-01..2026-03-02'],
  },
  {
    name: 'thousands or a decimal comma',
    pattern: pattern(`(?<![\\d.,])(\\d{1,3}),(\\d{3})(?=\\s*${UNIT})`),
    code: 'unexpected',
    meant: ([, whole, rest]) => [`${whole}${rest}`, `${whole}.${rest}`],
    because: 'a comma separates values; the decimal sign is a point',
    examples: [
      {
        below: 'prescription R1 fell',
        written: 'piece 1,200 kg',
        meant: ['piece 1200 kg', 'piece 1.200 kg'],
      },
    ],
    not: ['joined 1,200 suspected x'],
  },
  {
    name: 'decimal comma',
    pattern: pattern('(?<![\\d.,])(\\d+),(\\d+)(?![\\d.])'),
    code: 'unexpected',
    // Where inches are used the decimal sign is a point, and 14,12 in can be two stems.
    meant: ([number, whole, rest], line) => {
      const behind = line.slice(line.indexOf(number) + number.length);
      const unit = /^\s*(in|ft|inch|inches|feet)(?![\p{L}])/u.exec(behind)?.[1];
      return unit === undefined ? `${whole}.${rest}` : [`${whole}.${rest}`, `${whole} ${unit}, ${rest}`];
    },
    because: 'a comma separates values; the decimal sign is a point',
    examples: [
      { written: 'dbh 1,2 m', meant: 'dbh 1.2 m' },
      { written: 'dbh 14,12 in', meant: ['dbh 14.12 in', 'dbh 14 in, 12 in'] },
      { written: 'position 44,3127, -122.8714', meant: 'position 44.3127, -122.8714' },
    ],
    not: ['joined 1,2 suspectd'],
  },
  {
    name: 'one and a half',
    pattern: pattern(`(?<![\\d.])(\\d+)(?:\\s+|-)(\\d)/(2|4|8|16)(?=\\s*${UNIT})`),
    code: 'unexpected',
    meant: ([, whole, part, of]) => String(Number(whole) + Number(part) / Number(of)),
    because: 'mixed fractions are not allowed',
    examples: [{ written: 'dbh 1 1/2 in', meant: 'dbh 1.5 in' }],
    not: ['dbh 1 1/3 in'],
  },
  {
    name: 'unit in capitals or with a dot',
    pattern: pattern('(?<=\\d)(\\s*)(\\p{L}+)(\\.?)(?![\\p{L}\\d.])'),
    code: 'unknown-unit',
    meant: ([, space, word]) => {
      const unit =
        unitOf(word!) ?? unitMeant(word!) ?? unitOf(word!.toLowerCase()) ?? unitMeant(word!.toLowerCase());
      return unit ? `${space}${unitWords(unit).includes(word!) ? word : unit.symbol}` : undefined;
    },
    because: 'the notation writes this unit differently',
    examples: [
      { written: 'dbh 41 in.', meant: 'dbh 41 in' },
      { written: 'dbh 41 CM', meant: 'dbh 41 cm' },
      { written: 'dbh 41 Inches', meant: 'dbh 41 in' },
      { written: 'height 12 mtr.', meant: 'height 12 m' },
    ],
    not: ['dbh 41 xm'],
  },
  {
    name: 'unit once for both',
    pattern: pattern(`(${NUM})\\s+to\\s+(${NUM})\\s*(${UNIT})`),
    code: 'missing-unit',
    meant: ([, from, to, unit]) => `${from} ${unit} to ${to} ${unit}`,
    because: 'each value needs its own unit',
    examples: [
      { below: 'prescription R1 reduce', written: 'height 52 to 46 ft', meant: 'height 52 ft to 46 ft' },
    ],
    not: ['dbh 52 to 46 ft'],
  },
  {
    name: 'unit once for several',
    pattern: pattern(`(?<![\\d.,]\\s*)(${NUM}(?:\\s*(?:,|&|\\+|/|\\band\\b)\\s*${NUM})+)\\s*(${UNIT})`),
    code: 'missing-unit',
    meant: ([written, numbers, unit]) =>
      /\d[,/]\d/.test(written)
        ? undefined
        : numbers!
            .split(/\s*(?:,|&|\+|\/|\band\b)\s*/)
            .map(number => `${number} ${symbolOf(unit!)}`)
            .join(', '),
    because: 'each value needs its own unit',
    examples: [
      { written: 'dbh 14, 12, 9 in', meant: 'dbh 14 in, 12 in, 9 in' },
      { written: 'dbh 14 + 12 in', meant: 'dbh 14 in, 12 in' },
    ],
    not: ['joined 14, 12 in'],
  },
  {
    name: 'dots right behind a unit',
    pattern: pattern(`(?<=\\d\\s*)(${UNIT})\\.\\.\\s*(?=[\\d~])`),
    code: 'bad-range',
    meant: ([, unit]) => `${unit} .. `,
    because: 'a space is needed between the unit and the dots',
    examples: [{ written: 'height 18 ft..20 ft', meant: 'height 18 ft .. 20 ft' }],
    not: ['height 18 ft..20 lb'],
  },
  {
    name: 'dash or word for a range',
    pattern: pattern(
      `(?<![\\d.-])(${AMOUNT}|${DAY})(?:[-–—−]+|\\s+[-–—−]+\\s+|\\s*(?:[–—−]|\\b(?:to|through|thru|until|and)\\b|\\.{3,}|…)\\s*)(?=[\\d~])(?!\\d{1,2}-\\d)(?!\\d+\\.\\.)`,
    ),
    code: 'bad-range',
    // 18 and 23 in are two values, unless they are said to be between the two.
    meant: ([written, from], line) =>
      /\band\b/.test(written) && !/^\s*\d{4}-/.test(from!) && !/\bbetween\b/.test(line)
        ? undefined
        : /\d$/.test(from!)
          ? `${from}..`
          : `${from} .. `,
    because: 'a range is written with two dots',
    remedy: 'Write a range with two dots, as in "2..4 in" or "2026-09-15..2026-11-30".',
    isMark,
    examples: [
      { written: 'height 60-65 ft', meant: 'height 60..65 ft' },
      { written: 'height 18–20 m', meant: 'height 18..20 m' },
      { written: 'height 18 m – 20 m', meant: 'height 18 m .. 20 m' },
      { written: 'height 60 to 65 ft', meant: 'height 60..65 ft' },
      {
        below: 'prescription R1 thin',
        written: 'between 2026-09-15 and 2026-11-30',
        meant: 'between 2026-09-15..2026-11-30',
      },
    ],
    not: ['dbh 12 and 4 lb'],
  },
  {
    name: 'words for an estimate',
    pattern: pattern(
      `(?<![\\p{L}\\d])(?:about|abt|approx|approximately|around|circa|est|estimated|roughly|say|c|ca|\\+/-|±)\\.?\\s*(?=\\d)`,
      'i',
    ),
    code: 'unexpected',
    meant: () => '~',
    because: 'an estimate is marked with ~',
    remedy: 'Write ~ before the number, as in "~20 m".',
    isMark,
    examples: [
      { written: 'height abt 75 ft', meant: 'height ~75 ft' },
      { written: 'height ca. 20 m', meant: 'height ~20 m' },
      { written: 'height ±20 m', meant: 'height ~20 m' },
    ],
    not: ['age approx 80'],
  },
  {
    name: 'estimate behind the value',
    pattern: pattern(
      `(${NUM}(?:\\s*${UNIT})?)\\s*(?:\\+/-|±|(?:approx|est|estimated|about|approximately)\\b\\.?)`,
      'i',
    ),
    code: 'unexpected',
    meant: ([, amount]) => `~${amount}`,
    because: 'an estimate is marked with ~',
    examples: [
      { written: 'height 20 m approx.', meant: 'height ~20 m' },
      { written: 'dbh 30 in +/-', meant: 'dbh ~30 in' },
    ],
    not: ['age 20 approx'],
  },
  {
    name: 'words for a bound',
    pattern: pattern(
      `(?<![\\p{L}\\d])(?:(over|more than|at least|above|≥|>=)|(under|less than|below|≤|<=))\\s*(?=\\d)`,
      'i',
    ),
    code: 'unexpected',
    meant: ([, above]) => (above ? '> ' : '< '),
    because: 'bounds are marked with > and <',
    examples: [
      { written: 'height over 75 ft', meant: 'height > 75 ft' },
      { below: 'defect A cavity', written: 'depth at least 11 in', meant: 'depth > 11 in' },
      { below: 'defect A cavity', written: 'wall less than 2 in', meant: 'wall < 2 in' },
    ],
    not: ['age over 80'],
  },
  {
    name: 'plus behind the value',
    pattern: pattern(`(${NUM})\\s*\\+(?!\\s*\\d)\\s*(${UNIT})?`),
    code: 'unexpected',
    meant: ([, number, unit]) => `> ${number}${unit ? ` ${unit}` : ''}`,
    because: 'a lower bound is marked with >',
    examples: [{ written: 'height 75+ ft', meant: 'height > 75 ft' }],
    not: ['age 80+'],
  },
  {
    name: 'word for what is not known',
    pattern: pattern(
      '(?<=\\s)(?:unknown|unmeasured|unclear|not measured|not known|n/?a|tbd|\\?+)(?![\\p{L}\\d])',
      'i',
    ),
    code: 'unexpected',
    meant: () => 'unseen',
    because: 'a value that was not measured is written as unseen',
    remedy: 'Write unseen, or leave the line out.',
    examples: [
      { written: 'height unknown', meant: 'height unseen' },
      { written: 'height ?', meant: 'height unseen' },
      { written: 'height n/a', meant: 'height unseen' },
    ],
    not: ['vigor unknown'],
  },
  {
    name: 'two points of the compass',
    pattern: pattern(`(?<![\\p{L}\\d])(${POINT})\\s*(?:-|–|/|\\bto\\b|\\band\\b)\\s*(${POINT})`, 'i'),
    code: 'unexpected',
    // `south-west` is one point.
    meant: ([written, from, to]) =>
      /^\p{L}{4,}-\p{L}{4,}$/u.test(written) ? undefined : pointsBetween(from!, to!),
    because: 'a bearing is a single compass point',
    examples: [
      {
        below: 'defect A cavity',
        written: 'on trunk at 4 ft, facing N to E',
        meant: ['on trunk at 4 ft, facing NE', 'on trunk at 4 ft, facing N', 'on trunk at 4 ft, facing E'],
      },
    ],
    not: ['note N to E'],
  },
  {
    name: 'long point of the compass',
    pattern: pattern(`(?<![\\p{L}\\d])(?:the\\s+)?(${POINT})`, 'i'),
    code: 'unexpected',
    meant: ([written, point]) => {
      const short = pointOf(point!);
      return short === written ? undefined : short;
    },
    because: 'compass points are abbreviated',
    examples: [
      { written: 'lean 5 deg toward south-west', meant: 'lean 5 deg toward SW' },
      { written: 'lean 5 deg toward South', meant: 'lean 5 deg toward S' },
      { written: 'lean 5 deg toward nw', meant: 'lean 5 deg toward NW' },
    ],
    not: ['soil south'],
  },
  {
    name: 'point of the compass by itself',
    at: 'mistake',
    pattern: pattern(
      `(?<=\\d\\s*${UNIT}\\s*)(,?)\\s+(?:to\\s+|on\\s+)?(?:the\\s+)?(${POINT})(?!\\s*(?:-|to|/)\\s*[NESW])`,
      'i',
    ),
    code: 'unexpected',
    meant: ([, , point], line) => {
      const short = pointOf(point!);
      if (short === undefined) return undefined;
      if (/^\s*(?:lean|distance)\b/.test(line)) return ` toward ${short}`;
      return /^\s*(?:on|from)\b/.test(line) ? `, facing ${short}` : ` at ${short}`;
    },
    because: 'a word is missing before the compass point',
    examples: [
      { written: 'lean 5 deg SW', meant: 'lean 5 deg toward SW' },
      { below: 'target "Path"', written: 'distance 12 ft south', meant: 'distance 12 ft toward S' },
      { below: 'defect A cavity', written: 'on trunk at 8 ft SW', meant: 'on trunk at 8 ft, facing SW' },
      { below: 'defect A cavity', written: 'wall 2 in SW', meant: 'wall 2 in at SW' },
    ],
    not: ['height 8 ft SW'],
  },
  {
    name: 'word that the field says already',
    pattern: pattern(
      `(?<=^\\s*(?:on|from|height)\\b.*\\d\\s*${UNIT})\\s+(?:up|high|tall|above\\s+(?:the\\s+)?(?:ground|grade)|off\\s+the\\s+ground|up\\s+the\\s+trunk|agl)(?![\\p{L}])|(?<=^\\s*(?:diameter|dbh|width)\\b.*\\d\\s*${UNIT})\\s+(?:across|wide|in\\s+diameter|dbh|dia)(?![\\p{L}])|(?<=^\\s*depth\\b.*\\d\\s*${UNIT})\\s+(?:deep|in)(?![\\p{L}])|(?<=^\\s*length\\b.*\\d\\s*${UNIT})\\s+long(?![\\p{L}])|(?<=^\\s*wall\\b.*\\d\\s*${UNIT})\\s+thick(?![\\p{L}])|(?<=^\\s*distance\\b.*\\d\\s*${UNIT})\\s+(?:away|off|out)(?![\\p{L}])`,
    ),
    code: 'unexpected',
    meant: () => '',
    because: 'this is not needed here',
    remedy: 'Remove it.',
    examples: [
      { below: 'defect A cavity', written: 'on trunk at 8 ft up', meant: 'on trunk at 8 ft' },
      { below: 'defect A cavity', written: 'depth 11 in deep', meant: 'depth 11 in' },
      { written: 'height 60 ft tall', meant: 'height 60 ft' },
    ],
    not: ['height 60 ft wide', 'dbh 12 in tall'],
  },
  {
    name: 'degrees without their unit',
    at: 'mistake',
    pattern: pattern('(?<=\\s)(\\d+(?:\\.\\d+)?)(?![\\d.\\p{L}])'),
    code: 'missing-unit',
    meant: ([number], line) =>
      /\b(?:toward|facing|at)\s+[\d.]+\s*(?:,|$)/.test(line) ? `${number} deg` : undefined,
    because: 'degrees need their unit',
    examples: [{ written: 'lean 5 deg toward 225', meant: 'lean 5 deg toward 225 deg' }],
    not: ['height 225'],
  },
  {
    name: 'sides of an opening by a letter',
    pattern: pattern(
      `(${NUM}\\s*${UNIT})\\s*(w|wide|h|t|high|tall)\\s*[,x×]?\\s*(?:by\\s+)?(${NUM}\\s*${UNIT})\\s*(w|wide|h|t|high|tall)(?![\\p{L}])`,
      'i',
    ),
    code: 'unexpected',
    meant: ([written, a, first, b, second]) => {
      const isWide = (side: string) => /^w/i.test(side);
      if (isWide(first!) === isWide(second!)) return undefined;
      const right = isWide(first!) ? `${a} wide, ${b} tall` : `${b} wide, ${a} tall`;
      return right === written ? undefined : right;
    },
    because: 'an opening is written as width, then height',
    examples: [
      {
        below: 'defect A cavity',
        written: 'opening 9 in w x 14 in h',
        meant: 'opening 9 in wide, 14 in tall',
      },
      {
        below: 'defect A cavity',
        written: 'opening 14 in tall, 9 in wide',
        meant: 'opening 9 in wide, 14 in tall',
      },
    ],
    not: ['dbh 9 in w x 14 in w'],
  },
  {
    name: 'spread of a crown',
    pattern: pattern('(?<=^\\s*crown\\s+)(?:spread|width)\\s*[:=]?\\s*(?:of\\s+)?(.*\\S)'),
    code: 'unexpected',
    meant: ([, size]) => `${size} wide`,
    because: 'the width of a crown is written with wide',
    isMark,
    examples: [{ written: 'crown spread 58 ft', meant: 'crown 58 ft wide' }],
    not: ['crown spread even'],
  },
  {
    name: 'one size of a crown',
    pattern: pattern(`(?<=^\\s*crown\\s+)([~<>]?\\s?${NUM}(?:\\.\\.${NUM})?\\s*${UNIT})(?=\\s*$)`),
    code: 'unexpected',
    meant: ([, size]) => [`${size} wide`, `from ${size}`],
    because: 'this could be the width of the crown or the height of its base',
    examples: [{ written: 'crown 58 ft', meant: ['crown 58 ft wide', 'crown from 58 ft'] }],
    not: ['crown 58 lb'],
  },
  {
    name: 'height on a part without its word',
    pattern: pattern('(?<=^\\s*on\\s+[^\\s,]+),?\\s+(?=[~<>]?\\s?\\d)'),
    code: 'unexpected',
    meant: () => ' at ',
    because: 'a height is written after at',
    examples: [{ below: 'defect A cavity', written: 'on trunk 8 ft', meant: 'on trunk at 8 ft' }],
    not: ['note on trunk 8 ft'],
  },
  {
    name: 'two sides of an opening',
    pattern: pattern(`(~?)(${NUM})(\\s*${UNIT})?\\s*(?:[x×*]|\\bby\\b)\\s*(${NUM})\\s*(${UNIT})`),
    code: 'unexpected',
    // What is estimated on one side is on the other.
    meant: ([, mark, a, first, b, second]) => {
      const [wide, tall] = [`${mark}${a}${first ?? ` ${second}`}`, `${mark}${b} ${second}`];
      return [
        `${wide} wide, ${tall} tall`,
        `${tall} wide, ${wide} tall`,
        `${mark}${a}${first ?? ''} x ${mark}${b} ${second}`,
      ];
    },
    because: 'width and height are not marked',
    examples: [
      {
        below: 'defect A cavity',
        written: 'opening 9 x 14 in',
        meant: ['opening 9 in wide, 14 in tall', 'opening 14 in wide, 9 in tall'],
      },
      {
        below: 'defect A cavity',
        written: 'opening ~9 x 14 in',
        meant: ['opening ~9 in wide, ~14 in tall', 'opening ~14 in wide, ~9 in tall'],
      },
    ],
    not: ['dbh 9 x 14 in'],
  },
  {
    name: 'two sides of an opening without a unit',
    pattern: pattern(`(?<=^\\s*opening\\s+)(${NUM})\\s*(?:[x×*]|\\bby\\b)\\s*(${NUM})(?=\\s*$)`),
    code: 'missing-unit',
    meant: ([, a, b]) =>
      ['in', 'cm'].flatMap(unit => [
        `${a} ${unit} wide, ${b} ${unit} tall`,
        `${b} ${unit} wide, ${a} ${unit} tall`,
      ]),
    because: 'the order and the unit are not clear',
    examples: [
      {
        below: 'defect A cavity',
        written: 'opening 9 by 14',
        meant: [
          'opening 9 in wide, 14 in tall',
          'opening 14 in wide, 9 in tall',
          'opening 9 cm wide, 14 cm tall',
          'opening 14 cm wide, 9 cm tall',
        ],
      },
    ],
    not: ['dbh 9 by 14'],
  },
  {
    name: 'article',
    pattern: pattern('(?<=\\s)(?:the|a|an)\\s+(?=\\S)'),
    code: 'unexpected',
    meant: () => '',
    because: 'this is not needed here',
    remedy: 'Remove it.',
    examples: [{ written: 'lean 5 deg toward the S', meant: 'lean 5 deg toward S' }],
    not: ['dbh the big one'],
  },
  {
    name: 'word of the trade',
    pattern: pattern(`(?<=\\s)(?:${longestFirst([...bySaid.keys()])})(?![\\p{L}\\d-])`, 'i'),
    code: 'unexpected',
    meant: ([written]) => bySaid.get(written.toLowerCase()),
    because: 'the notation uses a different word',
    examples: [
      { written: 'defect A butt rot', meant: ['defect A root decay', 'defect A decay'] },
      { written: 'defect A conk', meant: 'defect A fungus' },
      {
        below: 'target "Path"',
        written: 'occupied daily',
        meant: ['occupied frequent', 'occupied constant'],
      },
      {
        below: 'target "Path"',
        written: 'occupied weekends',
        meant: ['occupied occasional', 'occupied frequent'],
      },
      { written: 'prescription R1 crown reduction', meant: 'prescription R1 reduce' },
    ],
    not: ['dbh hollow', 'age declining'],
  },
  {
    name: 'colon or equals sign',
    pattern: pattern('(?<=^\\s*[\\p{L}-]+)\\s*[:=]\\s*'),
    code: 'stray-mark',
    meant: () => ' ',
    because: 'this is not needed here',
    remedy: 'Remove it. A space is enough between a word and its value.',
    isMark,
    examples: [
      { written: 'height: 20 m', meant: 'height 20 m' },
      { written: 'height = 20 m', meant: 'height 20 m' },
    ],
    not: ['note 20:15'],
  },
  {
    name: 'other mark or word for a comma',
    pattern: pattern('\\s*(?:;|&|\\+|\\band\\b)\\s*'),
    code: 'unexpected',
    meant: () => ', ',
    because: 'values are separated by a comma',
    remedy: 'Write a comma.',
    examples: [
      { written: 'joined A and B suspected', meant: 'joined A, B suspected' },
      { written: 'crown from 14 ft; 58 ft wide', meant: 'crown from 14 ft, 58 ft wide' },
    ],
    not: ['age mature; x'],
  },
  {
    name: 'missing comma',
    at: 'mistake',
    pattern: pattern('(?<=\\S)\\s+(?=\\S)'),
    code: 'unexpected',
    meant: () => ', ',
    because: 'values are separated by a comma',
    remedy: 'Write a comma before it.',
    examples: [
      { written: 'crown from 14 ft 58 ft wide', meant: 'crown from 14 ft, 58 ft wide' },
      { written: 'position 44.3127 -122.8714', meant: 'position 44.3127, -122.8714' },
      { written: 'dbh 12 in 8 in', meant: 'dbh 12 in, 8 in' },
    ],
    not: ['age mature old'],
  },
  {
    name: 'text that is not closed',
    at: 'mistake',
    pattern: pattern('"[^"]*$'),
    code: 'unclosed-quote',
    meant: ([written]) => {
      const whole = written.trimEnd();
      const comma = whole.lastIndexOf(',');
      return comma < 0 ? `${whole}"` : [`${whole}"`, `${whole.slice(0, comma)}"${whole.slice(comma)}`];
    },
    because: 'the quotation mark is not closed on this line',
    remedy: 'Add a closing ", or write "" for a quotation mark inside the text.',
    isMark,
    examples: [
      { written: 'note "gate code', meant: 'note "gate code"' },
      { written: 'note "gate code, from the office', meant: 'note "gate code, from the office"' },
      {
        below: 'person RV "Ruth Varga"',
        written: 'certificate "remote pilot 4417, until 2027-05-31',
        meant: [
          'certificate "remote pilot 4417, until 2027-05-31"',
          'certificate "remote pilot 4417", until 2027-05-31',
        ],
      },
    ],
    not: ['dbh 41"'],
  },
  {
    name: 'quotation marks around a short name',
    at: 'mistake',
    pattern: pattern('"[^"]+"'),
    code: 'unexpected',
    // Blanked out in the pattern's view of the line.
    meant: ({ 0: { length }, index }, line) => {
      const name = line.slice(index + 1, index + length - 1).trim();
      return /^\p{L}[\p{L}\d-]*$/u.test(name) ? name : undefined;
    },
    because: 'this name is written without quotation marks',
    remedy: 'Remove the quotation marks.',
    examples: [
      { below: 'nest check 2026-03-16', written: 'by "RV"', meant: 'by RV' },
      { below: 'defect A cavity', written: 'on "trunk" at 4 ft', meant: 'on trunk at 4 ft' },
    ],
    not: ['dbh "large"'],
  },
  ...[1, 2, 3].flatMap(before =>
    BARE_ENDS.map(
      (until, i): Habit => ({
        name: 'text without quotation marks',
        needs: 'text',
        pattern: unquoted(before, until),
        code: 'unexpected',
        meant: ({ 0: written }) => (/[\p{L}\d]/u.test(written) ? quoted(written) : undefined),
        because: 'text must be in quotation marks',
        examples: before === 1 && i === 0 ? UNQUOTED : [],
        not: ['dbh the big one'],
      }),
    ),
  ),
];

/** Longest line in which habits are looked for, and how often it may be read again. */
const LONGEST = 1000;
const MOST_READINGS = 12;
/** Of a line that no word begins, whose form is not known: only its first mark is looked at. */
const MOST_READINGS_OF_MARKS = 2;

/** How far a line is read: its marks, then the items that they make, then what its form has of them. */
const STAGES = ['marks', 'items', 'form'] as const;
export type Stage = (typeof STAGES)[number];

/** A line that has a mistake, and how it reads with another text. */
export interface Misread {
  readonly text: string;
  readonly found: Mistake;
  /** Where the mistake was found: nothing was read beyond it. */
  readonly stage: Stage;
  /** Neither head nor field: its form is not known. */
  readonly isFormless: boolean;
  readonly isHead: boolean;
  readonly takesText: boolean;
  readonly reread: (text: string) => { readonly mistake: Mistake | undefined; readonly stage: Stage };
}

/** The line as patterns see it: no comment, and the letters of quoted texts blanked out. */
function searched(text: string): string {
  let shown = '';
  for (let i = 0; i < text.length; i++) {
    const mark = text[i]!;
    if (mark === '#') break;
    const close = mark === '"' && !/\d/.test(text[i - 1] ?? '') ? text.indexOf('"', i + 1) : -1;
    if (close < 0) shown += mark;
    else {
      shown += `"${'\u0001'.repeat(close - i - 1)}"`;
      i = close;
    }
  }
  return shown;
}

/** The habit that explains the mistake of a line, and what is meant. */
export function habitOf(line: Misread): Mistake | undefined {
  if (line.text.length > LONGEST || line.found.sure) return undefined;
  return habitOne(line) ?? together(line);
}

/** The first habit that explains it by itself. */
function habitOne(line: Misread): Mistake | undefined {
  const { text, found } = line;
  const shown = searched(text);
  const most = line.isFormless ? MOST_READINGS_OF_MARKS : MOST_READINGS;
  let readings = 0;
  /** Told where nothing reads without a mistake: a mark that can't stay. */
  let mark: Mistake | undefined;
  for (const habit of HABITS) {
    if ((habit.needs === 'text' && !line.takesText) || (line.isFormless && !habit.isMark)) continue;
    for (const match of shown.matchAll(habit.pattern)) {
      const start = match.index;
      const end = start + match[0].length;
      if ((habit.at === 'mistake' || line.isFormless) && (found.start < start || found.start > end)) continue;
      const written = text.slice(start, end);
      if (habit.needs === 'text') match[0] = written;
      const meant = habit.meant(match, text);
      if (meant === undefined) continue;
      const all = typeof meant === 'string' ? [meant] : meant;
      if (readings + all.length > most) return mark;
      readings += all.length;
      const read = all.map(one => ({ one, ...line.reread(text.slice(0, start) + one + text.slice(end)) }));
      const progress = (after: Mistake | undefined, stage: Stage, one: string) =>
        after === undefined ||
        (habit.needs !== 'text' &&
          STAGES.indexOf(stage) >= STAGES.indexOf(line.stage) &&
          (habit.isMark || after.code !== 'incomplete') &&
          placeOf(after) > movedTo(placeOf(found), start, end, one.length));
      const good = read
        .filter(({ one, mistake, stage }) => progress(mistake, stage, one))
        .map(({ one }) => one);
      const span = { start, end };
      if (good.length > 0) {
        // `site visited by owner` may be prose: only what looks like a name surely opens a head.
        const isProse = habit.needs === 'text' && line.isHead && !/^[\p{Lu}\d]/u.test(written);
        const isSure = !isProse && (typeof meant === 'string' || all.length > good.length);
        return told(habit, text, span, good, isSure);
      }
      const isFurther = read.some(({ stage }) => STAGES.indexOf(stage) > STAGES.indexOf(line.stage));
      if (habit.isMark && isFurther && found.start >= start && found.start < end)
        mark ??= told(habit, text, span, all, typeof meant === 'string');
    }
  }
  return mark;
}

/** All marks and estimates of a line at once: none of several reads while the others stand. */
function together(line: Misread): Mistake | undefined {
  const { text, found, isFormless } = line;
  if (isFormless) return undefined;
  const comment = searched(text).length;
  let after = text.slice(0, comment);
  for (const habit of HABITS)
    if (habit.isMark && habit.code !== 'unclosed-quote') {
      let end = 0;
      let next = '';
      for (const match of searched(after).matchAll(habit.pattern)) {
        const meant = habit.meant(match, after);
        if (typeof meant !== 'string' || match.index < end) continue;
        next += after.slice(end, match.index) + meant;
        end = match.index + match[0].length;
      }
      after = next + after.slice(end);
    }
  if (after === text.slice(0, comment)) return undefined;
  const whole = after + text.slice(comment);
  const { mistake, stage } = line.reread(whole);
  // What is still wrong has to be a habit too, told when the line is read again.
  if (mistake && (mistake.start < 0 || !habitAfter({ ...line, text: whole, found: mistake, stage })))
    return undefined;
  const start = text.length - text.trimStart().length;
  const end = text.slice(0, comment).trimEnd().length;
  const fix = after.trim();
  return {
    code: found.code,
    message: `Found ${inQuotes(text.slice(start, end))}: the notation writes these marks differently.`,
    remedy: `Write ${inQuotes(fix)}.`,
    start,
    end,
    fix,
    sure: true,
  };
}

/** Without trying all marks once more. */
const habitAfter = (line: Misread): Mistake | undefined => {
  const mistake = habitOne(line);
  return mistake?.fix !== undefined || mistake?.choices ? mistake : undefined;
};

/** A line that ends too early is told from its beginning. */
const placeOf = ({ code, start, end }: Mistake): number => (code === 'incomplete' ? end : start);

/** Where a place of the line stands once a stretch of it was replaced; inside the stretch its end. */
const movedTo = (place: number, start: number, end: number, length: number): number =>
  place < start ? place : place < end ? start + Math.max(0, length - 1) : place + start + length - end;

function told(
  { code, because, remedy }: Habit,
  text: string,
  { start, end }: { start: number; end: number },
  meant: readonly string[],
  isSure: boolean,
): Mistake {
  const written = text.slice(start, end).trim();
  const show = (one: string) => inQuotes(one.trim());
  const only = meant.length === 1 ? meant[0]! : undefined;
  return {
    code,
    message:
      written === '' ? 'A comma is missing between two values.' : `Found ${inQuotes(written)}: ${because}.`,
    remedy:
      remedy ??
      (only === undefined
        ? meant.length === 2
          ? `Write ${meant.map(show).join(', or ')}, whichever is meant.`
          : `Write one of these: ${meant.map(show).join('; ')}.`
        : isSure
          ? `Write ${show(only)}.`
          : `Write ${show(only)} if that is meant.`),
    start,
    end,
    ...(only !== undefined && isSure ? { fix: only, sure: true } : { choices: meant }),
  };
}
