/** Detects openings that may remove the last wood beside another opening. */

import { type Interval, interval } from '../base/interval.ts';
import { radiusAt } from './section-readings.ts';
import { halfAngle, RADIANS } from './section-shape.ts';
import type { Cavity, OuterEdge, UncertainSection } from './section-types.ts';

/** Half the angle that an opening subtends at the pith, degrees. */
function halfOf(
  outer: OuterEdge<Interval>,
  { bearing = 0, opening }: Cavity<Interval>,
): Interval | undefined {
  if (!opening || opening.high === 0) return undefined;
  const radius = radiusAt(outer, bearing);
  const least = halfAngle(opening.low, radius.high) / RADIANS;
  return interval(least, Math.max(least, halfAngle(opening.high, radius.low) / RADIANS));
}

/**
 * Names of the readings (see `sectionInputs`) in which the loss may be discontinuous, because wood at the surface
 * vanishes: the wood between two openings, and in an oval stem the wood where the void of a probe breaks through the
 * edge.
 */
export function jumpyReadings({ outer, cavities }: UncertainSection): ReadonlySet<string> {
  const halves = cavities.map(cavity => halfOf(outer, cavity));
  const breaksThrough = outer.crossDiameter !== undefined && cavities.some(({ depth }) => depth);
  const mayMeet = (one: Interval, other: Interval, apart: number): boolean =>
    [apart, 360 - apart].some(angle => one.low + other.low <= angle && angle <= one.high + other.high);
  const jumpy = new Set<string>();
  for (const [c, own] of halves.entries()) {
    const meets = halves.some((other, o) => {
      const apart = Math.abs((cavities[c]!.bearing ?? 0) - (cavities[o]!.bearing ?? 0)) % 360;
      return o !== c && own && other && mayMeet(own, other, apart);
    });
    if (!breaksThrough && !meets) continue;
    for (const name of ['diameter', 'cross diameter', 'bark', `cavity ${c} opening`]) jumpy.add(name);
    if (breaksThrough) jumpy.add(`cavity ${c} depth`);
  }
  return jumpy;
}
