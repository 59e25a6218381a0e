/** The meaning of a line, independent of notation: lines with equal meaning state the same fact. */

import type { Quantity } from '../server/base/quantity.ts';
import type { Line, Value } from './syntax.ts';

/** More digits than any measurement has, few enough to hide rounding in unit conversions. */
const DIGITS = 10;

const showNumber = (value: number) => String(Number(value.toPrecision(DIGITS)));

const quantityMeaning = ({ form, low, high }: Quantity): string =>
  `${form} ${showNumber(low)} ${showNumber(high)}`;

export function valueMeaning(value: Value): string {
  switch (value.type) {
    case 'quantity':
      return quantityMeaning(value.quantity);
    case 'dates':
      return `${value.from} ${value.to}`;
    case 'monthDays':
      return JSON.stringify([value.from, value.to]);
    case 'text':
      return JSON.stringify(value.text);
    case 'bearing':
      return showNumber(value.degrees);
    case 'species':
      return JSON.stringify(value.species);
  }
}

/**
 * What a line says after its word: fixed words and named values, the parts between commas in any order. Spaces,
 * comments, quotation marks, units and compass points or degrees are writing; a line with a mistake means its text.
 */
export function lineMeaning({ syntax, values, mistake }: Line): string {
  if (mistake) return syntax.text.trim();
  const parts: string[][] = [[]];
  let last: Value | undefined;
  for (const item of syntax.items.slice(1)) {
    const value = values.find(({ start, end }) => start <= item.start && item.end <= end);
    if (value) {
      if (value !== last) parts[parts.length - 1]!.push(`${value.name}=${valueMeaning(value)}`);
    } else if (item.kind === 'comma') parts.push([]);
    else parts[parts.length - 1]!.push(syntax.text.slice(item.start, item.end));
    last = value;
  }
  return parts
    .map(part => part.join(' '))
    .sort()
    .join(', ');
}
