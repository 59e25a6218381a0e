/** Streams the rows of a CSV file; only the rows read ahead are in memory. */

import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { CsvError, type Parser, parse } from 'csv-parse';
import { separatorOf, type Table, TableError, type TableRow, tableOf } from '../import/index.ts';

export interface TableStream {
  /** The first rows, from which the mapping is guessed. */
  readonly ahead: Table;
  /** All rows that are not empty, including those read ahead. Throws TableError and NotUtf8. */
  readonly rows: AsyncIterable<readonly TableRow[]>;
  /** What was left out in reading it. */
  readonly told?: readonly string[];
}

/** The bytes are not UTF-8 text. */
export class NotUtf8 extends Error {}

/** No encoding has this label. */
export class UnknownEncoding extends Error {}

/** The bytes of a text in any encoding as those of UTF-8. */
async function* inUtf8(
  bytes: AsyncIterable<Uint8Array>,
  encoding: string | undefined,
): AsyncIterable<Uint8Array> {
  let decoder: TextDecoder | undefined;
  const encoder = new TextEncoder();
  let isFirst = true;
  for await (const block of bytes) {
    if (isFirst) decoder = decoderFor(encodingByMark(block) ?? encoding);
    isFirst = false;
    yield decoder ? encoder.encode(decoder.decode(block, { stream: true })) : block;
  }
  const rest = decoder?.decode();
  if (rest) yield encoder.encode(rest);
}

/** The encoding that a byte order mark tells. */
const encodingByMark = ([first, second]: Uint8Array): string | undefined =>
  first === 0xff && second === 0xfe ? 'utf-16le' : first === 0xfe && second === 0xff ? 'utf-16be' : undefined;

/** Undefined for UTF-8, whose faults are looked for elsewhere. */
function decoderFor(encoding: string | undefined): TextDecoder | undefined {
  try {
    const decoder = new TextDecoder(encoding);
    return decoder.encoding === 'utf-8' ? undefined : decoder;
  } catch {
    throw new UnknownEncoding();
  }
}

const ROWS_AHEAD = 2000;
const ROWS_AT_ONCE = 250;
/** Bytes; a longer row has an unclosed quotation mark. */
const LONGEST_ROW = 1_000_000;

/**
 * @param encoding label of the encoding (WHATWG Encoding Standard), UTF-8 if not given; a byte order mark overrules it
 * Throws TableError, NotUtf8 and UnknownEncoding.
 */
export async function openTable(bytes: AsyncIterable<Uint8Array>, encoding?: string): Promise<TableStream> {
  const source = inUtf8(bytes, encoding)[Symbol.asyncIterator]();
  const { first, heading } = await headingOf(source);
  const separator = separatorOf(heading);
  const parser = parse({
    delimiter: separator,
    bom: true,
    relax_column_count: true,
    relax_quotes: true,
    max_record_size: LONGEST_ROW,
  });
  // Errors of the source are also thrown by the parser.
  pipeline(Readable.from(textOnly(first, source), { objectMode: false }), parser).catch(() => {});
  const lines = rowsOf(parser);
  const ahead: TableRow[] = [];
  let ended = false;
  // `<=`: one row is the heading.
  while (!ended && ahead.length <= ROWS_AHEAD) {
    const { value, done } = await lines.next();
    if (done) ended = true;
    else ahead.push(...value);
  }
  const table = tableOf(ahead, separator);
  async function* rows() {
    yield table.rows;
    if (!ended) yield* lines;
  }
  return { ahead: table, rows: rows() };
}

/** Characters from which the separator is told. */
const ENOUGH = 16_000;

/** The first blocks of a file, enough to tell how its columns are separated, and their text. */
async function headingOf(source: AsyncIterator<Uint8Array>) {
  const decoder = new TextDecoder();
  const first: Uint8Array[] = [];
  let heading = '';
  while (heading.length < ENOUGH || (!/[^\r\n][\r\n]/.test(heading) && heading.length < LONGEST_ROW)) {
    const { value, done } = await source.next();
    if (done) break;
    first.push(value);
    heading += decoder.decode(value, { stream: true });
  }
  return { first, heading };
}

async function* textOnly(first: readonly Uint8Array[], rest: AsyncIterator<Uint8Array>) {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const check = (block?: Uint8Array) => {
    try {
      decoder.decode(block, { stream: block !== undefined });
    } catch {
      throw new NotUtf8();
    }
  };
  for (const block of first) {
    check(block);
    yield block;
  }
  for (let read = await rest.next(); !read.done; read = await rest.next()) {
    check(read.value);
    yield read.value;
  }
  check();
}

/** The rows that are not empty, in batches. Throws TableError. */
async function* rowsOf(parser: Parser): AsyncGenerator<readonly TableRow[], undefined> {
  let line = 1;
  let rows: TableRow[] = [];
  try {
    for await (const record of parser as AsyncIterable<string[]>) {
      const begins = line;
      line++;
      let empty = true;
      for (let i = 0; i < record.length; i++) {
        const cell = record[i]!;
        if (cell === '') continue;
        if (cell.includes('\n') || cell.includes('\r')) line += cell.match(/\r\n|\r|\n/g)!.length;
        const trimmed = cell.trim();
        record[i] = trimmed;
        if (trimmed !== '') empty = false;
      }
      // An empty first line is kept: it is reported as a missing heading later.
      if (empty && begins > 1) continue;
      rows.push({ line: begins, cells: record });
      if (rows.length < ROWS_AT_ONCE) continue;
      yield rows;
      rows = [];
    }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    throw new TableError(
      error.code === 'CSV_MAX_RECORD_SIZE'
        ? `The row that begins on line ${line} is longer than ${LONGEST_ROW / 1e6} MB: a quotation mark in it or before it may not be closed.`
        : `${error.message.replace(/\.?$/, '.')}`,
    );
  }
  if (rows.length > 0) yield rows;
  return undefined;
}
