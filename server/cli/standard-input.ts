/** Standard input, read once because a pipe cannot be read again. */

import { fstatSync } from 'node:fs';
import { basename } from 'node:path';
import { NotAFile } from '../host/folders.ts';

/** The argument that means standard input. */
export const STANDARD_INPUT = '-';

/** Whether a path, resolved or not, means standard input; no inventory is named `-`, since their names end in .wood. */
export const isStandardInput = (path: string): boolean => basename(path) === STANDARD_INPUT;

/** Bytes; more would be an endless device or belongs in a file. */
const LONGEST = 100_000_000;

/** The blocks of standard input. Throws NotAFile if it is a folder or does not end. */
export async function* standardInput(): AsyncGenerator<Uint8Array, void> {
  if (fstatSync(0).isDirectory()) throw new NotAFile('(standard input) is a folder');
  let bytes = 0;
  for await (const block of process.stdin as AsyncIterable<Uint8Array>) {
    bytes += block.length;
    if (bytes > LONGEST)
      throw new NotAFile(`(standard input) is longer than ${LONGEST / 1e6} MB: read it from a file`);
    yield block;
  }
}

let read: Promise<Buffer> | undefined;

/** All of standard input; can be called repeatedly. Throws NotAFile. */
export const fromStandardInput = (): Promise<Buffer> => (read ??= whole());

async function whole(): Promise<Buffer> {
  const blocks: Uint8Array[] = [];
  for await (const block of standardInput()) blocks.push(block);
  return Buffer.concat(blocks);
}
