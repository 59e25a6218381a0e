/** Does a crown hide what it should? Heights above one level and horizontal distances, m. */

import { type Interval, interval } from '../base/interval.ts';
import { type Crown, requireCrown } from './crown.ts';

export interface View<Q = number> {
  /** Height of the eye. */
  readonly eye: Q;
  /** From the eye to the stem. */
  readonly distance: Q;
  /** Lowest and highest point of what is to stay hidden, or to be seen. */
  readonly bottom: Q;
  readonly top: Q;
  /** From the stem to it. */
  readonly beyond: Q;
}

function requireView({ eye, distance, bottom, top, beyond }: View): void {
  if (!(distance > 0 && beyond >= 0 && distance + beyond < Number.POSITIVE_INFINITY))
    throw new RangeError(`no view from ${distance} m before the stem to ${beyond} m beyond it`);
  if (!(Number.isFinite(eye) && top - bottom > 0 && Number.isFinite(top - bottom)))
    throw new RangeError(`nothing to see from ${eye} m between ${bottom} m and ${top} m`);
}

/**
 * Height at which the line of sight to a point at this height passes the stem: e + (o − e) · a / (a + b).
 *
 * @throws RangeError for a view that is none.
 */
export function sightHeight(view: View, height: number): number {
  requireView(view);
  return view.eye + ((height - view.eye) * view.distance) / (view.distance + view.beyond);
}

/** Length of [from, to] that the spans cover together, where they overlap once. */
function covered(spans: readonly (readonly [number, number])[], from: number, to: number): number {
  let reached = from;
  let sum = 0;
  for (const [low, high] of [...spans].sort((a, b) => a[0] - b[0])) {
    const end = Math.min(to, high);
    sum += Math.max(0, end - Math.max(reached, low));
    reached = Math.max(reached, end);
  }
  return sum;
}

/**
 * Share of what is to stay hidden, from its bottom to its top, that stands behind the crowns' heights.
 * Foliage is taken as closed and the crown as wide enough.
 *
 * @throws RangeError for a view or a crown that is none.
 */
export function hiddenShare(view: View, crowns: readonly Crown[]): number {
  for (const crown of crowns) requireCrown(crown);
  const low = sightHeight(view, view.bottom);
  const high = sightHeight(view, view.top);
  return (
    covered(
      crowns.map(({ base, top }) => [base, top]),
      low,
      high,
    ) /
    (high - low)
  );
}

/** Greatest value of a function with a single peak. */
function peak(figure: (at: number) => number, low: number, high: number): number {
  // 60 thirds leave (2/3)⁶⁰ of the range, less than a double tells apart here.
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
 * The hidden share over everything that the readings of the view and one crown allow.
 *
 * Cast from the eye onto what stands beyond, the crown covers [p + u·base, p + u·top] there, u = 1 + b/a and
 * p = e(1 − u). The overlap with [bottom, top] is concave in p and u, so the share is least at corners, and
 * greatest at a single peak; the bottom and the top that suit it most are those nearest to the cast crown.
 *
 * @throws RangeError when no view or no crown is possible, or a reading has no upper end.
 */
export function hiddenShareBounds(view: View<Interval>, crown: Crown<Interval>): Interval {
  const { eye, distance, bottom, top, beyond } = view;
  if (!(crown.base.low < crown.top.high && crown.base.low >= 0 && crown.top.high < Number.POSITIVE_INFINITY))
    throw new RangeError(`no crown from ${crown.base.low} m up to ${crown.top.high} m`);
  for (const end of ['low', 'high'] as const)
    requireView({
      eye: eye[end],
      distance: distance[end],
      beyond: beyond[end],
      bottom: bottom.low,
      top: top.high,
    });
  // Readings that may leave nothing between bottom and top settle nothing.
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
