/** Tables of trees (CSV) → the notation. Pure: rows in, text out. */

export type { Leftover } from './draft.ts';
export { inertCell } from './inert.ts';
export { type InventoryWriter, inventoryWriter } from './inventory.ts';
export {
  type GuessedMapping,
  guessMapping,
  type Mapping,
  MappingError,
  mappingWords,
  readMapping,
  showMapping,
  withTag,
} from './mapping.ts';
export { type Separator, separatorOf, type Table, TableError, type TableRow, tableOf } from './table.ts';
export type { TagColumns } from './tag-columns.ts';
export type { Tag } from './tags.ts';
