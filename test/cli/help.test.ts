/** What somebody sees who does not know the commands yet. */

import { rmdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { folderWith } from './folder.ts';

const ask = async (...args: string[]) => (await folderWith({})).run(...args);

/** The commands as the help lists them. */
const namesIn = (help: string) => [...help.matchAll(/^ {2}([a-z-]+) {2,}\S/gm)].map(match => match[1]!);

test('the help lists the commands within 80 columns, with where to start', async () => {
  const { code, out } = await ask('--help');
  expect(code).toBe(0);
  expect(namesIn(out)).toEqual(expect.arrayContaining(['init', 'check', 'report', 'git-setup']));
  expect(out.split('\n').filter(line => line.length > 80)).toEqual([]);
  expect(out).toContain('soundwood init my-trees');
  expect(out).toContain('Exit codes: 0 clean');
});

test('the examples of every command are command lines that are understood', async () => {
  let tried = 0;
  for (const name of namesIn((await ask('--help')).out).filter(name => name !== 'help')) {
    const { code, out } = await ask(name, '--help');
    expect(code).toBe(0);
    const examples = out.split('\nExamples:\n')[1] ?? '';
    for (const example of examples.split('\n').filter(line => line !== '')) {
      const words = [...example.replace(/ > .*/, '').matchAll(/"([^"]*)"|(\S+)/g)].map(
        match => match[1] ?? match[2]!,
      );
      expect(words[0]).toBe('soundwood');
      // What it is about is not there; a word that no command takes would be told in another way.
      expect((await ask(...words.slice(1))).err, example).not.toMatch(/^error:/);
      tried++;
    }
  }
  expect(tried).toBeGreaterThan(15);
});

test('a mistyped option leads to the help of its command', async () => {
  expect((await ask('export', '--kind', 'csv')).err).toContain(
    '(soundwood export --help shows its arguments',
  );
  expect((await ask('import')).err).toContain('(soundwood import --help shows its arguments');
  expect((await ask('chek')).err).toMatch(/Did you mean check\?\)\n\(soundwood --help lists the commands\)/);
  expect((await ask('export')).err).toBe(
    'soundwood: choose a format with --format: geojson, geopackage, csv, jsonl, parquet, kml or gpx.\n',
  );
});

test('who sits at a terminal hears that the place is not stated, and that a page is for a browser', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n', 'b.wood': 'tree 2\n' });
  const { code, err } = await folder.talk([], 'check');
  expect(code).toBe(0);
  expect(err).toContain(
    'no region is set for a.wood and 1 more file, so only general seasons and laws apply',
  );
  expect((await folder.run('check')).err).toBe('');
  const placed = await folderWith({ 'a.wood': 'site "Fernhollow Court"\n  region US-OR\ntree 1\n' });
  expect((await placed.talk([], 'check')).err).toBe('');
  expect(await folder.talk([], 'report')).toMatchObject({ code: 2, out: '' });
});

test('files in folders above are reported, and their trees do not count, unless a repository says how far it goes', async () => {
  // So deep that nothing beside the folder is above it.
  const court = 'a/q/c/d/court';
  const folder = await folderWith({
    'site.wood': 'site "Fernhollow Court"\n  region US-OR\n',
    'a/people.wood': 'person RV "Ruth Varga"\ntree 1 "Stray"\n',
    [`${court}/trees.wood`]: 'tree 1\n',
  });
  expect(await folder.run('check', court)).toMatchObject({
    out: expect.stringContaining('[duplicate-tag]'),
    err: '',
  });
  await rmdir(join(folder.path, '.git'));
  const { out, err } = await folder.run('check', court);
  expect(out).not.toContain('[duplicate-tag]');
  expect(err).toContain('folders above also apply, but no other trees: a/people.wood and 1 more file.');
});
