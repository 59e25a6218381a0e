/** Words that the rules on sections and loads share. */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Tree } from '../facts/types.ts';
import type { OffsettingReduction } from '../mechanics/offsetting.ts';
import { listed } from './counted.ts';
import type { Hollow } from './hollows.ts';
import { showNumber } from './judge.ts';
import { lengthDownLike } from './prescriptions.ts';

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

/** Share off crown length and spread, and the height and spread that it comes to: told to the side that takes more. */
export function reductionWords(
  { height, crownSpread }: Tree,
  { reduction, top, spread }: OffsettingReduction,
): string {
  const percent = showNumber(Math.ceil(reduction * 1000 - 1e-6) / 1000, { unit: '%' }, 1);
  const high = lengthDownLike(top, height?.value);
  const wide = lengthDownLike(spread, crownSpread?.value, height?.value);
  return `${percent} off crown length and spread (to ${high} high and ${wide} wide)`;
}

/** The same with the stages that it takes, and whether pruning may give it. */
export function reductionPlan(tree: Tree, offset: OffsettingReduction): string {
  const { high } = offset.seasons;
  const stages = high > 1 && Number.isFinite(high) ? `, in ${high} stages a year apart,` : '';
  const reach = offset.reach === 'perhaps out of reach' ? ' (at or beyond what pruning can give)' : '';
  return `${reductionWords(tree, offset)}${reach}${stages}`;
}

/** `A and B`, `A, B and C`. */
export const namesOf = (names: readonly { readonly value: string }[]): string =>
  listed(names.map(({ value }) => value));
