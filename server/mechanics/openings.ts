/** The openings of a section's cavities: where one may take away the last wood beside another. */

import { type Interval, interval } from '../base/interval.ts';
import { radiusAt } from './section-readings.ts';
import { halfAngle, RADIANS } from './section-shape.ts';
import type { Cavity, OuterEdge, UncertainSection } from './section-types.ts';

/** Half the angle over which an opening takes the wood before the void, degrees to either side of its bearing. */
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
 * Names of the readings (as `sectionInputs` gives them) along which wood at the surface may be there at one value and
 * gone at the next, so that the loss jumps: the wood between two openings, and, of an oval stem, what the void of a probe
 * leaves where it breaks through the edge.
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
