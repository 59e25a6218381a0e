/** How much of an object a crown hides from an eye. Heights above a common level and horizontal distances, m. */

import { type Interval, interval } from '../base/interval.ts';
import type { Crown } from './crown.ts';

export interface SightLine<Q = number> {
  /** Height of the eye. */
  readonly eye: Q;
  /** From the eye to the stem. */
  readonly distance: Q;
  /** Lowest and highest point of the object to hide or to see. */
  readonly bottom: Q;
  readonly top: Q;
  /** From the stem to the object. */
  readonly beyond: Q;
}

function requireSightLine({ eye, distance, bottom, top, beyond }: SightLine): void {
  if (!(distance > 0 && beyond >= 0 && distance + beyond < Number.POSITIVE_INFINITY))
    throw new RangeError(`no view from ${distance} m before the stem to ${beyond} m beyond it`);
  if (!(Number.isFinite(eye) && top - bottom > 0 && Number.isFinite(top - bottom)))
    throw new RangeError(`nothing to see from ${eye} m between ${bottom} m and ${top} m`);
}

/**
 * Height at which the line of sight to a point at `height` passes the stem: e + (o − e) · a / (a + b).
 *
 * @throws RangeError for an impossible sight line.
 */
export function sightHeight(view: SightLine, height: number): number {
  requireSightLine(view);
  return view.eye + ((height - view.eye) * view.distance) / (view.distance + view.beyond);
}

/** Maximum of a unimodal function, by ternary search. */
function peak(figure: (at: number) => number, low: number, high: number): number {
  // (2/3)⁶⁰ of the range is below the resolution of a double here.
  let [from, to] = [low, high];
  for (let round = 0; round < 60; round++) {
    const third = (to - from) / 3;
    if (figure(from + third) >= figure(to - third)) to -= third;
    else from += third;
  }
  return Math.max(figure(low), figure((from + to) / 2), figure(high));
}

const nearest = (value: number, { low, high }: Interval): number => Math.min(high, Math.max(low, value));

/**
 * Share of the object that the crown hides, over all values that the readings allow. Foliage is taken as opaque and the
 * crown as wide enough.
 *
 * Projected from the eye onto the object the crown covers [p + u·base, p + u·top] with u = 1 + b/a and p = e(1 − u).
 * The overlap with [bottom, top] is concave in p and u, so the share is least at corners and has a single maximum; the
 * bottom and top that maximize it are those nearest to the projected crown.
 *
 * @throws RangeError if no sight line or no crown is possible, or a reading has no upper end.
 */
export function hiddenShareBounds(view: SightLine<Interval>, crown: Crown<Interval>): Interval {
  const { eye, distance, bottom, top, beyond } = view;
  if (!(crown.base.low < crown.top.high && crown.base.low >= 0 && crown.top.high < Number.POSITIVE_INFINITY))
    throw new RangeError(`no crown from ${crown.base.low} m up to ${crown.top.high} m`);
  for (const end of ['low', 'high'] as const)
    requireSightLine({
      eye: eye[end],
      distance: distance[end],
      beyond: beyond[end],
      bottom: bottom.low,
      top: top.high,
    });
  // The object may have no height: any share is possible.
  if (bottom.high >= top.low) return interval(0, 1);
  const cast = interval(1 + beyond.low / distance.high, 1 + beyond.high / distance.low);
  const overlapShare = (base: number, crownTop: number, from: number, to: number) =>
    (Math.min(to, crownTop) - Math.max(from, base)) / (to - from);
  const least = Math.min(
    ...[cast.low, cast.high].flatMap(u =>
      [eye.low, eye.high].flatMap(e =>
        [bottom.low, bottom.high].flatMap(from =>
          [top.low, top.high].map(to =>
            overlapShare(e * (1 - u) + u * crown.base.high, e * (1 - u) + u * crown.top.low, from, to),
          ),
        ),
      ),
    ),
  );
  const greatest = peak(
    u =>
      peak(
        e => {
          const base = e * (1 - u) + u * crown.base.low;
          const crownTop = e * (1 - u) + u * crown.top.high;
          return overlapShare(base, crownTop, nearest(base, bottom), nearest(crownTop, top));
        },
        eye.low,
        eye.high,
      ),
    cast.low,
    cast.high,
  );
  const share = (value: number) => Math.min(1, Math.max(0, value));
  return interval(share(least), share(Math.max(least, greatest)));
}
