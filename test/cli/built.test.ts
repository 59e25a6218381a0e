/** The program as it is shipped: bundled, started by node. */

import { spawnSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { version } from '../../package.json';
import { PROGRAM } from '../built.ts';
import { folderWith } from './folder.ts';

const start = (cwd: string, ...args: string[]) =>
  spawnSync(process.execPath, [PROGRAM, ...args], { cwd, encoding: 'utf8' });

test('--version loads nothing but itself', () => {
  for (const option of ['--version', '-V']) {
    expect(start(dirname(PROGRAM), option)).toMatchObject({ status: 0, stdout: `${version}\n`, stderr: '' });
  }
  const text = readFileSync(PROGRAM, 'utf8');
  expect(text).toMatch(/^#!\/usr\/bin\/env node\n/);
  expect(text.length).toBeLessThan(2000);
  expect(statSync(PROGRAM).mode & 0o111).not.toBe(0);
});

test('the bundle is ASCII, since it is read as Latin-1', () => {
  const bundle = readFileSync(join(dirname(PROGRAM), 'parts', 'main.js'), 'latin1');
  expect(bundle.match(/.{0,20}[\x80-\xff].*/)).toBeNull();
});

test('exit codes and streams reach the shell; a pipe gets no colours', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n  dbh 41\n' });
  const found = start(folder.path, 'check', '--format', 'lines');
  expect(found).toMatchObject({ status: 1, stderr: '' });
  expect(found.stdout).toContain('a.wood:2:7: error:');
  expect(found.stdout).not.toContain('\x1b');
  expect(start(folder.path, 'check', '--reject', 'never').status).toBe(0);
  expect(start(folder.path, 'check', 'gone')).toMatchObject({
    status: 2,
    stderr: 'soundwood: gone does not exist\n',
  });
});

test('every command starts from the bundle', async () => {
  const folder = await folderWith({ 'a.csv': 'tag,dbh (in)\n7,12\n' });
  expect(start(folder.path, 'import', 'a.csv', '--to', 'a.wood').status).toBe(0);
  expect(start(folder.path, 'tidy', '--check').status).toBe(0);
  expect(start(folder.path, 'report', 'a.wood', '--to', 'a.html')).toMatchObject({ status: 0, stderr: '' });
  expect(start(folder.path, 'explain', 'wall-ratio', '--here', '.').status).toBe(0);
  const flags = ['--name', 'Fernhollow Court', '--region', 'US-OR', '--person', 'Ruth Varga'];
  expect(start(folder.path, 'begin', 'new', ...flags).status).toBe(0);
});
