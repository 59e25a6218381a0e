/** Density of green wood, for the mass of pieces and stems, and what goes with it: bark, and how heavy dry wood is. */

import { type Citation, cite } from './citation.ts';
import { greenDensityRows } from './green-density-table.ts';

/** Whose figures they are. */
type KnownBy = 'species' | 'another species' | 'genus';

export interface GreenDensity {
  /** kg/m³, green, of wood with its bark, as logs and stems are measured. */
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

/** A botanical name, as far as it was written. */
export interface Named {
  readonly genus: string;
  readonly binomial: string | undefined;
  readonly name?: string;
}

const LETTERS = { s: 'species', o: 'another species', g: 'genus' } as const;
const WATER = 1000;

/** Names that are written otherwise in the table. */
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

/** Every kind by its name; `Acer spp.` for a genus. Read when somebody asks. */
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
  // Where the genus itself has no row, one of its species that carries the genus' mean tells it.
  for (const [name, kind] of [...kinds]) {
    const genus = `${name.split(' ')[0]} spp.`;
    if (kind.knownBy === 'genus' && !kinds.has(genus)) kinds.set(genus, kind);
  }
  table = kinds;
  return kinds;
}

/** Of a kind by its name, else of its species, else of its genus; undefined where the table has none of them. */
export function greenDensity({ genus, binomial, name }: Named): GreenDensity | undefined {
  const kinds = greenDensities();
  const named = [name, binomial, binomial && OTHER_NAMES.get(binomial), `${genus} spp.`];
  return named.reduce<GreenDensity | undefined>(
    (found, one) => found ?? (one === undefined ? undefined : kinds.get(one)),
    undefined,
  );
}

/** kg/m³ of the lightest wood of the table, dry, and of the heaviest, green: no wood that is cut here lies outside. */
export function anyWood(): { readonly low: number; readonly high: number } {
  const kinds = [...greenDensities().values()];
  return {
    low: WATER * Math.min(...kinds.map(({ specificGravity }) => specificGravity)),
    high: HEAVIER * Math.max(...kinds.map(({ density }) => density)),
  };
}

/** A single tree over its kind's mean: judged. */
const HEAVIER = 1.2;
