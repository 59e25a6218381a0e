/** Density of green wood, its share of bark and its specific gravity. */

import { type Citation, cite } from './citation.ts';
import { greenDensityRows } from './green-density-table.ts';

/** Taxon that the values belong to. */
type KnownBy = 'species' | 'another species' | 'genus';

export interface GreenDensity {
  /** kg/m³, green, of wood with bark. */
  readonly density: number;
  /** kg/m³, green, of the wood alone. */
  readonly wood: number;
  /** Volume of the bark over that of the wood. */
  readonly barkShare: number;
  /** Oven-dry mass over green volume, relative to water. */
  readonly specificGravity: number;
  readonly knownBy: KnownBy;
  readonly citation: Citation;
}

/** A botanical name, complete or not. */
export interface BotanicalName {
  readonly genus: string;
  readonly binomial: string | undefined;
  readonly name?: string;
}

const LETTERS = { s: 'species', o: 'another species', g: 'genus' } as const;
const WATER = 1000;

/** Synonyms used in the table. */
const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ['Callitropsis nootkatensis', 'Chamaecyparis nootkatensis'],
  ['Carya tomentosa', 'Carya alba'],
  ['Chrysolepis chrysophylla', 'Chrysolepis chrysophylla var. chrysophylla'],
  ['Magnolia × soulangeana', 'Magnolia × soulangiana'],
  ['Notholithocarpus densiflorus', 'Lithocarpus densiflorus'],
  ['Populus trichocarpa', 'Populus balsamifera subsp. trichocarpa'],
  ['Quercus montana', 'Quercus prinus'],
]);

let table: ReadonlyMap<string, GreenDensity> | undefined;

/** By name; `Acer spp.` for a genus. Parsed on first use. */
export function greenDensities(): ReadonlyMap<string, GreenDensity> {
  if (table) return table;
  const kinds = new Map<string, GreenDensity>(
    greenDensityRows
      .trim()
      .split('\n')
      .flatMap(row => {
        const [figures, epithets] = row.split(': ') as [string, string];
        const [genus, letter, ...numbers] = figures.split(' ') as [string, keyof typeof LETTERS];
        const [gravity, moisture, barkGravity, barkMoisture, barkPercent] = numbers.map(Number) as [
          number,
          number,
          number,
          number,
          number,
        ];
        const wood = WATER * gravity * (1 + moisture / 100);
        const bark = WATER * barkGravity * (1 + barkMoisture / 100);
        const barkShare = barkPercent / 100;
        const kind: GreenDensity = {
          density: (wood + barkShare * bark) / (1 + barkShare),
          wood,
          barkShare,
          specificGravity: gravity,
          knownBy: LETTERS[letter],
          citation: cite('miles-smith-2009'),
        };
        return epithets
          .split(', ')
          .map(epithet => [`${genus} ${epithet.replace(/^×/, '× ')}`, kind] as const);
      }),
  );
  // A genus without a row of its own takes it from a species with the mean of the genus.
  for (const [name, kind] of [...kinds]) {
    const genus = `${name.split(' ')[0]} spp.`;
    if (kind.knownBy === 'genus' && !kinds.has(genus)) kinds.set(genus, kind);
  }
  table = kinds;
  return kinds;
}

/** By full name, else by species, else by genus. */
export function greenDensity({ genus, binomial, name }: BotanicalName): GreenDensity | undefined {
  const kinds = greenDensities();
  const named = [name, binomial, binomial && OTHER_NAMES.get(binomial), `${genus} spp.`];
  return named.reduce<GreenDensity | undefined>(
    (found, one) => found ?? (one === undefined ? undefined : kinds.get(one)),
    undefined,
  );
}

/** Density of any wood, kg/m³: from the lightest of the table, dry, to the heaviest, green. */
export function anyWood(): { readonly low: number; readonly high: number } {
  const kinds = [...greenDensities().values()];
  return {
    low: WATER * Math.min(...kinds.map(({ specificGravity }) => specificGravity)),
    high: HEAVIER * Math.max(...kinds.map(({ density }) => density)),
  };
}

/** Factor of a single tree over the mean of its species: an estimate. */
const HEAVIER = 1.2;
