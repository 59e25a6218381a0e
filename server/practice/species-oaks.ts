import type { SpeciesRow } from './species-row.ts';
export const oakSpecies: readonly SpeciesRow[] = [];
