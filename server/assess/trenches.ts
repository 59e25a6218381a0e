/** Distance of trenches from the tree. */

import { type Interval, interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Tree } from '../facts/types.ts';
import { equivalentDiameter } from '../mechanics/stem.ts';
import { isRead } from './fall-zone.ts';

/** Diameter of the tree at breast height, m, of all its stems together; undefined if one has no bounds. */
export function diameterOf({ diameters }: Tree, settings: Settings): Interval | undefined {
  const read = diameters.map(({ value }) => valuesOf(value, settings));
  return read.length > 0 && read.every(({ low, high }) => low > 0 && Number.isFinite(high))
    ? equivalentDiameter(read)
    : undefined;
}

/** Distance of a trench from the bark over the stem diameter; undefined if either is not known. */
export function trenchRatio({ distance }: Defect, tree: Tree, settings: Settings): Interval | undefined {
  if (!distance || !isRead(distance)) return undefined;
  const whole = diameterOf(tree, settings);
  if (!whole) return undefined;
  const away = valuesOf(distance.value, settings);
  return interval(Math.max(0, away.low) / whole.high, Math.max(0, away.high) / whole.low);
}
