/** However an import ends, there is the whole inventory or none. */

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Writable } from 'node:stream';
import { expect, onTestFinished, test, vi } from 'vitest';
import { PROGRAM } from '../built.ts';
import { HANG } from '../hang.ts';
import { folderWith } from './folder.ts';

const rows = (from: number, count: number) =>
  Array.from({ length: count }, (_, i) => `${from + i};12,5;Acer rubrum;north of the gate\n`).join('');
const HEADING = 'id;dbh (cm);species;notes\n';

const names = async (folder: string) => (await readdir(folder)).filter(name => name !== '.git');

/** An import that has written a part of the inventory and waits for more of the table. */
async function halfway(folder: string): Promise<{ readonly child: ChildProcess; readonly table: Writable }> {
  const child = spawn(process.execPath, [PROGRAM, 'import', '-', '--to', 'new.wood'], {
    cwd: folder,
    stdio: ['pipe', 'ignore', 'ignore'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  const table = child.stdin;
  // Its reader goes before it is written out.
  table.on('error', () => {});
  table.write(HEADING + rows(1, 20_000));
  await vi.waitFor(
    async () => {
      const [beside] = await names(folder);
      expect((await stat(join(folder, beside!))).size).toBeGreaterThan(0);
    },
    { timeout: HANG / 6 },
  );
  return { child, table };
}

test('killed in the middle: no inventory, and nothing that a check takes for one', async () => {
  const folder = await folderWith({});
  const { child } = await halfway(folder.path);
  child.kill('SIGKILL');
  await once(child, 'exit');
  const left = await names(folder.path);
  expect(left).toHaveLength(1);
  expect(left[0]).toMatch(/^\.new\.wood\.\d+\.unfinished$/);
  await writeFile(folder.file('own.wood'), 'tree 1\n');
  expect((await folder.run('check', '--reject', 'never')).out).toContain('1 tree in 1 file');
});

test.each(['SIGINT', 'SIGTERM'] as const)('stopped by %s: nothing is left', async signal => {
  const folder = await folderWith({});
  const { child } = await halfway(folder.path);
  child.kill(signal);
  expect(await once(child, 'exit')).toEqual([null, signal]);
  expect(await names(folder.path)).toEqual([]);
});

test('a fault far down in the table: nothing is left, and it is said where the fault is', async () => {
  const folder = await folderWith({
    'bytes.csv': Buffer.concat([Buffer.from(HEADING + rows(1, 9000)), Buffer.of(0xff, 10)]),
    'quote.csv': `${HEADING}${rows(1, 9000)}9001;12;"never closed\n${rows(1, 40_000)}`,
  });
  expect(await folder.run('import', 'bytes.csv', '--to', 'new.wood')).toEqual({
    code: 2,
    out: '',
    err: 'soundwood: bytes.csv is not UTF-8 text (line 9002); save it as UTF-8, or name its encoding: --encoding windows-1252.\n',
  });
  const quote = await folder.run('import', 'quote.csv', '--to', 'new.wood');
  expect(quote.code).toBe(2);
  expect(quote.err).toMatch(/^soundwood: quote\.csv: The row that begins on line 9002 is longer than 1 MB/);
  expect(await names(folder.path)).toEqual(['bytes.csv', 'quote.csv']);
});

test('a file that came to be in the meantime stays as it is', async () => {
  const folder = await folderWith({});
  const { child, table } = await halfway(folder.path);
  await writeFile(folder.file('new.wood'), 'tree 7\n');
  table.end(rows(20_001, 10));
  expect(await once(child, 'exit')).toEqual([2, null]);
  expect(await readFile(folder.file('new.wood'), 'utf8')).toBe('tree 7\n');
  expect(await names(folder.path)).toEqual(['new.wood']);
});

test('from a pipe to its end: all rows are there', async () => {
  const folder = await folderWith({});
  const { child, table } = await halfway(folder.path);
  table.end(rows(20_001, 10));
  expect(await once(child, 'exit')).toEqual([0, null]);
  expect(await names(folder.path)).toEqual(['new.wood']);
  expect((await readFile(folder.file('new.wood'), 'utf8')).match(/^tree /gm)).toHaveLength(20_010);
});
