/**
 * Drag coefficients of crowns in storm wind, on their silhouette in still air: a choice from a few wind tunnels and the
 * design values of stability analysis. They fall as the wind rises, and nobody has measured a large open-grown tree.
 */

import { type Citation, cite } from './citation.ts';
import type { LeafType } from './traits.ts';

export interface Drag {
  readonly low: number;
  readonly high: number;
  /** What stability analysis commonly takes for the kind. */
  readonly usual: number;
  /** The measurements that the range leans on. */
  readonly citation: Citation;
}

/**
 * Broadleaved crowns in leaf came to 0.15 to 0.22 at 20 m/s (Vollsinger et al. 2005), conifers to 0.22 and 0.47
 * (Rudnicki et al. 2004) and one spruce to 0.59; design values are 0.12 to 0.35 by species (Wessolly and Erb 1998, from
 * memory). The ranges are judged from these.
 */
const BY_LEAF: Readonly<Record<LeafType, Drag>> = {
  broadleaved: { low: 0.15, high: 0.3, usual: 0.25, citation: cite('vollsinger-2005') },
  needleleaved: { low: 0.2, high: 0.6, usual: 0.3, citation: cite('rudnicki-2004') },
};

/** Usual values of a genus: broadleaved by Wessolly and Erb 1998, from memory; conifers judged from the tunnels. */
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

/** In leaf, the design case; a range always holds the usual value of its genus. */
export function dragOf(genus: string, leaf: LeafType): Drag {
  const kind = BY_LEAF[leaf];
  const usual = Object.hasOwn(BY_GENUS, genus) ? BY_GENUS[genus]! : kind.usual;
  return { ...kind, low: Math.min(kind.low, usual), high: Math.max(kind.high, usual), usual };
}
