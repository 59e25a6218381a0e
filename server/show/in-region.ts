/**
 * A canonical sentence (American words, dates of ISO 8601, `..` for ranges) → what people of a region read. Texts for
 * programs stay canonical. What is quoted is left alone: so are marked the lines that a remedy says to type.
 */

import { type MonthDay, parseDate, parseMonthDay } from '../base/dates.ts';
import { capital } from '../base/words.ts';
import { isBritish } from '../practice/region-pack.ts';
import { BRITISH_WORDS } from './british-words.ts';
import { longDate, longDays, longMonthDay, type RegionCode } from './long-date.ts';

/** Quotations, code, example lines, words that a line may begin with, addresses and embedded pictures. */
const KEPT = /("[^"]*"|“[^”]*”|`[^`]*`|\b(?:Example|Allowed [a-z ]+): .*|\b(?:https?|data|file):\S+)/;

/** Not part of a longer number or name. */
const BEFORE = String.raw`(?<![\w./-])`;
const AFTER = String.raw`(?![\w-]|\.\w)`;
const DAY = String.raw`\d{4}-\d\d-\d\d`;
const MONTH_DAY = String.raw`\d\d-\d\d`;
const DATES = new RegExp(
  `${BEFORE}(?:(${DAY})(?:\\.\\.(${DAY}))?|(${MONTH_DAY})\\.\\.(${MONTH_DAY}))${AFTER}`,
  'g',
);

const BRITISH_FOR = new Map(BRITISH_WORDS.map(({ american, british }) => [american, british]));
const AMERICAN = new RegExp(
  `(?<![\\w./-])(?:${[...BRITISH_FOR.keys()].sort((a, b) => b.length - a.length).join('|')})${AFTER}`,
  'gi',
);

/** Days in long form, and British words where they are read. */
export function inRegion(text: string, region: RegionCode): string {
  return outsideQuotations(text, (part, before) => {
    const dated = part.replace(DATES, (written, from, to, windowFrom, windowTo) =>
      from === undefined
        ? (window(windowFrom, windowTo, region) ?? written)
        : (days(from, to ?? from, region) ?? written),
    );
    return isBritish(region)
      ? dated.replace(AMERICAN, (american: string, at: number) =>
          isName(american, before + dated.slice(0, at)) ? american : british(american),
        )
      : dated;
  });
}

/** The same for a sentence, in which what is to be typed is quoted: ranges of figures have a dash, `42–57 %`. */
export const readInRegion = (text: string, region: RegionCode): string =>
  outsideQuotations(inRegion(text, region), readRanges);

/** Ranges of figures as people read them. */
export const readRanges = (text: string): string =>
  text.replace(RANGE, (_written, low: string, high: string) =>
    low.startsWith('-') || high.startsWith('-') ? `${low} to ${high}` : `${low}–${high}`,
  );

/** Of two figures, not of two dates. */
const RANGE = /(?<![\w.-])(-?\d+(?:\.\d+)?)\.\.(-?\d)/g;

function outsideQuotations(text: string, change: (part: string, before: string) => string): string {
  let before = '';
  return text
    .split(KEPT)
    .map((part, i) => {
      const changed = i % 2 === 0 ? change(part, before) : part;
      before += part;
      return changed;
    })
    .join('');
}

/** A capital within a sentence is that of a name, "climber: Alan Gray"; English has none after a colon. */
const isName = (word: string, before: string): boolean =>
  /^[A-Z]/.test(word) && !/(?:^|[.!?|>*#\n]|\n *-)\s*$/.test(before);

function days(from: string, to: string, region: RegionCode): string | undefined {
  const [first, last] = [parseDate(from), parseDate(to)];
  if (first === undefined || last === undefined) return undefined;
  return first === last ? longDate(first, region) : longDays({ from: first, to: last }, region);
}

function window(from: string, to: string, region: RegionCode): string | undefined {
  const ends = [parseMonthDay(from), parseMonthDay(to)].filter((end): end is MonthDay => end !== undefined);
  return ends.length === 2 ? ends.map(end => longMonthDay(end, region)).join('–') : undefined;
}

function british(american: string): string {
  const word = BRITISH_FOR.get(american.toLowerCase())!;
  return /^[A-Z]/.test(american) ? capital(word) : word;
}
