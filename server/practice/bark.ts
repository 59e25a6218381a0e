/** How thick the bark of a tree may be of which nobody measured it. */

import { type Citation, cite } from './citation.ts';
import { greenDensity, type Named } from './density.ts';
import type { LeafType } from './traits.ts';

export interface BarkShare {
  /** The most that the volume of the bark is expected to be of that of the wood. */
  readonly most: number;
  readonly knownBy: 'species' | 'genus' | 'kind';
  readonly citation: Citation;
}

/** One tree over the mean of its species, and over that of its genus: judged. */
const OVER_SPECIES = 1.3;
const OVER_GENUS = 1.5;

/** The greatest figure of the table: needle-leaved, ponderosa pine; broad-leaved, chestnut oak. */
const GREATEST: Readonly<Record<LeafType, number>> = { needleleaved: 0.256, broadleaved: 0.23 };

/** By species, else by genus, else by the kind of leaf; of a tree without a name the most of any. */
export function barkShare(species: Named | undefined, leaf: LeafType | undefined): BarkShare {
  const row = species && greenDensity(species);
  if (row) {
    const isSpecies = row.knownBy === 'species';
    return {
      most: (isSpecies ? OVER_SPECIES : OVER_GENUS) * row.barkShare,
      knownBy: isSpecies ? 'species' : 'genus',
      citation: row.citation,
    };
  }
  const most = leaf ? GREATEST[leaf] : Math.max(...Object.values(GREATEST));
  return { most, knownBy: 'kind', citation: cite('miles-smith-2009') };
}
