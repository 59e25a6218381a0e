/** The openings of a section's cavities: where one may take away the last wood beside another. */

import { type Interval, interval } from './interval.ts';
import { radiusAt } from './section-readings.ts';
import { halfAngle, RADIANS } from './section-shape.ts';
import type { Cavity, OuterEdge, UncertainSection } from './section-types.ts';

interface OpeningAngle {
  /** Half the angle over which the opening takes the wood before the void, degrees to either side of its bearing. */
  readonly half: Interval;
  /** The void of a probe may be narrower than the opening: beside it wood stands that can end up alone. */
  readonly isNarrowed: boolean;
}

function angleOf(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): OpeningAngle | undefined {
  const { bearing = 0, walls, depth, opening } = cavity;
  if (!opening || opening.high === 0) return undefined;
  const radius = radiusAt(outer, bearing);
  const least = halfAngle(opening.low, radius.high) / RADIANS;
  const most = halfAngle(opening.high, radius.low) / RADIANS;
  const reach =
    walls?.length || !depth || depth.low >= radius.high
      ? 90
      : Math.asin(depth.low / (2 * radius.high - depth.low)) / RADIANS;
  return { half: interval(Math.min(least, reach), most), isNarrowed: reach < most };
}

/**
 * Names of the readings (as `sectionInputs` gives them) along which wood at the surface may be there at one value and
 * gone at the next, so that the loss jumps: the wood between two openings, and, of an oval stem, what the void of a probe
 * leaves where it breaks through the edge.
 */
export function jumpyReadings({ outer, cavities }: UncertainSection): ReadonlySet<string> {
  const openings = cavities.map(cavity => angleOf(outer, cavity));
  const breaksThrough = outer.crossDiameter !== undefined && cavities.some(({ walls }) => !walls?.length);
  const mayMeet = (one: OpeningAngle, other: OpeningAngle, apart: number): boolean =>
    one.isNarrowed ||
    other.isNarrowed ||
    [apart, 360 - apart].some(
      angle => one.half.low + other.half.low <= angle && angle <= one.half.high + other.half.high,
    );
  const jumpy = new Set<string>();
  for (const [c, own] of openings.entries()) {
    const meets = openings.some((other, o) => {
      const apart = Math.abs((cavities[c]!.bearing ?? 0) - (cavities[o]!.bearing ?? 0)) % 360;
      return o !== c && own && other && mayMeet(own, other, apart);
    });
    if (!breaksThrough && !meets) continue;
    for (const name of ['diameter', 'cross diameter', 'bark', `cavity ${c} opening`]) jumpy.add(name);
    if (breaksThrough || own?.isNarrowed) jumpy.add(`cavity ${c} depth`);
  }
  return jumpy;
}
