/**
 * A stem's cross section with its voids, as it was read.
 *
 * Lengths in metres, bearings in degrees clockwise from north. `Q` is `number` for one exact section and
 * `Interval` for what is known of one.
 */

import type { Interval } from './interval.ts';

/**
 * A circle of the diameter given, or an ellipse if two are; over the bark. Whoever makes many of them or of cavities
 * names every member, given or not: they are alike then to whoever reads them.
 */
export interface OuterEdge<Q = number> {
  readonly diameter: Q;
  /** The diameter across the first. */
  readonly crossDiameter?: Q | undefined;
  /** Along which the first diameter was taken; 0 if not given. */
  readonly bearing?: number | undefined;
  /** Thickness, taken off all round. */
  readonly bark?: Q | undefined;
}

/** Sound wood from the surface inwards at a bearing; linear with bearing between readings. */
export interface WallReading<Q = number> {
  readonly bearing: number;
  readonly wall: Q;
}

/**
 * One cavity. With walls the void's edge lies at R(θ) − t(θ) from the pith. With a depth alone the void is
 * the circle of that diameter whose outermost point touches the surface at `bearing`. An opening takes all
 * wood between the void and the surface within asin(width / diameter) to either side of `bearing`, seen from
 * the pith; a ray that misses the void has no such wood, and a void of walls always holds the pith. Surface,
 * depth and diameter are the wood's, under the bark; of an ellipse the diameter through `bearing`.
 */
export interface Cavity<Q = number> {
  /** Of the opening and the probe; needed unless there are walls and no opening. */
  readonly bearing?: number | undefined;
  readonly walls?: readonly WallReading<Q>[] | undefined;
  readonly depth?: Q | undefined;
  /** Width: a chord on the surface. */
  readonly opening?: Q | undefined;
}

export interface Section<Q = number> {
  readonly outer: OuterEdge<Q>;
  readonly cavities: readonly Cavity<Q>[];
}

export type UncertainSection = Section<Interval>;
