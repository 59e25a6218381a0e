/** What a reading may stand for, as an interval. */

import type { Interval } from '../base/interval.ts';
import type { Quantity } from '../base/quantity.ts';
import type { Settings } from './settings.ts';

/**
 * The values that a quantity allows, in its inside unit. `~26 in` gets the margin that practice gives an
 * estimate, to either side; `> 11 in` has no upper end; `unseen` is 0 to Infinity.
 */
export function valuesOf(quantity: Quantity, settings: Settings): Interval {
  if (quantity.form !== 'about') return { low: quantity.low, high: quantity.high };
  const margin = settings.limit('estimate-margin').value;
  return {
    // Of something that is there, no estimate is so wide that it may be less than nothing.
    low: quantity.low - Math.abs(quantity.low) * Math.min(1, margin),
    high: quantity.high + Math.abs(quantity.high) * margin,
  };
}
