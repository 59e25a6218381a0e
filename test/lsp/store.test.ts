import { expect, test } from 'vitest';
import { Store } from '../../server/lsp/store.ts';
import { normalizeUri, pathIn, uriOf } from '../../server/lsp/uris.ts';

const files = (base: string, texts: Record<string, string>) => ({
  base,
  files: Object.entries(texts).map(([path, text]) => ({ uri: `${base}/${path}`, text })),
  problems: [],
});
const open = (uri: string, text: string, version = 1) => ({ uri, version, text });

test.each([
  ['file:///c%3A/Trees/a.wood', 'file:///C:/Trees/a.wood'],
  ['file:///inventory/my%20trees.wood', 'file:///inventory/my trees.wood'],
  ['FILE:///a/', 'file:///a'],
  ['file:///b%C3%A4ume/a(1).wood', 'file:///bäume/a%281%29.wood'],
])('%s and %s are one address', (one, other) => {
  expect(normalizeUri(one)).toBe(normalizeUri(other));
  expect(normalizeUri(normalizeUri(one))).toBe(normalizeUri(one));
});

test('a path in a folder and back', () => {
  const folder = normalizeUri('file:///inventory');
  const uri = uriOf(folder, 'my trees/50%/ä#1?.wood');
  expect(pathIn(folder, normalizeUri(uri))).toBe('my trees/50%/ä#1?.wood');
  expect(pathIn(folder, normalizeUri('file:///inventory-2/a.wood'))).toBeUndefined();
});

test('texts without files stay apart', () => {
  const store = new Store();
  store.openDocument(open('untitled:Untitled-1', 'person RV "Ruth Varga"\n'));
  store.openDocument(open('untitled:Untitled-2', 'tree 1\n'));
  const { root, file } = store.find('untitled:Untitled-2')!;
  expect(store.filesOf(root)).toEqual([file]);
  expect(store.uriOf(root, file.path)).toBe('untitled:Untitled-2');
  expect(normalizeUri(normalizeUri('untitled:Untitled-1'))).toBe(normalizeUri('untitled:Untitled-1'));
});

test('what is open takes the place of what is on disk, and goes with the document', () => {
  const store = new Store();
  store.addFolder('file:///f', files('file:///f', { 'a.wood': 'tree 1\n', 'b.wood': 'tree 2\n' }));
  store.openDocument(open('file:///f/a.wood', 'tree 3\n'));
  expect(store.find('file:///f/a.wood')!.file.text).toBe('tree 3\n');
  store.closeDocument('file:///f/a.wood');
  expect(store.find('file:///f/a.wood')!.file.text).toBe('tree 1\n');
});

test('an edit keeps every other file and block as it was', () => {
  const store = new Store();
  store.addFolder(
    'file:///f',
    files('file:///f', { 'a.wood': 'tree 1\ntree 2\ntree 3\n', 'b.wood': 'tree 4\n' }),
  );
  for (const _ of store.readRest());
  const before = store.find('file:///f/a.wood')!;
  store.openDocument(open('file:///f/a.wood', 'tree 1\ntree 2\ntree 3\n  dbh 4 in\n'));
  const after = store.find('file:///f/a.wood')!;
  expect(after.root.workspace.files.get('b.wood')).toBe(before.root.workspace.files.get('b.wood'));
  expect(after.file.trees[0]!.fact).toBe(before.file.trees[0]!.fact);
  expect(after.file.trees[2]!.fact).not.toBe(before.file.trees[2]!.fact);
  expect(store.find('file:///f/b.wood')!.root.workspace).toBe(after.root.workspace);
});

test('before its trees are read, a folder says what bears on the trees of others', () => {
  const store = new Store();
  const shared = '# People\n\n person RV "Ruth Varga"\n\n';
  const text = `tree 1\n  dbh 4 in\n${shared}tree 2\n# practice of ours\nsite "Home"\r\n  region US-OR\r\n`;
  store.addFolder('file:///f', files('file:///f', { 'a.wood': 'tree 3\n', 'b.wood': text, 'c.wood': text }));
  const early = store.find('file:///f/a.wood')!.root.workspace;
  expect(early.files.get('b.wood')!.trees).toEqual([]);
  // A file that is asked about is read.
  expect(store.find('file:///f/c.wood')!.file.text).toBe(text);
  for (const _ of store.readRest());
  const { workspace } = store.find('file:///f/a.wood')!.root;
  expect(workspace.files.get('b.wood')!.trees).toHaveLength(2);
  const places = (of: typeof workspace) => [
    ...[...of.persons.values(), ...of.sites.values()].map(({ path, start, firstLine, fact }) => [
      path,
      start,
      firstLine,
      fact,
    ]),
  ];
  expect(places(early)).toEqual(places(workspace));
  expect(places(early)).toHaveLength(2);
});

test('a folder in a folder owns its files', () => {
  const store = new Store();
  store.addFolder('file:///f', files('file:///f', { 'a.wood': 'tree 1\n', 'g/b.wood': 'tree 2\n' }));
  store.addFolder('file:///f/g', files('file:///f/g', { 'b.wood': 'tree 2\n' }));
  expect(store.find('file:///f/g/b.wood')!.root.folder).toBe('file:///f/g');
  expect(store.all().map(root => store.filesOf(root).map(({ path }) => path))).toEqual([
    ['a.wood'],
    ['b.wood'],
  ]);
  store.removeFolder('file:///f/g');
  expect(store.all().map(root => store.filesOf(root).map(({ path }) => path))).toEqual([
    ['a.wood', 'g/b.wood'],
  ]);
});

test('files above a folder apply to it and are not spoken for', () => {
  const store = new Store();
  store.addFolder('file:///f/g', files('file:///f', { 'site.wood': 'site "S"\n', 'g/a.wood': 'tree 1\n' }));
  const [root] = store.all();
  expect([...root!.workspace.files.keys()]).toEqual(['g/a.wood', 'site.wood']);
  expect(store.filesOf(root!).map(({ path }) => path)).toEqual(['g/a.wood']);
});

test('documents outside every folder come and go with a root of their own', () => {
  const store = new Store();
  store.openDocument(open('untitled:Untitled-1', 'tree 1\n'));
  store.openDocument(open('file:///x/a.wood', 'tree 2\n'));
  store.openDocument(open('file:///x/deep/b.wood', 'tree 3\n'));
  expect(store.all()).toHaveLength(3);
  expect(store.find('file:///x/deep/b.wood')!.file.path).toBe('b.wood');
  store.addFolder('file:///x', files('file:///x', { 'a.wood': 'tree 9\n' }));
  expect(store.find('file:///x/deep/b.wood')!.file.path).toBe('deep/b.wood');
  expect(store.all()).toHaveLength(2);
  store.closeDocument('untitled:Untitled-1');
  expect(store.all()).toHaveLength(1);
  expect(store.find('untitled:Untitled-1')).toBeUndefined();
});

test('a folder that is gone takes its files with it', () => {
  const store = new Store();
  store.addFolder('file:///f', files('file:///f', { 'g/a.wood': 'tree 1\n', 'b.wood': 'tree 2\n' }));
  expect(store.pathsUnder('file:///f/g')).toEqual(['file:///f/g/a.wood']);
  store.fileOnDisk('file:///f/g/a.wood', undefined);
  store.fileOnDisk('file:///f/c.wood', 'tree 3\n');
  expect([...store.all()[0]!.workspace.files.keys()]).toEqual(['b.wood', 'c.wood']);
});
