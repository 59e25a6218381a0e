/** Tables of trees (CSV) → the notation. Pure: rows in, text out. */

export type { Leftover } from './draft.ts';
export { type Feature, type Features, tableOfFeatures } from './features.ts';
export { isDegrees, isKnownGrid, readGrid } from './grid.ts';
export {
  type ColumnQuestion,
  type Guess,
  type GuessContext,
  guessMapping,
  type NameQuestion,
  questionWords,
} from './guess.ts';
export { inertCell } from './inert.ts';
export { type InventoryWriter, inventoryWriter } from './inventory.ts';
export {
  type Mapping,
  MappingError,
  mappingWords,
  readMapping,
  readMeaning,
  showMapping,
  showMeaning,
  withTag,
} from './mapping.ts';
export type { Meaning } from './meanings.ts';
export { separatorOf, type Table, TableError, type TableRow, tableOf } from './table.ts';
export type { TagColumns } from './tag-columns.ts';
