/**
 * Inventory files in stretches that can be parsed by themselves: each ends where a line opens a block, so that no more
 * than a stretch of a file has to be in memory at a time.
 */

import { isAscii, isUtf8 } from 'node:buffer';
import { closeSync, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { opensBlock } from '../../grammar/blocks.ts';
import { NotAFile, notAFileReason } from '../host/folders.ts';
import { readText } from '../host/read-text.ts';

/** A file that is read twice has to be the same. */
export interface FileState {
  readonly size: number;
  /** ms since 1970. */
  readonly modified: number;
}

/** What is noted while a file is read. */
export interface Seen {
  state?: FileState;
  readonly bytes?: (bytes: Uint8Array) => void;
}

export interface ReadOptions {
  /** The state in which the file was read before. */
  readonly expected?: FileState | undefined;
  readonly seen?: Seen;
  /** About so many bytes in each stretch. */
  readonly length?: number;
}

/** Some hundred trees. */
const STRETCH_BYTES = 128 * 1024;

const CHANGED = 'changed while it was being read; run the check again';

/**
 * The stretches of a file, in order; at least one.
 * @throws NotAFile, or an error of the system
 */
export function* stretchesOf(
  path: string,
  { expected, seen, length: usual = STRETCH_BYTES }: ReadOptions = {},
): Iterable<string> {
  // Opening a pipe would wait for whoever writes to it.
  const why = notAFileReason(statSync(path));
  if (why !== undefined) throw new NotAFile(why);
  const file = openSync(path, 'r');
  try {
    const { size, mtimeMs: modified } = fstatSync(file);
    if (expected && (size !== expected.size || modified !== expected.modified)) throw new NotAFile(CHANGED);
    if (seen) seen.state = { size, modified };
    let text = '';
    let length = usual;
    for (let from = 0; from < size; ) {
      const window = bytesOf(file, from, Math.min(size, from + length));
      const isLast = from + window.length === size;
      const bytes = isLast ? window : window.subarray(0, window.lastIndexOf(10) + 1);
      if (window.length < Math.min(length, size - from)) throw new NotAFile(CHANGED);
      if (bytes.length === 0) {
        // A line that is longer than the window.
        length *= 2;
        continue;
      }
      seen?.bytes?.(bytes);
      const added = from === 0 ? firstText(bytes, file) : laterText(bytes, file);
      const opening = isLast ? -1 : lastOpening(added);
      if (opening >= 0 && text.length + opening > 0) {
        yield text + added.slice(0, opening);
        text = added.slice(opening);
      } else text += added;
      from += bytes.length;
      length = usual;
    }
    yield text;
  } finally {
    closeSync(file);
  }
}

/** Offset of the last line that opens a block; -1 where none does. */
function lastOpening(text: string): number {
  for (let end = text.length - 1; end > 0; ) {
    const start = text.lastIndexOf('\n', end - 1) + 1;
    if (opensBlock(text.slice(start, end))) return start;
    end = start - 1;
  }
  return -1;
}

function bytesOf(file: number, from: number, to: number): Buffer {
  const bytes = Buffer.allocUnsafe(to - from);
  let filled = 0;
  while (filled < bytes.length) {
    const read = readSync(file, bytes, filled, bytes.length - filled, from + filled);
    if (read === 0) break;
    filled += read;
  }
  return bytes.subarray(0, filled);
}

/** Only the beginning of a file can have a byte order mark, or tell another encoding. */
function firstText(bytes: Buffer, file: number): string {
  const read = readText(bytes);
  if ('problem' in read) throw problemOf(file);
  return read.text;
}

function laterText(bytes: Buffer, file: number): string {
  // A tenth of the time of the general way.
  if (isAscii(bytes)) return bytes.toString('latin1');
  if (!isUtf8(bytes)) throw problemOf(file);
  return bytes.toString('utf8');
}

/** What is wrong, with the line in the whole file. */
function problemOf(file: number): NotAFile {
  const { size } = fstatSync(file);
  const read = readText(bytesOf(file, 0, size));
  return new NotAFile('problem' in read ? read.problem : CHANGED);
}
