/** Tables that stand in a test: read and imported the way the program does it with files. */

import { Buffer } from 'node:buffer';
import { openTable } from '../../server/cli/table.ts';
import {
  guessMapping,
  inventoryWriter,
  type Leftover,
  type Mapping,
  type Table,
} from '../../server/import/index.ts';

/** Blocks of a few bytes, so that characters, quotation marks and line ends are torn apart. */
async function* blocksOf(text: string, size = 7) {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

export const readTable = async (text: string): Promise<Table> => (await openTable(blocksOf(text))).ahead;

export interface ImportedText {
  readonly text: string;
  readonly trees: number;
  readonly leftovers: readonly Leftover[];
  readonly apart: readonly string[];
}

/** With the guessed mapping, unless one is given. */
export async function importText(csv: string, given?: Mapping, region?: string): Promise<ImportedText> {
  const { ahead, rows } = await openTable(blocksOf(csv));
  const mapping = given ?? guessMapping(ahead).mapping;
  const writer = inventoryWriter(ahead, mapping, 'x.csv', region);
  const trees = [];
  for await (const batch of rows) trees.push(...batch.map(writer.tree));
  return {
    text: writer.head + trees.map(({ apart, text }) => (apart === undefined ? text : '')).join(''),
    trees: trees.filter(({ apart }) => apart === undefined).length,
    leftovers: trees.flatMap(({ leftovers }) => leftovers),
    apart: trees.flatMap(({ apart }) => apart ?? []),
  };
}
