/** Dates for people, in the long form of the place. Machines get ISO 8601. */

import { MILLISECONDS_PER_DAY, type MonthDay } from '../base/dates.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { RegionPack } from '../practice/region-pack.ts';

export type RegionCode = Pick<RegionPack, 'code'>;

/** Of a language in the country of a region: `en-US`, `es-US`, `es-ES`. English is British but in North America. */
export function localeIn({ code }: RegionCode, language = 'en'): string {
  const country = /^[A-Z]{2}\b/.exec(code)?.[0];
  if (language !== 'en') return country === undefined ? language : `${language}-${country}`;
  return country === 'US' || country === 'CA' ? `en-${country}` : 'en-GB';
}

interface Forms {
  readonly day: Intl.DateTimeFormat;
  readonly monthDay: Intl.DateTimeFormat;
}

const byLocale = new Map<string, Forms>();

function formsIn(region: RegionCode, language?: string): Forms {
  const locale = localeIn(region, language);
  const forms = byLocale.get(locale) ?? {
    day: new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' }),
    monthDay: new Intl.DateTimeFormat(locale, { month: 'long', day: 'numeric', timeZone: 'UTC' }),
  };
  byLocale.set(locale, forms);
  return forms;
}

/** `June 12, 2026` in the United States and Canada, else `12 June 2026`. */
export const longDate = (day: number, region: RegionCode, language?: string): string =>
  formsIn(region, language).day.format(day * MILLISECONDS_PER_DAY);

/** `June 2–12, 2026`, `2–12 June 2026`. */
export const longDays = ({ from, to }: DaySpan, region: RegionCode, language?: string): string =>
  formsIn(region, language)
    .day.formatRange(from * MILLISECONDS_PER_DAY, to * MILLISECONDS_PER_DAY)
    // Versions of the language data differ in the spaces around it.
    .replace(/\s*–\s*/, '–');

/** A day of any year: `February 1`, `1 February`. */
export const longMonthDay = ({ month, day }: MonthDay, region: RegionCode): string =>
  // A leap year, which has all of them.
  formsIn(region).monthDay.format(Date.UTC(2000, month - 1, day));
