/**
 * Of all sections that the readings allow, those with the most and the least wood relative to their stems.
 *
 * A void grows with the depth of a probe and the width of a mouth and shrinks with a wall; relative to a larger stem
 * the same wall is thinner, and the same depth and mouth are smaller. So the extremes lie at the ends of the readings.
 */

import { bearingsApart } from '../base/bearings.ts';
import { clip, type Interval, interval } from '../base/interval.ts';
import { endOf, radiusAt } from './section-readings.ts';
import { edgeRadius, RADIANS, woodEdge } from './section-shape.ts';
import type { Cavity, CrossSection, OuterEdge, UncertainSection, WallReading } from './section-types.ts';
import { wallsAllAround } from './unread.ts';

/** Degrees around a wall reading within which a probe from the opposite side adds nothing. */
const BESIDE = 45;

/** The wall opposite a probe that met wood, if none was read there. */
function wallAcross(
  outer: OuterEdge<Interval>,
  { bearing, walls = [], depth }: Cavity<Interval>,
): readonly WallReading<Interval>[] {
  if (!depth || bearing === undefined) return [];
  const across = bearing + 180;
  if (walls.some(reading => bearingsApart(reading.bearing, across) < BESIDE)) return [];
  const here = radiusAt(outer, bearing);
  const there = radiusAt(outer, across);
  const left = interval(here.low + there.low - depth.high, here.high + there.high - depth.low);
  return [{ bearing: across, wall: clip(left, interval(0, there.high)) }];
}

/** For sections with finite readings (`possible`). */
export function extremeSection({ outer, cavities }: UncertainSection, wood: 'least' | 'most'): CrossSection {
  const least = wood === 'least';
  const isWalled = cavities.some(({ walls, allRound }) => allRound || walls?.length);
  const edge = endOf(outer, least === isWalled ? 'high' : 'low');
  const radius = (bearing: number) => edgeRadius(woodEdge(edge), bearing * RADIANS);
  const wallOf = (read: Interval) => read[least ? 'low' : 'high'];
  // Mouths and depths are scaled with the stem if their extreme belongs to the other end of its diameter.
  const lengthOf = (read: Interval, bearing = 0) => {
    const stem = radiusAt(outer, bearing);
    const share = !isWalled ? 1 : least ? stem.high / stem.low : stem.low / stem.high;
    return read[least ? 'high' : 'low'] * share;
  };
  const sections = cavities.flatMap((cavity): readonly Cavity[] => {
    const { bearing, walls = [], allRound, depth, opening } = cavity;
    const mouth = opening && lengthOf(opening, bearing);
    const probed = depth && {
      bearing,
      walls: undefined,
      allRound: undefined,
      depth: lengthOf(depth, bearing),
      smallest: !least,
      opening: mouth,
    };
    if (walls.length === 0 && !allRound) return [probed!];
    const read = allRound ? walls : wallsAllAround([...walls, ...wallAcross(outer, cavity)], radius);
    const walled = {
      bearing,
      walls: read.map(({ bearing: at, wall }) => ({ bearing: at, wall: wallOf(wall) })),
      allRound: allRound && wallOf(allRound),
      depth: undefined,
      smallest: undefined,
      opening: mouth,
    };
    if (!probed) return [walled];
    // A probe that met no wood is only a lower bound of the depth.
    const isEnded = depth.high < 2 * radiusAt(outer, bearing ?? 0).high;
    return [walled, isEnded || !least ? probed : { ...probed, depth: depth.low }];
  });
  return { outer: edge, cavities: sections };
}
