/**
 * Files in pieces that can be read by themselves: a small file is one piece, a large one is cut before lines
 * that begin with a head of the file, so that no more than a piece of it has to be held at a time.
 */

import { isAscii, isUtf8 } from 'node:buffer';
import { closeSync, fstatSync, openSync, readFileSync, readSync, statSync } from 'node:fs';
import { headsUnder } from '../../../grammar/fields.ts';
import { UserError } from '../../base/user-error.ts';
import { NotAFile, notAFileReason } from '../../host/folders.ts';
import { readText } from '../../host/read-text.ts';
import { reasonOf } from '../files.ts';

/** Where a piece lies in its file. */
export interface Piece {
  /** Absolute path of the file. */
  readonly path: string;
  /** Bytes of the file. */
  readonly from: number;
  readonly to: number;
  /** The state of the file in which it was cut; absent where the text is at hand. */
  readonly state?: FileState;
  /** Kept where the inventory is small, or the file is one that can't be read twice. */
  readonly text?: string;
}

interface FileState {
  readonly size: number;
  /** ms since 1970. */
  readonly modified: number;
}

export interface PieceOfText {
  readonly piece: Piece;
  readonly text: string;
  readonly bytes: Uint8Array;
}

/** Bytes; some hundred trees. More only cost memory, less cost time between the pieces. */
export const PIECE_BYTES = 64 * 1024;

/** A cut is looked for in so many bytes first. */
const TAIL_BYTES = 4 * 1024;

/** A head of the file, in plain blanks. */
const HEAD = new RegExp(
  `[ \\t]*(?:${headsUnder(undefined)
    .map(head => head.word)
    .join('|')})[ \\t\\r\\n]`,
  'y',
);

/**
 * The pieces of a file, in order; what is wrong with it where it can't be read, which may show after some pieces.
 * @param keep whether the texts will be asked for again and are to be kept
 * @param read what was read already, and can't be read again
 */
export function* piecesOf(
  path: string,
  keep: boolean,
  read?: Buffer,
): Iterable<PieceOfText | { readonly problem: string }> {
  let file: number | undefined;
  try {
    if (read) {
      yield whole(path, read, undefined);
      return;
    }
    // Before it is opened, which would wait where it is a pipe.
    const why = notAFileReason(statSync(path));
    if (why !== undefined) throw new NotAFile(why);
    file = openSync(path, 'r');
    const status = fstatSync(file);
    const state = { size: status.size, modified: status.mtimeMs };
    if (status.size > PIECE_BYTES) yield* cut(path, file, state, keep);
    else yield whole(path, readFileSync(file), keep ? undefined : state);
  } catch (error) {
    yield { problem: reasonOf(error) };
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

function whole(path: string, bytes: Buffer, state: FileState | undefined): PieceOfText | { problem: string } {
  const read = readText(bytes);
  if ('problem' in read) return read;
  const place = { path, from: 0, to: bytes.length };
  return { piece: state ? { ...place, state } : { ...place, text: read.text }, text: read.text, bytes };
}

function* cut(
  path: string,
  file: number,
  state: FileState,
  keep: boolean,
): Iterable<PieceOfText | { readonly problem: string }> {
  let length = PIECE_BYTES;
  for (let from = 0; from < state.size; ) {
    const window = bytesOf(file, from, Math.min(state.size, from + length));
    const end = from + window.length < state.size ? lastCut(window) : window.length;
    if (end === undefined) {
      // One stretch that is longer than a piece.
      length *= 2;
      continue;
    }
    const bytes = window.subarray(0, end);
    const text = textOf(bytes, from);
    if (text === undefined) {
      // What is wrong, and on which line of the whole file.
      const read = readText(bytesOf(file, 0, state.size));
      yield 'problem' in read ? read : { problem: CHANGED };
      return;
    }
    const place = { path, from, to: from + end };
    yield { piece: keep ? { ...place, text } : { ...place, state }, text, bytes };
    from += end;
    length = PIECE_BYTES;
  }
}

/** Offset behind the last line end that a cut may follow. The end of the window is looked at first: trees are short. */
function lastCut(bytes: Buffer): number | undefined {
  for (let size = TAIL_BYTES; ; size *= 8) {
    const from = Math.max(0, bytes.length - size);
    // One letter for each byte, so that offsets stay what they are; heads are plain letters in either reading.
    const text = bytes.toString('latin1', from);
    for (let at = text.lastIndexOf('\n'); at >= 0; at = at === 0 ? -1 : text.lastIndexOf('\n', at - 1)) {
      HEAD.lastIndex = at + 1;
      if (HEAD.test(text)) return from + at + 1;
    }
    if (from === 0) return undefined;
  }
}

/** Only the beginning of a file can have a byte order mark, or be of another encoding. */
function textOf(bytes: Buffer, from: number): string | undefined {
  if (from > 0) {
    // The same letters in a tenth of the time.
    if (isAscii(bytes)) return bytes.toString('latin1');
    return isUtf8(bytes) ? bytes.toString('utf8') : undefined;
  }
  const read = readText(bytes);
  return 'problem' in read ? undefined : read.text;
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

const CHANGED = 'changed while it was being read; run the check again';

/** Reads a piece again. Throws CannotRun where the file is no longer what it was. */
export function textOfPiece({ path, from, to, state, text }: Piece, shown: string): string {
  if (text !== undefined) return text;
  let file: number | undefined;
  try {
    file = openSync(path, 'r');
    const { size, mtimeMs } = fstatSync(file);
    const read =
      size === state?.size && mtimeMs === state.modified ? textOf(bytesOf(file, from, to), from) : undefined;
    if (read === undefined) throw new UserError(`${shown} ${CHANGED}.`);
    return read;
  } catch (error) {
    throw error instanceof UserError ? error : new UserError(`${shown} ${reasonOf(error)}.`);
  } finally {
    if (file !== undefined) closeSync(file);
  }
}
