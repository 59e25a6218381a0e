/** Estimates the bark of a tree on which it was not measured. */

import { type Citation, cite } from './citation.ts';
import { type BotanicalName, greenDensity } from './density.ts';
import type { LeafType } from './traits.ts';

export interface BarkShare {
  /** Maximum expected volume of the bark over that of the wood. */
  readonly most: number;
  /** Minimum; none where only the kind is known. */
  readonly least: number;
  readonly knownBy: 'species' | 'genus' | 'kind';
  readonly citation: Citation;
}

/** Factor of a single tree over the mean of its species or genus: an estimate. */
const OVER_SPECIES = 1.3;
const OVER_GENUS = 1.5;

/** Maximum of the table: ponderosa pine and chestnut oak. */
const GREATEST: Readonly<Record<LeafType, number>> = { needleleaved: 0.256, broadleaved: 0.23 };

/** By species, else by genus, else by leaf type; the overall maximum if none is known. */
export function barkShare(species: BotanicalName | undefined, leaf: LeafType | undefined): BarkShare {
  const row = species && greenDensity(species);
  if (row) {
    const isSpecies = row.knownBy === 'species';
    const margin = isSpecies ? OVER_SPECIES : OVER_GENUS;
    return {
      most: margin * row.barkShare,
      least: row.barkShare / margin,
      knownBy: isSpecies ? 'species' : 'genus',
      citation: row.citation,
    };
  }
  const most = leaf ? GREATEST[leaf] : Math.max(...Object.values(GREATEST));
  return { most, least: 0, knownBy: 'kind', citation: cite('miles-smith-2009') };
}
