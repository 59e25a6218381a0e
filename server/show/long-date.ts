/** Dates for people, in the long form of the place. Machines get ISO 8601. */

import { MILLISECONDS_PER_DAY } from '../base/dates.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { RegionPack } from '../practice/region-pack.ts';

type Place = Pick<RegionPack, 'code'>;

/** Of a language in the country of a region: `en-US`, `es-US`, `es-ES`. English is British but in North America. */
export function localeIn({ code }: Place, language = 'en'): string {
  const country = /^[A-Z]{2}\b/.exec(code)?.[0];
  if (language !== 'en') return country === undefined ? language : `${language}-${country}`;
  return country === 'US' || country === 'CA' ? `en-${country}` : 'en-GB';
}

const formats = new Map<string, Intl.DateTimeFormat>();

function formatIn(region: Place, language: string | undefined): Intl.DateTimeFormat {
  const locale = localeIn(region, language);
  const known =
    formats.get(locale) ?? new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' });
  formats.set(locale, known);
  return known;
}

/** `June 12, 2026` in the United States and Canada, else `12 June 2026`. */
export const longDate = (day: number, region: Place, language?: string): string =>
  formatIn(region, language).format(day * MILLISECONDS_PER_DAY);

/** `June 2–12, 2026`, `2–12 June 2026`. */
export const longDays = ({ from, to }: DaySpan, region: Place, language?: string): string =>
  formatIn(region, language)
    .formatRange(from * MILLISECONDS_PER_DAY, to * MILLISECONDS_PER_DAY)
    // Versions of the language data differ in the spaces around it; the bundler escapes the dash in strings only.
    .replace(/\s*\u2013\s*/, '–');
