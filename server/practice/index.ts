/** Limits, seasons, laws, wood and log tables of the trade, each with its citation. Pure lookups, no state. */

export * from './aircraft.ts';
export { type BarkShare, barkShare } from './bark.ts';
export * from './birds.ts';
export { BIRD_GROUPS, type BirdGenus, type BirdGroup, birdGenera } from './birds-table.ts';
export * from './checks.ts';
export { type Citation, type Confidence, cite, type SourceId, sources } from './citation.ts';
export {
  anyWood,
  type GreenDensity,
  greenDensities,
  greenDensity,
  type KnownBy,
  type Named,
} from './density.ts';
export { type Drag, dragOf } from './drag.ts';
export * from './electricity.ts';
export * from './fungi.ts';
export type { LimitDimension, Rests } from './limit-row.ts';
export * from './limits.ts';
export * from './logs.ts';
export {
  type PruningWindow,
  type RegionPack,
  type Season,
  type Statute,
  WOUND_PESTS,
  type WoundPest,
} from './region-pack.ts';
export * from './regions.ts';
export * from './risk.ts';
export * from './season.ts';
export {
  genusNames,
  lookupGenus,
  lookupSpecies,
  type Species,
  speciesNames,
  speciesTable,
} from './species.ts';
export type {
  Compartmentalisation,
  Genus,
  LeafCycle,
  LeafType,
  OakGroup,
  RootLossTolerance,
} from './traits.ts';
export { includedBarkFigure } from './unions.ts';
export { type GreenStrength, greenStrength, type Wood, wood, woodsOf, woodTable } from './wood.ts';
export type { WoodStatus } from './wood-table.ts';
