/** What a command has to say, on standard output or in a file. */

import { resolve } from 'node:path';
import type { FileInPieces } from '../host/write-text.ts';
import type { Io } from './io.ts';

/** Throws UserError. */
export async function writeOut(text: string | Uint8Array, output: string | undefined, io: Io): Promise<void> {
  await inPieces(output, io, async write => write(text));
}

/**
 * Writes as `fill` goes on; a file is replaced when that ended well, and else left as it was. Throws UserError.
 */
export async function inPieces<T>(
  output: string | undefined,
  io: Io,
  fill: (write: FileInPieces['write']) => Promise<T>,
): Promise<T> {
  const out = await openOut(output, io);
  try {
    const result = await fill(out.write);
    await out.keep();
    return result;
  } finally {
    await out.drop();
  }
}

/** Throws UserError. */
export async function openOut(output: string | undefined, io: Io): Promise<FileInPieces> {
  if (output === undefined) {
    const nothing = async () => {};
    return { write: piece => io.out(String(piece)), keep: nothing, drop: nothing };
  }
  // Loaded lazily: most runs write no file.
  return (await import('../host/write-text.ts')).replacement(resolve(io.cwd, output), io.cwd);
}
