/**
 * Strength and stiffness of green wood, clear and straight-grained: never more than a comparison for the wood
 * of a standing tree. A species that is not in the table has no row of its own; its strength in compression follows
 * from how dense its wood is, with a wider range, or is not known.
 */

import { type Citation, cite } from './citation.ts';
import { greenDensity, type Named } from './density.ts';
import type { LeafType } from './traits.ts';
import { type WoodRow, type WoodStatus, woodRows } from './wood-table.ts';

export interface Wood {
  readonly botanical: string;
  readonly common: string;
  /** Pa, green. */
  readonly modulusOfRupture: number;
  /** Pa, green; span to depth 14, so about 10 % low for shear. */
  readonly modulusOfElasticity: number;
  /** Pa, green, parallel to the grain, where known: green stems fail first here. */
  readonly compressionStrength: number;
  /** Oven-dry mass over green volume, relative to water. */
  readonly specificGravity: number;
  readonly citation: Citation;
  readonly status: WoodStatus;
  readonly note?: string;
}

const PASCALS_PER_PSI = 6894.757293168;

const woodOf = ([common, botanical, sg, rupture, elasticity, compression, status, note]: WoodRow): Wood => ({
  botanical,
  common,
  modulusOfRupture: rupture * PASCALS_PER_PSI,
  modulusOfElasticity: elasticity * 1e6 * PASCALS_PER_PSI,
  compressionStrength: compression * PASCALS_PER_PSI,
  specificGravity: sg,
  citation: cite('wood-handbook'),
  status,
  ...(note === undefined ? {} : { note }),
});

export const woodTable: readonly Wood[] = woodRows.map(woodOf);

/** Every row of a species: redwood has two, old-growth and young-growth. */
export const woodsOf = (botanical: string): readonly Wood[] =>
  woodTable.filter(row => row.botanical === botanical);

/** The row of a species, the weaker where there are two; undefined for a species that is not in the table. */
export const wood = (botanical: string): Wood | undefined =>
  woodsOf(botanical).reduce<Wood | undefined>(
    (weaker, row) => (weaker && weaker.modulusOfRupture <= row.modulusOfRupture ? weaker : row),
    undefined,
  );

/** Strength of the green wood of one tree, Pa. */
export interface GreenStrength {
  /** In compression parallel to the grain, where a stem that bends yields first. */
  readonly compression: { readonly low: number; readonly high: number };
  /** Modulus of rupture of clear wood, at its upper end: a stem breaks at a half to all of it. */
  readonly ruptureAtMost: number;
  /** The rows of the species; none where strength follows from density. */
  readonly woods: readonly Wood[];
  readonly citation: Citation;
}

/** One tree about the mean of its species: 90 % at a coefficient of variation of 18 %. */
const ONE_TREE = { low: 0.7, high: 1.3 };
/** The same of the modulus of rupture: a coefficient of variation of 16 %. */
const ONE_TREE_RUPTURE = 1.26;
/** The same with the spread of the functions of density, tested on the 98 rows of the table. */
const BY_DENSITY = { low: 0.69, high: 1.44 };
/**
 * Green strength in MPa from specific gravity G, factor · G^exponent (Wood Handbook, table of functions relating
 * properties to specific gravity, from memory).
 */
const FUNCTIONS = {
  broadleaved: { compression: [49.0, 1.11], rupture: [118.7, 1.16] },
  needleleaved: { compression: [49.7, 0.94], rupture: [109.6, 1.01] },
} as const;
const PASCALS_PER_MEGAPASCAL = 1e6;

const by = (gravity: number, [factor, exponent]: readonly [number, number]): number =>
  factor * gravity ** exponent * PASCALS_PER_MEGAPASCAL;

/** Pa, green, by the function of specific gravity. */
export const compressionByGravity = (gravity: number, leaf: LeafType): number =>
  by(gravity, FUNCTIONS[leaf].compression);

/** By the rows of the species, else by the density of its wood; undefined where neither is known. */
export function greenStrength(named: Named, leaf: LeafType): GreenStrength | undefined {
  const woods = named.binomial === undefined ? [] : woodsOf(named.binomial);
  if (woods.length > 0)
    return {
      compression: {
        low: ONE_TREE.low * Math.min(...woods.map(row => row.compressionStrength)),
        high: ONE_TREE.high * Math.max(...woods.map(row => row.compressionStrength)),
      },
      ruptureAtMost: ONE_TREE_RUPTURE * Math.max(...woods.map(row => row.modulusOfRupture)),
      woods,
      citation: cite('wood-handbook'),
    };
  const gravity = greenDensity(named)?.specificGravity;
  if (gravity === undefined) return undefined;
  const compression = compressionByGravity(gravity, leaf);
  return {
    compression: { low: BY_DENSITY.low * compression, high: BY_DENSITY.high * compression },
    ruptureAtMost: BY_DENSITY.high * by(gravity, FUNCTIONS[leaf].rupture),
    woods: [],
    citation: cite('wood-handbook'),
  };
}
