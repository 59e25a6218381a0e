/**
 * Strength and stiffness of green wood, clear and straight-grained: never more than a comparison for the wood
 * of a standing tree. A species that is not in the table has no strength; nothing stands in for it.
 */

import { type Citation, cite } from './citation.ts';
import { type GreenDensity, greenDensity } from './density.ts';
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
  readonly greenDensity: GreenDensity | undefined;
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
  greenDensity: greenDensity(botanical),
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
