/** Standard input, read once: what comes through a pipe can't be read again. */

import { fstatSync } from 'node:fs';
import { basename } from 'node:path';
import { NotAFile } from '../host/folders.ts';

/** What stands for it on a command line, as everywhere. */
export const STANDARD_INPUT = '-';

/** Whether a path stands for it, resolved or not: the name of an inventory ends in .wood. */
export const isStandardInput = (path: string): boolean => basename(path) === STANDARD_INPUT;

/** Bytes. What is longer is an endless device, or belongs in a file. */
const LONGEST = 100_000_000;

/** Block by block. Throws NoFile where it does not end. */
export async function* standardInput(): AsyncGenerator<Uint8Array, void> {
  if (fstatSync(0).isDirectory()) throw new NotAFile('(standard input) is a folder');
  let bytes = 0;
  for await (const block of process.stdin as AsyncIterable<Uint8Array>) {
    bytes += block.length;
    if (bytes > LONGEST)
      throw new NotAFile(`(standard input) does not end within ${LONGEST / 1e6} MB: read it from a file`);
    yield block;
  }
}

let read: Promise<Buffer> | undefined;

/** All of it, again and again. Throws NoFile. */
export const fromStandardInput = (): Promise<Buffer> => (read ??= whole());

async function whole(): Promise<Buffer> {
  const blocks: Uint8Array[] = [];
  for await (const block of standardInput()) blocks.push(block);
  return Buffer.concat(blocks);
}
