import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { folderWith, ON } from './folder.ts';

const sample = (name: string) => fileURLToPath(new URL(`../../samples/import/${name}`, import.meta.url));

test('the black cherry trees, from the table to a checked inventory', async () => {
  const folder = await folderWith({});
  const done = await folder.run(
    'import',
    sample('black-cherry.csv'),
    '--mapping',
    sample('black-cherry.json'),
    '--to',
    'cherries.wood',
  );
  expect(done).toEqual({ code: 0, out: '', err: '31 trees from 31 rows; 0 cells kept as comments.\n' });
  const { code, out } = await folder.run('check', '--as', 'json', '--on', ON);
  const { findings, summary } = JSON.parse(out);
  expect(code).toBe(0);
  expect(summary).toMatchObject({ trees: 31, files: 1, errors: 0 });
  expect(findings.filter((finding: { grade: string }) => finding.grade === 'syntax')).toEqual([]);
  expect((await folder.run('tidy', '--check')).code).toBe(0);
});

test('without the mapping it warns that the girth may be a diameter', async () => {
  const folder = await folderWith({});
  const { code, out, err } = await folder.run('import', sample('black-cherry.csv'), '--show-mapping');
  expect(code).toBe(0);
  expect(JSON.parse(out)).toEqual({ Girth: 'girth in', Height: 'height ft', Volume: 'note' });
  expect(err).toContain('warning: Column "Girth" is read as a circumference');
});

test('cells that are left out are named with their line, up to ten', async () => {
  const rows = Array.from({ length: 12 }, (_, index) => `${index + 1},0`).join('\n');
  const folder = await folderWith({ 'a.csv': `tag,dbh (in)\n${rows}\n` });
  const { code, out, err } = await folder.run('import', 'a.csv');
  expect(code).toBe(0);
  expect(out.match(/^tree /gm)).toHaveLength(12);
  expect(err).toContain('a.csv:2: note: dbh (in) "0" left out: no tree has the size 0');
  expect(err.match(/left out/g)).toHaveLength(10);
  expect(err).toContain('and 2 more');
});

test('what is no table is told by its name', async () => {
  const folder = await folderWith({ 'trees.wood': 'tree 1\n', 'trees.xlsx': 'PK' });
  expect((await folder.run('import', 'trees.wood')).err).toBe(
    'soundwood: trees.wood is an inventory already; a table to import ends in .csv.\n',
  );
  expect((await folder.run('import', 'trees.xlsx')).err).toContain('save the sheet with the trees as CSV');
});

test('never overwrites, and says what it could not read', async () => {
  const folder = await folderWith({
    'a.csv': 'tag\n1\n',
    'a.wood': 'tree 1\n',
    'bad.json': '{"tag": "tga"}',
  });
  expect((await folder.run('import', 'a.csv', '--to', 'a.wood')).err).toContain('a.wood exists already');
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe('tree 1\n');
  expect(await folder.run('import', 'gone.csv')).toEqual({
    code: 2,
    out: '',
    err: 'soundwood: gone.csv does not exist.\n',
  });
  const bad = await folder.run('import', 'a.csv', '--mapping', 'bad.json');
  expect(bad.code).toBe(2);
  expect(bad.err).toContain('bad.json: "tag": "tga" is no meaning of a column; the nearest is tag.');
});
