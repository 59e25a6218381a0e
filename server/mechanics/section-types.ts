/**
 * A stem's cross section with its voids, as measured.
 *
 * Lengths in metres, bearings in degrees clockwise from north. `Q` is `number` for an exact section and `Interval` for
 * an uncertain one. Hot code sets every member, stated or not, so that V8 keeps one hidden class.
 */

import type { Interval } from '../base/interval.ts';

/** A circle, or an ellipse if there are two diameters; over the bark. */
export interface OuterEdge<Q = number> {
  readonly diameter: Q;
  /** Perpendicular to the first. */
  readonly crossDiameter?: Q | undefined;
  /** Of the first diameter; 0 by default. */
  readonly bearing?: number | undefined;
  /** Thickness all round. */
  readonly bark?: Q | undefined;
}

/** Thickness of sound wood from the surface inwards at a bearing; interpolated linearly between readings. */
export interface WallReading<Q = number> {
  readonly bearing: number;
  readonly wall: Q;
}

/**
 * One cavity. With walls the edge of the void lies at R(θ) − t(θ) from the pith. With a depth alone only the mouth and
 * the deepest point of the void are known: it is at least their hull (`smallest`), and at most a trough as wide as the
 * mouth or the circle of that diameter that touches the surface at `bearing`, whichever is wider. A wound so wide and
 * shallow that the chord of its mouth lies deeper than the probe follows the surface.
 *
 * With walls, an opening removes all wood between the void and the surface within asin(width / diameter) to either side
 * of `bearing`, seen from the pith. Surface, depth and diameter are those of the wood, under the bark; in an ellipse
 * the diameter through `bearing`.
 */
export interface Cavity<Q = number> {
  /** Of the opening and the probe; required unless there are walls and no opening. */
  readonly bearing?: number | undefined;
  /** At the bearings that were read. */
  readonly walls?: readonly WallReading<Q>[] | undefined;
  /** Thickness of sound wood at all other bearings. */
  readonly allRound?: Q | undefined;
  readonly depth?: Q | undefined;
  /** The void is the smallest that its depth allows, not the greatest. */
  readonly smallest?: boolean | undefined;
  /** Width, a chord on the surface. */
  readonly opening?: Q | undefined;
}

export interface CrossSection<Q = number> {
  readonly outer: OuterEdge<Q>;
  readonly cavities: readonly Cavity<Q>[];
}

export type UncertainSection = CrossSection<Interval>;
