import type { Compartmentalisation, RootLossTolerance } from './genera.ts';
import type { Disease } from './region-pack.ts';
import type { Species } from './species.ts';

/** A row of the tables of species; what it leaves out is its genus'. */
export interface SpeciesRow {
  readonly botanical: string;
  readonly common: string;
  /** m, ceiling. */
  readonly height: number;
  /** m, ceiling. */
  readonly diameter: number;
  readonly cycle?: Species['cycle'];
  readonly compartmentalisation?: Compartmentalisation;
  readonly rootLoss?: RootLossTolerance;
  readonly oakGroup?: NonNullable<Species['oakGroup']>;
  readonly hostOf?: readonly Disease[];
}

/** One line of a table: name, common name, greatest height and diameter in m, and what differs. */
export const species = (
  botanical: string,
  common: string,
  height: number,
  diameter: number,
  differs: Omit<SpeciesRow, 'botanical' | 'common' | 'height' | 'diameter'> = {},
): SpeciesRow => ({ botanical, common, height, diameter, ...differs });
