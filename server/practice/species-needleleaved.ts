import type { SpeciesRow } from './species-row.ts';
export const needleleavedSpecies: readonly SpeciesRow[] = [];
