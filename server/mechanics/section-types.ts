/**
 * A stem's cross section with its voids, as it was read.
 *
 * Lengths in metres, bearings in degrees clockwise from north. `Q` is `number` for one exact section and
 * `Interval` for what is known of one.
 */

import type { Interval } from '../base/interval.ts';

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
 * One cavity. With walls the void's edge lies at R(θ) − t(θ) from the pith. With a depth alone only the mouth and the
 * deepest point of the void are known: it is at least their hull (`smallest`), and taken to be at most a trough as wide
 * as the mouth, or the circle of that diameter whose outermost point touches the surface at `bearing` where that is
 * wider. A wound so wide and shallow that the chord of its mouth lies deeper than the probe follows the surface.
 *
 * An opening beside walls takes all wood between the void and the surface within asin(width / diameter) to either side
 * of `bearing`, seen from the pith. Surface, depth and diameter are the wood's, under the bark; of an ellipse the
 * diameter through `bearing`.
 */
export interface Cavity<Q = number> {
  /** Of the opening and the probe; needed unless there are walls and no opening. */
  readonly bearing?: number | undefined;
  /** Of each bearing that was read. */
  readonly walls?: readonly WallReading<Q>[] | undefined;
  /** Sound wood all round, wherever no bearing of its own was read. */
  readonly allRound?: Q | undefined;
  readonly depth?: Q | undefined;
  /** Of a void known by its depth: the smallest that the readings allow, not the greatest. */
  readonly smallest?: boolean | undefined;
  /** Width: a chord on the surface. */
  readonly opening?: Q | undefined;
}

export interface CrossSection<Q = number> {
  readonly outer: OuterEdge<Q>;
  readonly cavities: readonly Cavity<Q>[];
}

export type UncertainSection = CrossSection<Interval>;
