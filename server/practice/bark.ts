/** How thick the bark of a tree may be of which nobody measured it. */

import { barkRows } from './bark-table.ts';
import { type Citation, cite } from './citation.ts';
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

interface GenusBark {
  readonly mean: number;
  readonly species: ReadonlyMap<string, number>;
}

const genera: ReadonlyMap<string, GenusBark> = new Map(
  barkRows
    .trim()
    .split('\n')
    .map(row => {
      const [genus, own = ''] = row.split(': ') as [string, string?];
      const [name, mean] = genus.split(' ') as [string, string];
      const species = own.split(', ').flatMap(figure => {
        const [percent, ...epithets] = figure.split(' ') as [string, ...string[]];
        return epithets.map(epithet => [epithet, Number(percent) / 100] as const);
      });
      return [name, { mean: Number(mean) / 100, species: new Map(species) }];
    }),
);

/** The greatest figure of the table: needle-leaved, ponderosa pine; broad-leaved, chestnut oak. */
const GREATEST: Readonly<Record<LeafType, number>> = { needleleaved: 0.256, broadleaved: 0.23 };

const from = (most: number, knownBy: BarkShare['knownBy']): BarkShare => ({
  most,
  knownBy,
  citation: cite('miles-smith-2009'),
});

/** By species, else by genus, else by the kind of leaf; of a tree without a name the most of any. */
export function barkShare(
  species: { readonly genus: string; readonly binomial: string | undefined } | undefined,
  leaf: LeafType | undefined,
): BarkShare {
  const genus = species && genera.get(species.genus);
  const own = species?.binomial && genus?.species.get(species.binomial.slice(species.genus.length + 1));
  if (own) return from(OVER_SPECIES * own, 'species');
  if (genus) return from(OVER_GENUS * genus.mean, 'genus');
  return from(leaf ? GREATEST[leaf] : Math.max(...Object.values(GREATEST)), 'kind');
}
