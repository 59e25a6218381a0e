/** Dates for people, in the long form of the place. Machines get ISO 8601. */

import { MILLISECONDS_PER_DAY } from '../base/dates.ts';
import { memo } from '../base/memo.ts';
import type { DaySpan } from '../base/yearly-window.ts';
import type { RegionPack } from '../practice/region-pack.ts';

const formatIn = memo(
  ({ code }: RegionPack): Intl.DateTimeFormat =>
    new Intl.DateTimeFormat(/^(US|CA)\b/.test(code) ? `en-${code.slice(0, 2)}` : 'en-GB', {
      dateStyle: 'long',
      timeZone: 'UTC',
    }),
);

/** `June 12, 2026` in the United States and Canada, else `12 June 2026`. */
export const longDate = (day: number, region: RegionPack): string =>
  formatIn(region).format(day * MILLISECONDS_PER_DAY);

/** `June 2–12, 2026`, `2–12 June 2026`. */
export const longDays = ({ from, to }: DaySpan, region: RegionPack): string =>
  formatIn(region)
    .formatRange(from * MILLISECONDS_PER_DAY, to * MILLISECONDS_PER_DAY)
    // Versions of the language data differ in the spaces around it.
    .replace(/\s*–\s*/, '–');
