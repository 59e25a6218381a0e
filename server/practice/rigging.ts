/** What is customary of rigging gear, beside the limits. */

import { type Interval, interval } from '../base/interval.ts';

/** Share of its strength that a rope keeps with a knot in it: from memory. */
export const KNOTS: Interval = interval(0.5, 0.7);
/** Angle between the legs of a rope at a block, in degrees, where it is not stated: the whole usual range. */
export const LEGS: Interval = interval(0, 90);
