import type { SourceId } from './citation.ts';
import type { WoundPest } from './region-pack.ts';

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
  /** Of most of its species here. */
  readonly cycle: LeafCycle;
  readonly compartmentalisation: Compartmentalisation;
  /** Who says how well it walls off decay; absent where nobody does. */
  readonly compartmentalisationSource?: SourceId;
  readonly hostOf: readonly WoundPest[];
  /** Palms have no branches and no growing wood: rules on cuts and decay do not fit them. */
  readonly palm: boolean;
}

/** A row of the tables of species; what it leaves out is its genus'. */
export interface SpeciesRow {
  readonly botanical: string;
  readonly common: string;
  /** m, ceiling. */
  readonly height: number;
  /** m, ceiling. */
  readonly diameter: number;
  readonly cycle?: LeafCycle;
  /** University of Florida's list names the species. */
  readonly compartmentalisation?: Compartmentalisation;
  readonly rootLoss?: RootLossTolerance;
  readonly oakGroup?: OakGroup;
  readonly hostOf?: readonly WoundPest[];
}

/** One line of a table: name, common name, greatest height and diameter in m, and what differs. */
export const species = (
  botanical: string,
  common: string,
  height: number,
  diameter: number,
  differs: Omit<SpeciesRow, 'botanical' | 'common' | 'height' | 'diameter'> = {},
): SpeciesRow => ({ botanical, common, height, diameter, ...differs });
