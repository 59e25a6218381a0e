/** Options and commands under their names of 0.9.0 do what they do under those that replaced them. */

import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { type Folder, folderWith } from './folder.ts';

const INVENTORY = `site "Fernhollow Court"
  region US-OR

tree 1
  species Acer rubrum
  dbh 12 in
  dbh 13 in
`;

const folder = () => folderWith({ 'a.wood': INVENTORY });

const read = ({ file }: Folder, name: string) => readFile(file(name), 'utf8');

const FINDING = ['check', 'a.wood'];

test.each([
  ['--as', '--format', [...FINDING, '=', 'json']],
  ['--as', '--format', ['weigh', 'a.wood', '=', 'json']],
  ['--as', '--format', ['export', 'a.wood', '=', 'csv']],
  ['--as', '--format', ['compare', '.', '.', '=', 'markdown']],
  ['--reject', '--fail-on', [...FINDING, '=', 'never']],
  ['--reject', '--fail-on', [...FINDING, '=', 'note']],
  ['--on', '--date', ['report', 'a.wood', '=', '2026-02-03']],
  ['--on', '--date', ['calendar', 'a.wood', '=', '2026-02-03']],
  ['--on', '--date', [...FINDING, '--format', 'json', '=', '2026-02-03']],
  ['--part', '--shard', [...FINDING, '--date', '2026-02-03', '=', '1/2']],
])('%s is %s: %j', async (earlier, now, args) => {
  const { run } = await folder();
  const under = (name: string) => run(...args.map(word => (word === '=' ? name : word)));
  const result = await under(now);
  expect(result.err).not.toMatch(/^error:/);
  expect(result.out + result.err).not.toBe('');
  expect(await under(earlier)).toEqual(result);
});

test('--to, --output and -o name the file to write', async () => {
  for (const name of ['--to', '--output', '-o']) {
    const one = await folder();
    expect(await one.run('export', 'a.wood', '--format', 'csv', name, 'trees.csv')).toMatchObject({
      code: 0,
    });
    expect(await read(one, 'trees.csv')).toContain('Acer rubrum');
  }
});

test('begin is init, and tidy is fmt', async () => {
  const first = await folderWith({});
  const second = await folderWith({});
  const answers = ['--name', 'Fernhollow Court', '--region', 'GB', '--person', 'Ruth Varga'];
  expect((await first.run('begin', 'new', ...answers)).code).toBe(0);
  expect((await second.run('init', 'new', ...answers)).code).toBe(0);
  expect(await read(second, 'new/site.wood')).toBe(await read(first, 'new/site.wood'));
  for (const name of ['tidy', 'fmt'])
    expect((await (await folder()).run(name, '--check', 'a.wood')).code).toBe(1);
});

test.each([
  ['--as', 'json', '--format', 'json'],
  ['--reject', 'note', '--fail-on', 'error'],
  ['--to', 'a.txt', '--output', 'b.txt'],
  ['--on', '2026-01-02', '--date', '2026-01-02'],
  ['--part', '1/2', '--shard', '1/2'],
])('%s is refused beside the option that has replaced it', async (earlier, value, now, other) => {
  const { run } = await folder();
  for (const args of [
    [earlier, value, now, other],
    [now, other, earlier, value],
  ]) {
    const { code, err } = await run('check', 'a.wood', ...args);
    expect(code).toBe(2);
    expect(err).toMatch(
      new RegExp(`^error: option '${earlier} <\\S+>' cannot be used with option '.*${now} <`),
    );
  }
});

test('a shard takes none of the options of gather, under either name', async () => {
  const { run } = await folder();
  for (const name of ['--shard', '--part'])
    for (const other of ['--format', '--as'])
      expect((await run('check', name, '1/2', other, 'json')).err).toMatch(/cannot be used with/);
});

test('the help of a command names what replaced them, and in one line what is still accepted', async () => {
  const { out } = await (await folder()).run('check', '--help');
  const options = out.slice(out.indexOf('Options:'), out.indexOf('Earlier names'));
  expect(options).toMatch(/--format[\s\S]*--output/);
  expect(options).not.toMatch(/--(as|to|on|reject|part)\b/);
  expect(out).toContain('\nEarlier names, still accepted: --on, --reject, --as, --to, --part.\n');
});
