/** Outlines with fewer points: editors truncate long hovers, and the difference is invisible. */

import type { Ring, SectionOutlines } from '../../mechanics/outlines.ts';

/** Largest distance of a dropped point from the line, as a fraction of the section's radius. */
const TOLERANCE = 0.001;

export function simplifyOutlines({ outer, bark, sound, voids }: SectionOutlines): SectionOutlines {
  const reach = Math.max(...(bark ?? outer).map(([east, north]) => Math.hypot(east, north)));
  const thin = (ring: Ring) => simplifyRing(ring, reach * TOLERANCE);
  const shapes = (all: SectionOutlines['sound']) =>
    all.map(({ outline, holes }) => ({ outline: thin(outline), holes: holes.map(thin) }));
  return {
    outer: thin(outer),
    ...(bark ? { bark: thin(bark) } : {}),
    sound: shapes(sound),
    voids: shapes(voids),
  };
}

/** Greedy: from each point kept, the furthest one whose straight line stays within tolerance of all points between. */
function simplifyRing(ring: Ring, tolerance: number): Ring {
  const kept: (readonly [number, number])[] = [];
  let at = 0;
  while (at < ring.length) {
    kept.push(ring[at]!);
    let next = at + 1;
    while (next + 1 < ring.length && isWithinTolerance(ring, at, next + 1, tolerance)) next++;
    at = next;
  }
  return kept;
}

function isWithinTolerance(ring: Ring, from: number, to: number, tolerance: number): boolean {
  const [x, y] = ring[from]!;
  const dx = ring[to]![0] - x;
  const dy = ring[to]![1] - y;
  const length = Math.hypot(dx, dy);
  for (let i = from + 1; i < to; i++) {
    const [px, py] = ring[i]!;
    const along = length === 0 ? 0 : ((px - x) * dx + (py - y) * dy) / length;
    const across =
      length === 0 ? Math.hypot(px - x, py - y) : Math.abs((px - x) * dy - (py - y) * dx) / length;
    // A point beyond either end is a corner, however close to the line.
    if (across > tolerance || along < 0 || along > length) return false;
  }
  return true;
}
