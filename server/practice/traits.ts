import type { SourceId } from './citation.ts';
import type { WoundPest } from './law/law-row.ts';

export type LeafType = 'broadleaved' | 'needleleaved';
export type LeafCycle = 'deciduous' | 'evergreen';
export type Compartmentalisation = 'weak' | 'moderate' | 'strong' | 'unknown';
export type RootLossTolerance = 'good' | 'moderate' | 'poor';
export type OakGroup = 'red' | 'white' | 'golden' | 'ring-cup';

export interface Genus {
  readonly name: string;
  readonly common: string;
  readonly family: string;
  readonly leaf: LeafType;
  /** Of most of its listed species. */
  readonly cycle: LeafCycle;
  readonly compartmentalisation: Compartmentalisation;
  readonly compartmentalisationSource?: SourceId;
  readonly hostOf: readonly WoundPest[];
  /** Palms have no branches and no cambium: rules on cuts and decay do not apply. */
  readonly palm: boolean;
}

/** A row of a species table; defaults come from the genus. */
export interface SpeciesRow {
  readonly botanical: string;
  readonly common: string;
  /** m, ceiling. */
  readonly height: number;
  /** m, ceiling. */
  readonly diameter: number;
  readonly cycle?: LeafCycle;
  /** From the University of Florida's list. */
  readonly compartmentalisation?: Compartmentalisation;
  readonly rootLoss?: RootLossTolerance;
  readonly oakGroup?: OakGroup;
  readonly hostOf?: readonly WoundPest[];
}

/** A row of a table: name, common name, greatest height and diameter in m, and differences from the genus. */
export const species = (
  botanical: string,
  common: string,
  height: number,
  diameter: number,
  differs: Omit<SpeciesRow, 'botanical' | 'common' | 'height' | 'diameter'> = {},
): SpeciesRow => ({ botanical, common, height, diameter, ...differs });
