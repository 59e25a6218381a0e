/** Paragraphs, columns, limits and sources on a terminal. */

import { inUnit, plainNumber, unitOf } from '../base/quantity.ts';
import type { Citation } from '../practice/citation.ts';

export { columns, wrap } from '../show/layout.ts';

/** The value of a limit: `33 %`, `0.3`, `10 ft`. */
export function amount(value: number, symbol: string): string {
  const unit = unitOf(symbol);
  return unit ? inUnit(value, unit, 2) : plainNumber(value, 3);
}

export const sourceText = ({ full, url, confidence }: Citation): string =>
  `${full}${url ? ` ${url}` : ''} (${confidence})`;
