/**
 * What a camera, its receiver and the person who holds it may be off by. No standard says any of it: common practice, from
 * memory of the data sheets of phones and compact cameras.
 */

import { type Citation, cite } from './citation.ts';

export const photographsCitation: Citation = cite('practice');

/**
 * Share that the 35 mm-equivalent focal length of a file may be off, with what correction leaves of the distortion of a lens
 * and what a stabilized picture loses at its edges.
 */
export const LENS_ERROR = 0.04;
/** Half the last millimeter of the equivalent focal length, which is written in whole ones, m. */
export const LENS_ROUNDING = 0.0005;
/** Share that a distance to the subject stated without a range may be off. */
export const DISTANCE_ERROR = 0.02;
/** Pixels that a point set by hand may be off, to any side; in large pictures by the share of the long side. */
export const POINT_ERROR = { pixels: 2, share: 0.0005 };
/** Share that a thing and the known length beside it may differ in distance. */
export const BESIDE_ERROR = 0.05;
/** Degrees that a thing may be turned out of the plane across the line of sight, if nobody says. */
export const USUAL_OBLIQUENESS = 30;
/** Equivalent focal lengths of cameras that people carry, for a picture that does not tell its own, m. */
export const USUAL_LENSES = { low: 0.013, high: 0.6 };
