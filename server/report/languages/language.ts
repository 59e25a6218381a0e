/** The languages of the part for the crew, as spoken in a region. */

import { IntlMessageFormat } from 'intl-messageformat';
import { compassPoint } from '../../../grammar/bearing.ts';
import { type Quantity, showQuantity } from '../../base/quantity.ts';
import type { DaySpan } from '../../base/yearly-window.ts';
import type { Placed, Unread } from '../../facts/types.ts';
import type { RegionPack } from '../../practice/region-pack.ts';
import { inRegion, readInRegion, readRanges } from '../../show/in-region.ts';
import { localeIn, longDate, longDays } from '../../show/long-date.ts';
import { EN, type MessageKey } from './en.ts';
import { EN_FINDINGS } from './en-findings.ts';
import { ES } from './es.ts';
import type { Language, LanguageCode } from './translation.ts';
import type { CrewWord } from './words.ts';

export const LANGUAGES: Readonly<Record<LanguageCode, Language>> = {
  en: { name: 'English', messages: EN, findings: EN_FINDINGS },
  es: ES,
};

type Values = Readonly<Record<string, string | number>>;

/** A language as it is spoken in a region. */
export interface Speech {
  readonly code: LanguageCode;
  readonly language: Language;
  readonly say: (key: MessageKey, values?: Values) => string;
  /** A word of the notation; of an unread head the mark of it. */
  readonly word: (word: CrewWord | Unread) => string;
  /** A quantity in the unit of its writer. */
  readonly figure: (quantity: Placed<Quantity>) => string;
  /** A figure written in English, with the decimal mark of the region. */
  readonly figures: (written: string) => string;
  readonly point: (bearing: number) => string;
  readonly date: (day: number) => string;
  readonly days: (span: DaySpan) => string;
  readonly listed: (items: readonly string[]) => string;
  /** An English sentence of the program, in the words of the region. */
  readonly read: (sentence: string) => string;
}

const spoken = new Map<string, Speech>();

export function speechIn(code: LanguageCode, region: Pick<RegionPack, 'code'>): Speech {
  const key = `${code} ${region.code}`;
  const known = spoken.get(key) ?? speechOf(code, localeIn(region, code), region);
  spoken.set(key, known);
  return known;
}

/** Where no region matters. */
export const ENGLISH = () => speechIn('en', { code: '' });

function speechOf(code: LanguageCode, locale: string, region: Pick<RegionPack, 'code'>): Speech {
  const language = LANGUAGES[code];
  const { messages, translation } = language;
  const formats = new Map<MessageKey, IntlMessageFormat>();
  const mark = new Intl.NumberFormat(locale).formatToParts(0.5).find(({ type }) => type === 'decimal')!.value;
  // No comma before "and", as elsewhere in the program.
  const list = new Intl.ListFormat(code === 'en' ? 'en-GB' : locale);
  // Only English differs by region; names and figures are put in afterward.
  const inWords = (message: string) => (translation ? message : inRegion(message, region));
  const say = (key: MessageKey, values?: Values): string => {
    const format =
      formats.get(key) ??
      new IntlMessageFormat(inWords(messages[key]), locale, undefined, { ignoreTag: true });
    formats.set(key, format);
    return String(format.format(values));
  };
  const figures = (written: string): string =>
    readRanges(written)
      .replaceAll(/(?<=\d)\.(?=\d)/g, mark)
      .replace('without end', say('without end'))
      .replace(/^at least (.*)$/, (_, value: string) => say('or more', { value }));
  return {
    code,
    language,
    say,
    word: word => (word === '?' ? word : (translation?.words[word] ?? word)),
    figure: ({ value }) => (value.form === 'unseen' ? say('unseen') : figures(showQuantity(value))),
    figures,
    point: bearing => {
      const point = compassPoint(bearing);
      return translation?.points[point] ?? point;
    },
    read: sentence => readInRegion(sentence, region),
    date: day => longDate(day, region, code),
    days: span => longDays(span, region, code),
    listed: items => list.format(items),
  };
}
