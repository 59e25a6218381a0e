/** The mouths of a section's cavities: where one may take away the last wood beside another. */

import { type Interval, interval } from './interval.ts';
import { radiusAt } from './section-readings.ts';
import { RADIANS } from './section-shape.ts';
import type { Cavity, OuterEdge, UncertainSection } from './section-types.ts';

/**
 * Half the angle over which a cavity's opening takes the wood before its void, in degrees to either side of its
 * bearing; undefined where there is no opening.
 */
function mouthOf(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Interval | undefined {
  const { bearing = 0, walls, depth, opening } = cavity;
  if (!opening || opening.high === 0) return undefined;
  const radius = radiusAt(outer, bearing);
  const angle = (sine: number) => Math.asin(Math.min(1, sine)) / RADIANS;
  const most = angle(opening.high / (2 * radius.low));
  const least = angle(opening.low / (2 * radius.high));
  if (walls?.length || !depth) return interval(least, most);
  // Rays that miss the void of a probe keep their wood; none does of a void that holds the pith.
  const reach = depth.low < radius.high ? angle(depth.low / (2 * radius.high - depth.low)) : 90;
  return interval(Math.min(least, reach), most);
}

/**
 * Names of the readings (as `sectionInputs` gives them) along which wood at the surface may be there at one value and
 * gone at the next, so that the loss jumps: the wood between two mouths, and, of an oval stem, what the void of a probe
 * leaves where it breaks through the edge.
 */
export function jumpyReadings({ outer, cavities }: UncertainSection): ReadonlySet<string> {
  const mouths = cavities.map(cavity => mouthOf(outer, cavity));
  const breaksThrough = outer.crossDiameter !== undefined && cavities.some(({ walls }) => !walls?.length);
  const mayMeet = (one: number, other: number): boolean => {
    const [a, b] = [mouths[one], mouths[other]];
    if (one === other || !a || !b) return false;
    const apart = Math.abs((cavities[one]!.bearing ?? 0) - (cavities[other]!.bearing ?? 0)) % 360;
    return [apart, 360 - apart].some(angle => a.low + b.low <= angle && angle <= a.high + b.high);
  };
  const jumpy = new Set<string>();
  for (const c of cavities.keys()) {
    if (!breaksThrough && !cavities.some((_, other) => mayMeet(c, other))) continue;
    for (const name of ['diameter', 'cross diameter', 'bark', `cavity ${c} depth`, `cavity ${c} opening`])
      jumpy.add(name);
  }
  return jumpy;
}
