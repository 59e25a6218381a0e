/**
 * Strength and stiffness of green, clear, straight-grained wood: only an approximation for the wood of a standing tree.
 * For a species that is not in the table, strength follows from the density of its wood, with a wider range.
 */

import { type Citation, cite } from './citation.ts';
import { type BotanicalName, greenDensity } from './density.ts';
import type { LeafType } from './traits.ts';
import { type WoodRow, type WoodStatus, woodRows } from './wood-table.ts';

export interface WoodProperties {
  readonly botanical: string;
  readonly common: string;
  /** Pa, green. */
  readonly modulusOfRupture: number;
  /** Pa, green; span to depth 14, so about 10 % low for shear. */
  readonly modulusOfElasticity: number;
  /** Pa, green, parallel to the grain: the first failure of green stems. */
  readonly compressionStrength: number;
  /** Oven-dry mass over green volume, relative to water. */
  readonly specificGravity: number;
  readonly citation: Citation;
  readonly status: WoodStatus;
  readonly note?: string | undefined;
}

const PASCALS_PER_PSI = 6894.757293168;

const woodOf = ([
  common,
  botanical,
  sg,
  rupture,
  elasticity,
  compression,
  status,
  note,
]: WoodRow): WoodProperties => ({
  botanical,
  common,
  modulusOfRupture: rupture * PASCALS_PER_PSI,
  modulusOfElasticity: elasticity * 1e6 * PASCALS_PER_PSI,
  compressionStrength: compression * PASCALS_PER_PSI,
  specificGravity: sg,
  citation: cite('wood-handbook'),
  status,
  note,
});

export const woodTable: readonly WoodProperties[] = woodRows.map(woodOf);

/** All rows of a species: redwood has two, old-growth and young-growth. */
export const woodsOf = (botanical: string): readonly WoodProperties[] =>
  woodTable.filter(row => row.botanical === botanical);

/** The row of a species, the weaker one if there are two. */
export const wood = (botanical: string): WoodProperties | undefined =>
  woodsOf(botanical).reduce<WoodProperties | undefined>(
    (weaker, row) => (weaker && weaker.modulusOfRupture <= row.modulusOfRupture ? weaker : row),
    undefined,
  );

/** Strength of the green wood of a single tree, Pa. */
export interface GreenStrength {
  /** Compression parallel to the grain, where a stem in bending yields first. */
  readonly compression: { readonly low: number; readonly high: number };
  /** Ends of the modulus of rupture of clear wood; stems break at half of it to all of it. */
  readonly ruptureAtLeast: number;
  readonly ruptureAtMost: number;
  /** Rows of the species; empty if strength follows from density. */
  readonly woods: readonly WoodProperties[];
  readonly citation: Citation;
}

/** Range of single trees around the mean of their species: 90 % at a coefficient of variation of 18 %. */
const ONE_TREE = { low: 0.7, high: 1.3 };
/** The same for the modulus of rupture: a coefficient of variation of 16 %. */
const ONE_TREE_RUPTURE = { low: 0.74, high: 1.26 };
/** The same including the scatter of the density functions, tested on the 98 rows of the table. */
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

const powerLaw = (gravity: number, [factor, exponent]: readonly [number, number]): number =>
  factor * gravity ** exponent * PASCALS_PER_MEGAPASCAL;

/** Pa, green, by the function of specific gravity. */
export const compressionByGravity = (gravity: number, leaf: LeafType): number =>
  powerLaw(gravity, FUNCTIONS[leaf].compression);

/** By the rows of the species, else by the density of its wood. */
export function greenStrength(named: BotanicalName, leaf: LeafType): GreenStrength | undefined {
  const woods = named.binomial === undefined ? [] : woodsOf(named.binomial);
  if (woods.length > 0)
    return {
      compression: {
        low: ONE_TREE.low * Math.min(...woods.map(row => row.compressionStrength)),
        high: ONE_TREE.high * Math.max(...woods.map(row => row.compressionStrength)),
      },
      ruptureAtLeast: ONE_TREE_RUPTURE.low * Math.min(...woods.map(row => row.modulusOfRupture)),
      ruptureAtMost: ONE_TREE_RUPTURE.high * Math.max(...woods.map(row => row.modulusOfRupture)),
      woods,
      citation: cite('wood-handbook'),
    };
  const gravity = greenDensity(named)?.specificGravity;
  if (gravity === undefined) return undefined;
  const compression = compressionByGravity(gravity, leaf);
  const rupture = powerLaw(gravity, FUNCTIONS[leaf].rupture);
  return {
    compression: { low: BY_DENSITY.low * compression, high: BY_DENSITY.high * compression },
    ruptureAtLeast: BY_DENSITY.low * rupture,
    ruptureAtMost: BY_DENSITY.high * rupture,
    woods: [],
    citation: cite('wood-handbook'),
  };
}
