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
/** How far a receiver may be off that does not say, m: under trees. */
export const RECEIVER_ERROR = 15;
/** Degrees that the compass of a camera may be off, near steel more. */
export const COMPASS_ERROR = 20;
/** Degrees between true and magnetic north where people plant trees, at most. */
export const DECLINATION = 25;
/** Nobody photographs a tree from farther away, m. */
export const FARTHEST_PICTURE = 60;
/** A tree certainly more than this many times as far as another one in view is its background. */
export const BACKGROUND = 2;
/** Half the angle of view, degrees, of a picture that does not tell its lens. */
export const USUAL_HALF_VIEW = 40;
/** Pictures of one tree follow each other within this, minutes. */
export const SAME_VISIT = 5;
/** Who walks around a tree stays within this of the last picture, m. */
export const SAME_PLACE = 30;
/** Beyond this from everything in the inventory a picture is of another place, m. */
export const OTHER_PLACE = 2000;
/** Hours that the time of a place may differ from that of the sun. */
export const ZONE_FROM_SUN = 3;
/** Degrees between two directions of view at least, so that where they cross is the place of a tree. */
export const CROSSING_VIEWS = 30;
/** Degrees from square at which bark can still be judged; what lies more aslant is not seen. */
export const SEEN_ASLANT = 60;
/** The subject is aimed at: it lies within this share of half the angle of view from the middle. */
export const AIMED_WITHIN = 1 / 3;
