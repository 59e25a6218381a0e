/** A quantity in the other system of units. */

import { plainNumber, type Quantity, type Unit, unitOf } from '../base/quantity.ts';

/** Unit of the other system, and decimals that keep the precision. */
const OTHER_UNITS: Readonly<Record<string, readonly [symbol: string, digits: number]>> = {
  in: ['cm', 1],
  ft: ['m', 2],
  mm: ['in', 2],
  cm: ['in', 1],
  m: ['ft', 1],
  mph: ['m/s', 1],
  'm/s': ['mph', 1],
  'km/h': ['mph', 1],
  lb: ['kg', 1],
  kg: ['lb', 1],
  t: ['lb', 0],
};

/** Undefined if there is no other unit or no value. */
export function convertedUnit(quantity: Quantity): string | undefined {
  const found = quantity.unit && OTHER_UNITS[quantity.unit.symbol];
  if (!found) return undefined;
  return inUnitOf(quantity, unitOf(found[0])!, found[1]);
}

function inUnitOf({ form, low, high }: Quantity, unit: Unit, digits: number): string | undefined {
  const number = (value: number) => plainNumber(value / unit.factor, digits);
  switch (form) {
    case 'exact':
      return `${number(low)} ${unit.symbol}`;
    case 'about':
      return `~${number(low)} ${unit.symbol}`;
    case 'range':
      return `${number(low)}..${number(high)} ${unit.symbol}`;
    case 'above':
      return `> ${number(low)} ${unit.symbol}`;
    case 'below':
      return `< ${number(high)} ${unit.symbol}`;
    case 'unseen':
      return undefined;
  }
}
