/** Words that the rules on sections and loads share. */

import { compassPoint } from '../../grammar/bearing.ts';
import { listed } from './counted.ts';
import type { Hollow } from './hollows.ts';

export const SECTION_CAUTION =
  'A section compares the stem with itself, sound; it certifies nothing, and what nobody saw is not in it. The person on site decides.';

export const LOAD_CAUTION =
  'The figure compares the load on this tree before and after, with the crown as an ellipse; it certifies nothing. The person on site decides.';

export const UNION_CAUTION =
  'What a union bears is not read off its outside, and stems that part fall without a warning; the person on site decides.';

/** Bending toward a bearing and away from it strain a section alike: `NNE–SSW`. */
export const axisOf = (bearing: number): string => `${compassPoint(bearing)}–${compassPoint(bearing + 180)}`;

/** Round, closed and in the middle, as far as was read: it has no weaker side. */
export const isRing = ({ read, cavity, outer }: Hollow): boolean =>
  read === 'wall' && !cavity.opening && !outer.crossDiameter;

/** `A and B`, `A, B and C`. */
export const namesOf = (names: readonly { readonly value: string }[]): string =>
  listed(names.map(({ value }) => value));
