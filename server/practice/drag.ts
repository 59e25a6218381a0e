/**
 * Drag coefficients of crowns in storm wind, relative to the silhouette in still air: selected from a few wind tunnel
 * tests and the design values of stability analysis. They decrease with wind speed; no large open-grown tree was ever
 * measured.
 */

import { type Citation, cite } from './citation.ts';
import type { LeafType } from './traits.ts';

export interface Drag {
  readonly low: number;
  readonly high: number;
  /** Usual value of stability analysis. */
  readonly usual: number;
  /** The main measurements behind the range. */
  readonly citation: Citation;
}

/**
 * Broadleaved crowns in leaf came to 0.15 to 0.22 at 20 m/s (Vollsinger et al. 2005), conifers to 0.22 and 0.47
 * (Rudnicki et al. 2004) and one spruce to 0.59; design values are 0.12 to 0.35 by species (Wessolly and Erb 1998, from
 * memory). The ranges are estimates from these.
 */
const BY_LEAF: Readonly<Record<LeafType, Drag>> = {
  broadleaved: { low: 0.15, high: 0.3, usual: 0.25, citation: cite('vollsinger-2005') },
  needleleaved: { low: 0.2, high: 0.6, usual: 0.3, citation: cite('rudnicki-2004') },
};

/** Usual values by genus: broadleaved from Wessolly and Erb 1998 (from memory); conifers estimated from the tests. */
const BY_GENUS: Readonly<Record<string, number>> = {
  Aesculus: 0.35,
  Ailanthus: 0.15,
  Betula: 0.12,
  Chamaecyparis: 0.25,
  Fagus: 0.28,
  Fraxinus: 0.2,
  Picea: 0.45,
  Pinus: 0.45,
  Populus: 0.22,
  Robinia: 0.15,
  Salix: 0.2,
  Thuja: 0.25,
  Tsuga: 0.45,
};

/** In leaf, the design case. The range always includes the usual value of the genus. */
export function dragOf(genus: string, leaf: LeafType): Drag {
  const kind = BY_LEAF[leaf];
  const usual = Object.hasOwn(BY_GENUS, genus) ? BY_GENUS[genus]! : kind.usual;
  return { ...kind, low: Math.min(kind.low, usual), high: Math.max(kind.high, usual), usual };
}

/** Drag of a leafless crown over that of the same crown in leaf (from memory; hardly measured). */
export const LEAFLESS = { low: 0.3, high: 0.5 };
