/** Tables of trees (CSV) → the notation. Pure: text in, text out. */

export { inertCell } from './inert.ts';
export { type Inventory, importTable } from './inventory.ts';
export { type Guess, guessMapping, type Mapping, MappingError, readMapping, showMapping } from './mapping.ts';
export { readTable, type Table, TableError } from './table.ts';
export type { Leftover } from './tree.ts';
