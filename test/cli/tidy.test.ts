import { chmod, readdir, readFile, stat } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { folderWith } from './folder.ts';

const UNTIDY = 'tree   14   "Lawn maple"\ndbh 41 in\nheight   52 ft\n';
const TIDY = 'tree 14 "Lawn maple"\n  dbh         41 in\n  height      52 ft\n';

test('tidies a file in place and keeps its mode', async () => {
  const folder = await folderWith({ 'a.wood': UNTIDY });
  await chmod(folder.file('a.wood'), 0o640);
  expect(await folder.run('tidy')).toEqual({ code: 0, out: '1 file, 1 formatted.\n', err: '' });
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe(TIDY);
  expect((await stat(folder.file('a.wood'))).mode & 0o777).toBe(0o640);
  expect((await readdir(folder.path)).sort()).toEqual(['.git', 'a.wood']);
});

test('--check lists what would change and changes nothing', async () => {
  const folder = await folderWith({ 'a.wood': UNTIDY, 'b.wood': TIDY });
  expect(await folder.run('tidy', '--check')).toEqual({
    code: 1,
    out: 'a.wood\n2 files, 1 to format.\n',
    err: '',
  });
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe(UNTIDY);
  expect((await folder.run('tidy', '--check', 'b.wood')).code).toBe(0);
});

test('leaves lines with a mistake as they are, names them and tidies the others', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 14\ndbh   41\nheight 52 ft\n   lean ???\n' });
  const { code, err } = await folder.run('tidy');
  expect(code).toBe(1);
  expect(err).toContain('a.wood:2: lines 2, 4 have mistakes and were left as written');
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe(
    'tree 14\ndbh   41\n  height      52 ft\n   lean ???\n',
  );
});

test('keeps a byte order mark and CRLF', async () => {
  const folder = await folderWith({ 'a.wood': `\uFEFF${UNTIDY.replaceAll('\n', '\r\n')}` });
  expect((await folder.run('tidy')).code).toBe(0);
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe(`\uFEFF${TIDY.replaceAll('\n', '\r\n')}`);
});

test('a file that is not UTF-8 is left alone', async () => {
  const bytes = new Uint8Array([...Buffer.from('tree 1\nnote "caf'), 0xe9, ...Buffer.from('"\n')]);
  const folder = await folderWith({ 'a.wood': bytes, 'b.wood': UNTIDY });
  const { code, err } = await folder.run('tidy');
  expect(code).toBe(2);
  expect(err).toBe('soundwood: a.wood is not UTF-8 text (line 2); save it as UTF-8\n');
  expect(new Uint8Array(await readFile(folder.file('a.wood')))).toEqual(bytes);
  expect(await readFile(folder.file('b.wood'), 'utf8')).toBe(TIDY);
});
