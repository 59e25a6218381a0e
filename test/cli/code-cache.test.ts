/** The code cache beside the program makes a start faster, and changes nothing else. */

import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { PROGRAM } from '../built.ts';

/** A copy of the program without a cache. */
function installed() {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-cache-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  cpSync(dirname(PROGRAM), folder, { recursive: true, filter: path => !/\.(map|cache[^/]*)$/.test(path) });
  const parts = join(folder, 'parts');
  // Files of folders above do not count.
  mkdirSync(join(folder, '.git'));
  writeFileSync(join(folder, 'a.wood'), 'site "Fernhollow Court"\n  region US-OR\ntree 1\n  dbh 41\n');
  return {
    parts,
    start: (...args: string[]) =>
      spawnSync(process.execPath, [join(folder, 'soundwood.js'), ...args], { cwd: folder, encoding: 'utf8' }),
    caches: () =>
      readdirSync(parts)
        .filter(name => name.includes('.cache'))
        .map(name => join(parts, name)),
  };
}

const FOUND = { status: 1, stderr: '', stdout: expect.stringContaining('a.wood:4:7: error:') };

test('the first check writes it, and it is used from then on', () => {
  const { start, caches } = installed();
  expect(start('--help').status).toBe(0);
  expect(caches()).toEqual([]);
  const first = start('check', 'a.wood', '--format', 'lines');
  expect(first).toMatchObject(FOUND);
  expect(caches()).toHaveLength(1);
  const written = readFileSync(caches()[0]!);
  expect(caches()[0]).toContain(`-${process.version}-${process.arch}.cache`);
  const { status, stdout, stderr } = start('check', 'a.wood', '--format', 'lines');
  expect({ status, stdout, stderr }).toEqual({
    status: first.status,
    stdout: first.stdout,
    stderr: first.stderr,
  });
  expect(caches()).toHaveLength(1);
  expect(readFileSync(caches()[0]!).equals(written)).toBe(true);
});

test.each([
  ['empty', () => Buffer.alloc(0)],
  ['of something else', () => Buffer.from('no cache at all\n'.repeat(1000))],
  ['cut off', (cache: Buffer) => cache.subarray(0, cache.length >> 1)],
  ['full of zeros', (cache: Buffer) => Buffer.alloc(cache.length)],
  // V8 writes its version and its options at the beginning.
  ['of another version of V8', (cache: Buffer) => Buffer.concat([Buffer.alloc(64, 7), cache.subarray(64)])],
])('a file that is %s is replaced', (_, spoil) => {
  const { start, caches } = installed();
  start('check', 'a.wood', '--format', 'lines');
  const [path] = caches();
  const whole = readFileSync(path!);
  const spoiled = spoil(whole);
  writeFileSync(path!, spoiled);
  expect(start('check', 'a.wood', '--format', 'lines')).toMatchObject(FOUND);
  expect(readFileSync(path!).equals(spoiled)).toBe(false);
  expect(start('check', 'a.wood', '--format', 'lines')).toMatchObject(FOUND);
});

test('without a place to write it to, the program runs all the same', () => {
  const { start, caches } = installed();
  start('check', 'a.wood', '--format', 'lines');
  const [path] = caches();
  rmSync(path!);
  mkdirSync(path!);
  writeFileSync(join(path!, 'in the way'), '');
  expect(start('check', 'a.wood', '--format', 'lines')).toMatchObject(FOUND);
  expect(caches()).toEqual([path]);
});

test('the draft of a program that was killed while it wrote the cache goes with the next one', () => {
  const { start, caches, parts } = installed();
  const [old, fresh] = ['main.js.0-v20-x64.cache.1', 'main.js.0-v20-x64.cache.2'].map(name =>
    join(parts, name),
  );
  for (const path of [old!, fresh!]) writeFileSync(path, 'begun');
  utimesSync(old!, 0, 0);
  expect(start('check', 'a.wood', '--format', 'lines')).toMatchObject(FOUND);
  expect(caches()).toHaveLength(2);
  expect(caches()).toContain(fresh);
});
