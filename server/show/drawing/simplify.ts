/** Outlines with fewer points: editors cut off hovers that are too long, and no eye sees the difference. */

import type { Ring, SectionOutlines } from '../../mechanics/outlines.ts';

/** Share of the section's radius by which a line may pass a point that is left out. */
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

/** From each point that stays, the furthest one that a straight line reaches without passing any by more. */
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
    // A point behind either end is a corner, however near the line it lies.
    if (across > tolerance || along < 0 || along > length) return false;
  }
  return true;
}
