import { type SpeciesRow, species } from './species-row.ts';
export const broadleavedSpecies: readonly SpeciesRow[] = [
  species('Acer macrophyllum', 'bigleaf maple', 48, 4),
];
