import { chmod, mkdir, symlink } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { applicableFiles, commonFolder, findFiles, isProblem, readSource } from '../../server/cli/files.ts';
import { folderWith, ON } from './folder.ts';

const TREE = 'tree 1\n';

test('finds .wood files at any depth, but not in node_modules and dot folders', async () => {
  const folder = await folderWith({
    'a.wood': TREE,
    'deep/er/b.wood': TREE,
    'readme.txt': '',
    'node_modules/x/c.wood': TREE,
    'deep/node_modules/c.wood': TREE,
    '.hidden/d.wood': TREE,
  });
  const { paths, problems } = await findFiles([], folder.path);
  expect(paths).toEqual([folder.file('a.wood'), folder.file('deep/er/b.wood')]);
  expect(problems).toEqual([]);
});

test('names each file once, however often it is given', async () => {
  const folder = await folderWith({ 'in/a.wood': TREE });
  expect((await findFiles(['in', 'in/a.wood', '.'], folder.path)).paths).toEqual([folder.file('in/a.wood')]);
});

test('symbolic links that lead in a circle end the search nowhere', async () => {
  const folder = await folderWith({ 'in/a.wood': TREE });
  await symlink(folder.path, folder.file('in/up'));
  await symlink('loop', folder.file('loop'));
  const { paths, problems } = await findFiles(['.', 'loop'], folder.path);
  expect(paths).toEqual([folder.file('in/a.wood')]);
  expect(problems).toEqual([{ file: 'loop', message: 'is a symbolic link that points back to itself' }]);
});

test('missing paths and folders without inventories are problems', async () => {
  const folder = await folderWith({ 'empty/readme.txt': '' });
  expect((await findFiles(['gone.wood', 'empty'], folder.path)).problems).toEqual([
    { file: 'gone.wood', message: 'does not exist' },
    { file: 'empty', message: 'contains no .wood files; soundwood init empty starts an inventory there' },
  ]);
});

test('names that were nearly right are told', async () => {
  const folder = await folderWith({
    'upper/trees.WOOD': TREE,
    'double/trees.wood.txt': TREE,
    'table/trees.csv': 'tag\n1\n',
    'notes.txt': TREE,
  });
  const { paths, problems } = await findFiles(
    ['upper', 'double', 'table', 'notes.txt', 'table/trees.csv'],
    folder.path,
  );
  expect(paths).toEqual([]);
  expect(problems.map(({ file, message }) => `${file} ${message}`)).toEqual([
    'upper/trees.WOOD is not read under this name: rename it to trees.wood',
    'double contains no .wood files: rename trees.wood.txt to trees.wood',
    'table contains no .wood files; soundwood init table --from table/trees.csv starts an inventory there',
    'notes.txt does not end in .wood, so it is not an inventory',
    'table/trees.csv does not end in .wood, so it is not an inventory; soundwood import converts a table',
  ]);
});

test('beside inventories too, a name in capitals is told', async () => {
  const folder = await folderWith({ 'a.wood': TREE, 'in/B.WOOD': TREE });
  expect(await findFiles([], folder.path)).toEqual({
    paths: [folder.file('a.wood')],
    problems: [{ file: 'in/B.WOOD', message: 'is not read under this name: rename it to B.wood' }],
  });
});

test('tags that differ only in how their letters are encoded are one', async () => {
  const folder = await folderWith({ 'a.wood': 'tree A\u030A-1\n\ntree A\u030A-2\n\ntree \u00C5-2\n' });
  const { out } = await folder.run('check', '--on', ON, '--format', 'lines');
  expect(out).toContain('a.wood:5:6: error: Another tree has the tag \u00C5-2.');
  expect(out.match(/duplicate-tag/g)).toHaveLength(1);
  expect((await folder.run('weigh', 'A\u030A-1')).out).toContain('Tree \u00C5-1');
});

test('closed files and folders are named, the others are read', async () => {
  const folder = await folderWith({ 'a.wood': TREE, 'closed.wood': TREE, 'shut/b.wood': TREE });
  await chmod(folder.path, 0o755);
  await chmod(folder.file('closed.wood'), 0);
  await chmod(folder.file('shut'), 0);
  // Root may read everything; anybody else may not.
  const root = process.geteuid?.() === 0;
  if (root) process.seteuid!(65534);
  try {
    const { paths, problems } = await findFiles(['.'], folder.path);
    expect(paths).toEqual([folder.file('a.wood'), folder.file('closed.wood')]);
    expect(problems).toEqual([{ file: 'shut', message: 'cannot be read: permission denied' }]);
    expect(await readSource(folder.file('closed.wood'), folder.path)).toEqual({
      file: 'closed.wood',
      message: 'cannot be read: permission denied',
    });
    expect(isProblem(await readSource(folder.file('a.wood'), folder.path))).toBe(false);
  } finally {
    if (root) process.seteuid!(0);
    await chmod(folder.file('shut'), 0o755);
  }
});

test('the nearest common folder goes by names, not by letters', () => {
  expect(commonFolder(['/a/grove/x.wood', '/a/grove-2/y.wood'], '/z')).toBe('/a');
  expect(commonFolder(['/a/grove/x.wood', '/a/grove/deep/y.wood'], '/z')).toBe('/a/grove');
  expect(commonFolder(['/a/x.wood', '/b/x.wood'], '/z')).toBe('/');
  expect(commonFolder([], '/z')).toBe('/z');
});

test('the files of the folders above apply, up to the repository', async () => {
  const folder = await folderWith({
    'site.wood': '',
    'in/people.wood': '',
    'in/deep/a.wood': '',
    'in/deep/b.wood': '',
  });
  const { root, paths } = await applicableFiles([folder.file('in/deep/a.wood')], folder.path);
  expect(root).toBe(folder.path);
  expect(paths).toEqual([
    folder.file('in/deep/b.wood'),
    folder.file('in/people.wood'),
    folder.file('site.wood'),
  ]);
});

test('without a repository five folders up are enough', async () => {
  const folder = await folderWith({ 'out/of/reach.wood': '', 'out/of/1/2.wood': '' });
  const deep = join(folder.path, 'out/of/1/2/3/4/5/6');
  await mkdir(deep, { recursive: true });
  const { root, paths } = await applicableFiles([join(deep, 'a.wood')], folder.path);
  expect(root).toBe(folder.file('out/of/1'));
  expect(paths).toEqual([folder.file('out/of/1/2.wood')]);
});
