/** `soundwood import`: a table of trees becomes an inventory. */

import { readFile } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import {
  guessMapping,
  importTable,
  MappingError,
  readMapping,
  readTable,
  showMapping,
  TableError,
} from '../import/index.ts';
import { reasonOf } from './files.ts';
import { CannotRun, CLEAN, type Io } from './io.ts';
import { readText } from './read-text.ts';
import { writeNewText } from './write-text.ts';

export interface ImportOptions {
  readonly mapping?: string;
  readonly to?: string;
  readonly showMapping?: boolean;
}

/** Cells named one by one on the terminal; all of them stand in the inventory as comments. */
const CELLS_NAMED = 10;

export async function importFile(file: string, options: ImportOptions, io: Io): Promise<number> {
  try {
    const table = readTable(await read(file, io));
    const guess =
      options.mapping === undefined
        ? guessMapping(table)
        : { mapping: readMapping(await read(options.mapping, io)), warnings: [] };
    for (const warning of guess.warnings) io.err(`${file}: warning: ${warning}\n`);
    if (options.showMapping) {
      io.out(showMapping(guess.mapping));
      return CLEAN;
    }
    const { text, trees, leftovers } = importTable(table, guess.mapping, basename(file));
    if (options.to === undefined) io.out(text);
    else await writeNewText(resolve(io.cwd, options.to), text, io.cwd);
    for (const { line, column, value, reason } of leftovers.slice(0, CELLS_NAMED)) {
      io.err(`${file}:${line}: note: ${column} ${JSON.stringify(value)} left out: ${reason}.\n`);
    }
    if (leftovers.length > CELLS_NAMED)
      io.err(`${file}: note: and ${leftovers.length - CELLS_NAMED} more.\n`);
    io.err(
      `${trees} ${trees === 1 ? 'tree' : 'trees'} from ${table.rows.length} rows; ` +
        `${leftovers.length} ${leftovers.length === 1 ? 'cell' : 'cells'} kept as comments.\n`,
    );
    return CLEAN;
  } catch (error) {
    if (error instanceof TableError) throw new CannotRun(`${file}: ${error.message}`);
    if (error instanceof MappingError) throw new CannotRun(`${options.mapping ?? file}: ${error.message}`);
    throw error;
  }
}

async function read(file: string, io: Io): Promise<string> {
  const bytes = await readFile(resolve(io.cwd, file)).catch((error: unknown) => {
    throw new CannotRun(`${file} ${reasonOf(error)}.`);
  });
  const text = readText(bytes);
  if ('problem' in text) throw new CannotRun(`${file} ${text.problem}.`);
  return text.text;
}
