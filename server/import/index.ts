/** Tables of trees (CSV) → the notation. Pure: rows in, text out. */

export type { Leftover } from './draft.ts';
export { inertCell } from './inert.ts';
export { type InventoryWriter, inventoryWriter } from './inventory.ts';
export {
  guessMapping,
  type Mapping,
  MappingError,
  mappingWords,
  readMapping,
  showMapping,
  withTag,
} from './mapping.ts';
export { separatorOf, type Table, TableError, type TableRow, tableOf } from './table.ts';
export type { TagColumns } from './tag-columns.ts';
