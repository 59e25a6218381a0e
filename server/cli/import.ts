/** `soundwood import`: a table of trees becomes an inventory. */

import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { counted } from '../assess/counted.ts';
import {
  type Guess,
  guessMapping,
  type InventoryWriter,
  inventoryWriter,
  type Leftover,
  type Mapping,
  MappingError,
  type Row,
  readMapping,
  showMapping,
  type Table,
  TableError,
} from '../import/index.ts';
import { bytesOf, NoFile } from '../lsp/node-folders.ts';
import { onOneLine, visibleInJson } from '../show/visible.ts';
import { reasonOf, refusalOf } from './files.ts';
import { CannotRun, CLEAN, type Io } from './io.ts';
import { type Progress, progressOf } from './progress.ts';
import { readText } from './read-text.ts';
import { STANDARD_INPUT, standardInput } from './standard-input.ts';
import { NotUtf8, openTable, type TableStream } from './table.ts';
import { type NewFile, newFile } from './write-text.ts';

export interface ImportOptions {
  readonly mapping?: string;
  readonly to?: string;
  readonly showMapping?: boolean;
}

/** Cells named one by one on the terminal; all of them stand in the inventory as comments. */
const CELLS_NAMED = 10;
/** Bytes of text that are written at once. */
const BLOCK = 1 << 18;
/** Below this many bytes a table is read before a bar could be. */
const LONG_TABLE = 4_000_000;

export const importFile = (file: string, options: ImportOptions, io: Io): Promise<number> =>
  withTable(file, io, options.mapping, async (table, showProgress) => {
    const guess = await mappingOf(table.ahead, options.mapping, io);
    for (const warning of guess.warnings) io.err(`${onOneLine(`${file}: warning: ${warning}`)}\n`);
    if (options.showMapping) {
      io.out(visibleInJson(showMapping(guess.mapping)));
      return CLEAN;
    }
    const target = options.to === undefined ? undefined : resolve(io.cwd, options.to);
    await writeInventory(table, guess.mapping, { file, target, showProgress }, io);
    return CLEAN;
  });

/** What is taken for a table, by the end of its name. */
const NO_TABLES = [
  { name: /\.wood$/i, told: 'is an inventory already; a table to import ends in .csv' },
  {
    name: /\.(xls[xmb]?|ods|numbers)$/i,
    told: 'is a workbook; save the sheet with the trees as CSV (UTF-8) first',
  },
];

/**
 * Opens a table for a piece of work, which may show a bar that follows what was read of it. Throws CannotRun for every
 * table or mapping that can't be used.
 */
export async function withTable<T>(
  file: string,
  io: Io,
  mapping: string | undefined,
  work: (table: TableStream, showProgress: () => Promise<Progress>) => Promise<T>,
): Promise<T> {
  const path = resolve(io.cwd, file);
  const other = NO_TABLES.find(({ name }) => name.test(file));
  if (other) throw new CannotRun(`${file} ${other.told}.`);
  const size = file === STANDARD_INPUT ? 0 : await sizeOf(path, file);
  let read = 0;
  let progress: Progress | undefined;
  async function* bytes() {
    const blocks =
      file === STANDARD_INPUT ? standardInput() : createReadStream(path, { highWaterMark: BLOCK });
    for await (const block of blocks) {
      read += block.length;
      progress?.step(block.length);
      yield block as Uint8Array;
    }
  }
  const showProgress = async () => {
    progress = await progressOf(io, size, 'importing', LONG_TABLE);
    progress.step(read);
    return progress;
  };
  try {
    return await work(await openTable(bytes()), showProgress);
  } catch (error) {
    if (error instanceof NotUtf8) throw new CannotRun(`${file} ${await encodingProblem(file, path)}.`);
    if (error instanceof TableError) throw new CannotRun(`${file}: ${error.message}`);
    if (error instanceof MappingError) throw new CannotRun(`${mapping ?? file}: ${error.message}`);
    if (error instanceof NoFile || (error instanceof Error && 'syscall' in error))
      throw new CannotRun(`${file} ${reasonOf(error)}.`);
    throw error;
  } finally {
    progress?.end();
  }
}

/** Throws CannotRun for what is no file. */
async function sizeOf(path: string, file: string): Promise<number> {
  const there = await stat(path).catch((error: unknown) => {
    throw new CannotRun(`${file} ${reasonOf(error)}.`);
  });
  const why = refusalOf(there);
  if (why !== undefined) throw new CannotRun(`${file} ${why}.`);
  return there.size;
}

/** The mapping of a file, else one that is guessed. Throws CannotRun and MappingError. */
export async function mappingOf(table: Table, file: string | undefined, io: Io): Promise<Guess> {
  if (file === undefined) return guessMapping(table);
  const bytes = await bytesOf(resolve(io.cwd, file)).catch((error: unknown) => {
    throw new CannotRun(`${file} ${reasonOf(error)}.`);
  });
  const text = readText(bytes);
  if ('problem' in text) throw new CannotRun(`${file} ${text.problem}.`);
  return { mapping: readMapping(text.text), warnings: [] };
}

async function encodingProblem(file: string, path: string): Promise<string> {
  // What came through standard input is gone.
  const text = readText(file === STANDARD_INPUT ? new Uint8Array() : await bytesOf(path));
  return 'problem' in text ? text.problem : 'is not UTF-8 text; save it as UTF-8';
}

export interface ImportTarget {
  /** Name of the table, for the reader. */
  readonly file: string;
  /** Absolute; undefined for standard output. */
  readonly target: string | undefined;
  readonly showProgress: () => Promise<Progress>;
}

/** Writes the inventory, which is only there when it is whole, and says what was left out of it. Throws CannotRun. */
export async function writeInventory(
  table: TableStream,
  mapping: Mapping,
  { file, target, showProgress }: ImportTarget,
  io: Io,
): Promise<void> {
  const writer = inventoryWriter(
    table.ahead,
    mapping,
    file === STANDARD_INPUT ? 'standard input' : basename(file),
  );
  const output = target === undefined ? undefined : await newFile(target, io.cwd);
  const progress = await showProgress();
  const done = await writeTrees(table.rows, writer, output, io);
  progress.end();
  for (const { line, column, value, reason } of done.named)
    io.err(
      `${onOneLine(`${file}:${line}: note: ${column} ${JSON.stringify(value)} left out: ${reason}.`)}\n`,
    );
  if (done.leftovers > CELLS_NAMED) io.err(`${file}: note: and ${done.leftovers - CELLS_NAMED} more.\n`);
  io.err(
    `${counted(done.trees, 'tree')} from ${counted(done.trees, 'row')}; ${counted(done.leftovers, 'cell')} kept as comments.\n`,
  );
}

interface Written {
  readonly trees: number;
  readonly leftovers: number;
  /** The first of them. */
  readonly named: readonly Leftover[];
}

async function writeTrees(
  rows: AsyncIterable<readonly Row[]>,
  writer: InventoryWriter,
  output: NewFile | undefined,
  io: Io,
): Promise<Written> {
  const write = async (text: string) => (output === undefined ? io.out(text) : output.write(text));
  const named: Leftover[] = [];
  let trees = 0;
  let leftovers = 0;
  let text = writer.head;
  try {
    for await (const batch of rows) {
      for (const row of batch) {
        const tree = writer.tree(row);
        text += tree.text;
        trees++;
        leftovers += tree.leftovers.length;
        if (named.length < CELLS_NAMED) named.push(...tree.leftovers.slice(0, CELLS_NAMED - named.length));
        if (text.length < BLOCK) continue;
        await write(text);
        text = '';
      }
    }
    await write(text);
  } catch (error) {
    await output?.drop();
    throw error;
  }
  await output?.keep();
  return { trees, leftovers, named };
}
