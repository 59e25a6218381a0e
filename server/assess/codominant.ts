/** Diameter ratio of codominant stems. */

import { type Interval, interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { StemOrLimb } from '../facts/types.ts';
import { diameterRatio } from '../mechanics/stem.ts';

/** The thinner over the thicker diameter. */
export function codominantRatio(
  one: Pick<StemOrLimb, 'diameter'>,
  other: Pick<StemOrLimb, 'diameter'>,
  settings: Settings,
): Interval | undefined {
  if (!one.diameter || !other.diameter) return undefined;
  const [a, b] = [valuesOf(one.diameter.value, settings), valuesOf(other.diameter.value, settings)];
  if (!(a.low > 0 && b.low > 0 && Number.isFinite(a.high + b.high))) return undefined;
  const ratio = diameterRatio(a, b);
  // If either may be the thicker, they may be equal.
  const most = ratio.high <= 1 ? ratio.high : Math.min(1, 1 / ratio.low);
  return interval(Math.min(ratio.low, 1 / ratio.high), most);
}
