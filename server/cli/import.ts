/** `soundwood import`: converts a table of trees to an inventory; a folder of pictures goes to import-pictures.ts. */

import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { basename, dirname, resolve } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { NotAFile, readBytes } from '../host/folders.ts';
import { shown } from '../host/paths.ts';
import { readText } from '../host/read-text.ts';
import { type FileInPieces, newFile, writeNewText } from '../host/write-text.ts';
import {
  type InventoryWriter,
  inventoryWriter,
  type Leftover,
  type Mapping,
  MappingError,
  showMapping,
  TableError,
  type TableRow,
} from '../import/index.ts';
import { sanitizeForLog, sanitizeJson, sanitizeLine } from '../show/sanitize.ts';
import { formOfFeatures, openFeatures } from './features.ts';
import { reasonOf, refusalOf } from './files.ts';
import type { ImportPicturesOptions } from './import-pictures.ts';
import { EXIT_CLEAN, EXIT_FINDINGS, type Io } from './io.ts';
import { type Progress, progressOf } from './progress.ts';
import { regionAbove } from './region-above.ts';
import { STANDARD_INPUT, standardInput } from './standard-input.ts';
import { NotUtf8, openTable, type TableStream, UnknownEncoding } from './table.ts';
import { type MappingOptions, mappingOf, requireSettled, showMappingRemarks } from './table-mapping.ts';

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
  withTable(file, io, options, async (table, showProgress) => {
    const target = options.output === undefined ? undefined : resolve(io.cwd, options.output);
    const region =
      options.region?.toUpperCase() ??
      (await regionAbove([], target === undefined ? io.cwd : dirname(target), io));
    const placed = { ...options, ...(region === undefined ? {} : { region }) };
    if (options.showMapping) {
      // Standard output is the mapping, so no questions.
      const guess = await mappingOf(table.ahead, placed, file, { ...io, interactive: false });
      showMappingRemarks(guess, file, io);
      io.out(sanitizeJson(showMapping(guess.mapping)));
      return guess.doubts.length > 0 ? EXIT_FINDINGS : EXIT_CLEAN;
    }
    const guess = await mappingOf(table.ahead, placed, file, io);
    requireSettled(guess, file, io);
    showMappingRemarks(guess, file, io);
    await writeInventory(table, guess.mapping, { file, target, region, showProgress }, io);
    if (guess.isAnswered) await keepAnswers(guess.mapping, target, io);
    return EXIT_CLEAN;
  });

/** What was answered, as a mapping that asks nothing the next time. */
async function keepAnswers(mapping: Mapping, target: string | undefined, io: Io): Promise<void> {
  const text = showMapping(mapping);
  const file = target?.replace(/(?:\.wood)?$/, '.mapping.json');
  const isThere = file !== undefined && (await stat(file).catch(() => undefined)) !== undefined;
  if (file === undefined || isThere) {
    const why = file === undefined ? '' : `, because ${shown(io.cwd, file)} already exists`;
    io.err(
      sanitizeForLog(
        `Your answers as a mapping${why}; pass it with --mapping to skip the questions:\n${text}`,
      ),
    );
    return;
  }
  await writeNewText(file, text, io.cwd);
  io.err(
    `${sanitizeLine(`Your answers were saved in ${shown(io.cwd, file)}; pass it with --mapping to skip the questions.`)}\n`,
  );
}

/** Files mistaken for tables, by extension. */
const NO_TABLES = [
  { name: /\.wood$/i, told: 'is already an inventory; a table to import ends in .csv' },
  {
    name: /\.(xls[xmb]?|ods|numbers)$/i,
    told: 'is a workbook; first save the sheet with the trees as CSV (UTF-8)',
  },
];

/**
 * Opens a table and runs `work`, which may show the progress of reading. Throws UserError for unusable tables and
 * mappings.
 */
export async function withTable<T>(
  file: string,
  io: Io,
  { mapping, encoding, crs, layer }: MappingOptions,
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
    const features = formOfFeatures(file);
    return await work(
      features
        ? await openFeatures(bytes(), features, {
            ...(crs === undefined ? {} : { crs }),
            ...(layer === undefined ? {} : { layer }),
          })
        : await openTable(bytes(), encoding),
      showProgress,
    );
  } catch (error) {
    if (error instanceof UnknownEncoding)
      throw new UserError(
        `--encoding: unknown encoding ${encoding}; common ones are windows-1252, iso-8859-1, macintosh and utf-16le.`,
      );
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

async function encodingProblem(file: string, path: string): Promise<string> {
  // Standard input cannot be read again.
  const text = readText(file === STANDARD_INPUT ? new Uint8Array() : await readBytes(path));
  const problem = 'problem' in text ? text.problem : 'is not UTF-8 text; save it as UTF-8';
  return `${problem}, or name its encoding: --encoding windows-1252`;
}

export interface ImportTarget {
  /** Name of the table as shown to the user. */
  readonly file: string;
  /** Absolute; undefined for standard output. */
  readonly target: string | undefined;
  /** ISO 3166 code of the place. */
  readonly region?: string | undefined;
  readonly showProgress: () => Promise<Progress>;
}

/** Writes the inventory atomically, and reports what was left out. Throws UserError. */
export async function writeInventory(
  table: TableStream,
  mapping: Mapping,
  { file, target, region, showProgress }: ImportTarget,
  io: Io,
): Promise<void> {
  const writer = inventoryWriter(
    table.ahead,
    mapping,
    file === STANDARD_INPUT ? 'standard input' : basename(file),
    region,
  );
  const output = target === undefined ? undefined : await newFile(target, io.cwd);
  const progress = await showProgress();
  const done = await writeTrees(table.rows, writer, output, io);
  progress.end();
  for (const { line, column, value, reason } of done.named)
    io.err(
      `${sanitizeLine(`${table.ahead.rowsAre ? `${file}, feature ${line}` : `${file}:${line}`}: note: ${column} ${JSON.stringify(value)} left out: ${reason}.`)}\n`,
    );
  if (done.leftovers > CELLS_NAMED) io.err(`${file}: note: and ${done.leftovers - CELLS_NAMED} more.\n`);
  for (const told of table.told ?? []) io.err(`${sanitizeLine(`${file}: warning: ${told}`)}\n`);
  for (const told of tagWords(done)) io.err(`${sanitizeLine(`${file}: ${told}`)}\n`);
  for (const told of apartWords(done)) io.err(`${sanitizeLine(`${file}: ${told}`)}\n`);
  io.err(
    `${counted(done.trees, 'tree')} from ${counted(done.rows, 'row')}; ${counted(done.leftovers, 'cell')} kept as comments.\n`,
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
      `note: ${counted(respelt.count, 'tag')} respelled for the notation (${shownTags(respelt)}); the original is kept as a note of the tree.`,
    );
  return words;
}

/** A count of tags, with the first few and the last. */
interface TagSample {
  count: number;
  readonly first: string[];
  last: string;
}

/** Remarks about rows that are no trees, and trees that are dead. */
function apartWords({ apart, rows, trees, dead }: ImportResult): readonly string[] {
  const kinds = [...apart].map(([what, count]) => `${what}: ${count}`);
  return [
    ...(kinds.length > 0
      ? [
          `warning: ${counted(rows - trees, 'row')} ${rows - trees === 1 ? 'is not a tree and was' : 'are not trees and were'} kept as comments at the end (${kinds.join('; ')}).`,
        ]
      : []),
    ...(dead > 0
      ? [
          `warning: ${counted(dead, 'tree')} ${dead === 1 ? 'is' : 'are'} dead according to the table: vigor dead.`,
        ]
      : []),
  ];
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
  readonly rows: number;
  readonly trees: number;
  /** Rows that are no trees, by what they are. */
  readonly apart: ReadonlyMap<string, number>;
  readonly dead: number;
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
  const apart = new Map<string, number>();
  let apartText = '';
  let rowsRead = 0;
  let trees = 0;
  let dead = 0;
  let leftovers = 0;
  let text = writer.head;
  try {
    for await (const batch of rows) {
      for (const row of batch) {
        const tree = writer.tree(row);
        rowsRead++;
        if (tree.apart !== undefined) {
          const what = tree.apart.replace(/^.*: /, '');
          apart.set(what, (apart.get(what) ?? 0) + 1);
          apartText += tree.text;
          continue;
        }
        text += tree.text;
        trees++;
        if (tree.isDead) dead++;
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
    if (apartText !== '') text += `\n# Rows of the table that are not trees:\n${apartText}`;
    await write(text);
  } catch (error) {
    await output?.drop();
    throw error;
  }
  await output?.keep();
  return { rows: rowsRead, trees, apart, dead, leftovers, named, renamed, respelt };
}
