/** What was written, as an interval: the margin of `~` is a matter of practice, so it comes in here. */

import type { Quantity } from '../../grammar/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import { type Interval, interval } from '../mechanics/interval.ts';

/**
 * Everything that a reading allows, in the inside unit of its dimension. `~26 in` spreads by the limit
 * `estimate-margin`; `> 11 in` and `unseen` have no upper end until the physics gives them one.
 */
export function reading({ form, low, high }: Quantity, settings: Settings): Interval {
  if (form !== 'about') return interval(low, high);
  const margin = settings.limit('estimate-margin').value;
  const ends = [low * (1 - margin), high * (1 + margin)].sort((a, b) => a - b);
  return interval(ends[0]!, ends[1]!);
}

/** The reading of a share, which never leaves 0 to 1. */
export function shareReading(quantity: Quantity, settings: Settings): Interval {
  const { low, high } = reading(quantity, settings);
  return interval(Math.min(low, 1), Math.min(high, 1));
}
