import type { Disease } from './region-pack.ts';

export type Compartmentalisation = 'weak' | 'moderate' | 'strong' | 'unknown';
export type RootLossTolerance = 'good' | 'moderate' | 'poor';

export interface Genus {
  readonly name: string;
  readonly common: string;
  readonly family: string;
  readonly leaf: 'broadleaved' | 'needleleaved';
  /** Of most of its species here. */
  readonly cycle: 'deciduous' | 'evergreen';
  readonly compartmentalisation: Compartmentalisation;
  readonly rootLoss?: RootLossTolerance;
  readonly hostOf: readonly Disease[];
  readonly palm: boolean;
}
export const genera: readonly Genus[] = [
  {
    name: 'Acer',
    common: 'maple',
    family: 'Sapindaceae',
    leaf: 'broadleaved',
    cycle: 'deciduous',
    compartmentalisation: 'weak',
    hostOf: [],
    palm: false,
  },
];
