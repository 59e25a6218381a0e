/** `soundwood import`: converts a table of trees to an inventory; a folder of pictures goes to import-pictures.ts. */

import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { NotAFile, readBytes } from '../host/folders.ts';
import { readText } from '../host/read-text.ts';
import { type FileInPieces, newFile } from '../host/write-text.ts';
import {
  guessMapping,
  type InventoryWriter,
  inventoryWriter,
  type Leftover,
  type Mapping,
  MappingError,
  readMapping,
  showMapping,
  type Table,
  TableError,
  type TableRow,
  type TagColumns,
  withTag,
} from '../import/index.ts';
import { sanitizeJson, sanitizeLine } from '../show/sanitize.ts';
import { reasonOf, refusalOf } from './files.ts';
import type { ImportPicturesOptions } from './import-pictures.ts';
import { EXIT_CLEAN, type Io } from './io.ts';
import { type Progress, progressOf } from './progress.ts';
import { STANDARD_INPUT, standardInput } from './standard-input.ts';
import { NotUtf8, openTable, type TableStream } from './table.ts';

/** How to read the columns of a table. */
export interface MappingOptions {
  /** Path of the mapping file. */
  readonly mapping?: string;
  /** The column with the tags; false for none. */
  readonly tag?: string | false;
}

export interface ImportOptions extends MappingOptions {
  readonly output?: string;
  readonly showMapping?: boolean;
}

/** Maximum number of dropped cells listed on the terminal; all are kept in the inventory as comments. */
const CELLS_NAMED = 10;
/** Size of a written block. */
const BLOCK = 1 << 18;
/** Bytes; shorter tables need no progress bar. */
const LONG_TABLE = 4_000_000;

export async function importSource(
  source: string,
  options: ImportOptions & ImportPicturesOptions,
  io: Io,
): Promise<number> {
  const there = await stat(resolve(io.cwd, source)).catch(() => undefined);
  return there?.isDirectory()
    ? (await import('./import-pictures.ts')).importPictures(source, options, io)
    : importFile(source, options, io);
}

const importFile = (file: string, options: ImportOptions, io: Io): Promise<number> =>
  withTable(file, io, options.mapping, async (table, showProgress) => {
    // Standard output is the mapping, so no questions.
    const asking = options.showMapping ? { ...io, interactive: false } : io;
    const guess = await mappingOf(table.ahead, options, asking);
    showMappingRemarks(guess, file, io);
    if (options.showMapping) {
      io.out(sanitizeJson(showMapping(guess.mapping)));
      return EXIT_CLEAN;
    }
    const target = options.output === undefined ? undefined : resolve(io.cwd, options.output);
    await writeInventory(table, guess.mapping, { file, target, showProgress }, io);
    return EXIT_CLEAN;
  });

/** Files mistaken for tables, by extension. */
const NO_TABLES = [
  { name: /\.wood$/i, told: 'is an inventory already; a table to import ends in .csv' },
  {
    name: /\.(xls[xmb]?|ods|numbers)$/i,
    told: 'is a workbook; save the sheet with the trees as CSV (UTF-8) first',
  },
];

/**
 * Opens a table and runs `work`, which may show the progress of reading. Throws UserError for unusable tables and
 * mappings.
 */
export async function withTable<T>(
  file: string,
  io: Io,
  mapping: string | undefined,
  work: (table: TableStream, showProgress: () => Promise<Progress>) => Promise<T>,
): Promise<T> {
  const path = resolve(io.cwd, file);
  const other = NO_TABLES.find(({ name }) => name.test(file));
  if (other) throw new UserError(`${file} ${other.told}.`);
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
    if (error instanceof NotUtf8) throw new UserError(`${file} ${await encodingProblem(file, path)}.`);
    if (error instanceof TableError) throw new UserError(`${file}: ${error.message}`);
    if (error instanceof MappingError) throw new UserError(`${mapping ?? file}: ${error.message}`);
    if (error instanceof NotAFile || (error instanceof Error && 'syscall' in error))
      throw new UserError(`${file} ${reasonOf(error)}.`);
    throw error;
  } finally {
    progress?.end();
  }
}

/** Throws UserError if it is not a file. */
async function sizeOf(path: string, file: string): Promise<number> {
  const there = await stat(path).catch((error: unknown) => {
    throw new UserError(`${file} ${reasonOf(error)}.`);
  });
  const why = refusalOf(there);
  if (why !== undefined) throw new UserError(`${file} ${why}.`);
  return there.size;
}

/** The mapping in use, and remarks about it for the user. */
interface MappingInUse {
  readonly mapping: Mapping;
  readonly warnings: readonly string[];
  readonly notes: readonly string[];
}

/** Prints the remarks about a mapping. */
export function showMappingRemarks({ warnings, notes }: MappingInUse, file: string, io: Io): void {
  for (const warning of warnings) io.err(`${sanitizeLine(`${file}: warning: ${warning}`)}\n`);
  for (const note of notes) io.err(`${sanitizeLine(`${file}: note: ${note}`)}\n`);
}

/** The mapping from the mapping file or guessed, with the chosen column of tags. Throws UserError and MappingError. */
export async function mappingOf(
  table: Table,
  { mapping: file, tag }: MappingOptions,
  io: Io,
): Promise<MappingInUse> {
  const guess = file === undefined ? guessMapping(table) : undefined;
  const { mapping, warnings } = guess ?? { mapping: await mappingIn(file!, io), warnings: [] };
  const chosen = (column: string | undefined): MappingInUse => ({
    mapping: withTag(table, mapping, column),
    warnings,
    notes: [],
  });
  if (tag === false) return chosen(undefined);
  if (tag !== undefined) {
    try {
      return chosen(tag);
    } catch (error) {
      throw error instanceof MappingError ? new UserError(`--tag: ${error.message}`) : error;
    }
  }
  if (!guess) return { mapping, warnings, notes: [] };
  if (guess.tags.doubtful && io.interactive) return askForTag(table, guess.tags, chosen, io);
  const { note, warning } = guess.tags;
  return {
    mapping,
    warnings: [...(warning ? [warning] : []), ...warnings],
    notes: note ? [note] : [],
  };
}

/** Asks for the column with the tags until the answer is valid. */
async function askForTag<T>(
  table: Table,
  { taken, others }: TagColumns,
  chosen: (column: string | undefined) => T,
  io: Io,
): Promise<T> {
  const all = [...(taken === undefined ? [] : [taken]), ...others];
  const shown = all.map(column => {
    const index = table.columns.indexOf(column);
    const first = table.rows.slice(0, EXAMPLES).map(({ cells }) => cells[index] || 'empty');
    return `"${column}" (${first.join(', ')} …)`;
  });
  const question = `Which column has the tags that the trees are known by: ${shown.join(', ')}, or none?`;
  for (;;) {
    const answer = await io.ask(sanitizeLine(question), taken ?? NONE);
    if (answer.toLowerCase() === NONE) return chosen(undefined);
    try {
      return chosen(answer);
    } catch (error) {
      if (!(error instanceof MappingError)) throw error;
      io.out(`${sanitizeLine(error.message)}\n`);
    }
  }
}

const EXAMPLES = 3;
const NONE = 'none';

async function mappingIn(file: string, io: Io): Promise<Mapping> {
  const bytes = await readBytes(resolve(io.cwd, file)).catch((error: unknown) => {
    throw new UserError(`${file} ${reasonOf(error)}.`);
  });
  const text = readText(bytes);
  if ('problem' in text) throw new UserError(`${file} ${text.problem}.`);
  return readMapping(text.text);
}

async function encodingProblem(file: string, path: string): Promise<string> {
  // Standard input cannot be read again.
  const text = readText(file === STANDARD_INPUT ? new Uint8Array() : await readBytes(path));
  return 'problem' in text ? text.problem : 'is not UTF-8 text; save it as UTF-8';
}

export interface ImportTarget {
  /** Name of the table as shown to the user. */
  readonly file: string;
  /** Absolute; undefined for standard output. */
  readonly target: string | undefined;
  readonly showProgress: () => Promise<Progress>;
}

/** Writes the inventory atomically, and reports what was left out. Throws UserError. */
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
      `${sanitizeLine(`${file}:${line}: note: ${column} ${JSON.stringify(value)} left out: ${reason}.`)}\n`,
    );
  if (done.leftovers > CELLS_NAMED) io.err(`${file}: note: and ${done.leftovers - CELLS_NAMED} more.\n`);
  for (const told of tagWords(done)) io.err(`${sanitizeLine(`${file}: ${told}`)}\n`);
  io.err(
    `${counted(done.trees, 'tree')} from ${counted(done.trees, 'row')}; ${counted(done.leftovers, 'cell')} kept as comments.\n`,
  );
}

/** Remarks about changed tags. */
function tagWords({ renamed, respelt }: ImportResult): readonly string[] {
  const words = [...renamed].map(
    ([reason, tags]) =>
      `warning: ${counted(tags.count, 'tree')} got a new tag (${shownTags(tags)}): ${reason}.`,
  );
  if (respelt.count > 0)
    words.push(
      `note: ${counted(respelt.count, 'tag')} written as the notation has it (${shownTags(respelt)}); the table's own is a note of the tree.`,
    );
  return words;
}

/** A count of tags, with the first few and the last. */
interface TagSample {
  count: number;
  readonly first: string[];
  last: string;
}

const TAGS_NAMED = 5;
const noTags = (): TagSample => ({ count: 0, first: [], last: '' });

function add(tags: TagSample, tag: string): void {
  tags.count++;
  tags.last = tag;
  if (tags.first.length < TAGS_NAMED) tags.first.push(tag);
}

const shownTags = ({ count, first, last }: TagSample): string =>
  count > TAGS_NAMED ? `${first[0]} to ${last}` : first.join(', ');

interface ImportResult {
  readonly trees: number;
  /** New tags by reason; `respelt` are tags spelled differently than in the table. */
  readonly renamed: ReadonlyMap<string, TagSample>;
  readonly respelt: TagSample;
  readonly leftovers: number;
  /** The first of them. */
  readonly named: readonly Leftover[];
}

async function writeTrees(
  rows: AsyncIterable<readonly TableRow[]>,
  writer: InventoryWriter,
  output: FileInPieces | undefined,
  io: Io,
): Promise<ImportResult> {
  const write = async (text: string) => (output === undefined ? io.out(text) : output.write(text));
  const named: Leftover[] = [];
  const renamed = new Map<string, TagSample>();
  const respelt = noTags();
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
        const { tag, reason } = tree.tag;
        if (tree.tag.respelled) add(respelt, tag);
        if (reason !== undefined) {
          const same = renamed.get(reason) ?? noTags();
          renamed.set(reason, same);
          add(same, tag);
        }
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
  return { trees, leftovers, named, renamed, respelt };
}
