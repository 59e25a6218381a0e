import { rmSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { CompletionList, Diagnostic, Hover, MarkupContent } from 'vscode-languageserver-types';
import { Store } from '../../server/lsp/store.ts';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { photo, tagsOf } from '../mechanics/exif-file.ts';
import { startEditor } from './client.ts';

const TREE = 'tree 1\n  inspection 2026-05-30 from ground\n    photo photos/a.jpg\n';
const taken = (takenAt: string) => photo(tagsOf({ takenAt }).exif);
const has = (rule: string) => (found: readonly Diagnostic[]) => found.some(({ code }) => code === rule);
const hasNo = (rule: string) => (found: readonly Diagnostic[]) => !has(rule)(found);

test('photographs are looked up, again when they change, and for names that come', async () => {
  const folder = await folderWith({ 'a.wood': TREE, 'photos/b.jpg': taken('2025-01-02T10:00:00') });
  const editor = await startEditor({ program: PROGRAM, folder: folder.path });
  await editor.pushed('a.wood', has('photo-missing'));

  const told = (type: number) =>
    void editor.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: editor.uri('photos/a.jpg'), type }],
    });
  writeFileSync(folder.file('photos/a.jpg'), taken('2026-05-30T10:00:00'));
  told(1);
  await editor.pushed('a.wood', hasNo('photo-missing'));
  rmSync(folder.file('photos/a.jpg'));
  told(3);
  await editor.pushed('a.wood', has('photo-missing'));

  editor.open('a.wood', TREE.replace('a.jpg', 'b.jpg'));
  const found = await editor.pushed('a.wood', has('photo-date-disagrees'));
  expect(hasNo('photo-missing')(found)).toBe(true);
});

test('each name is asked for once, until its file changes', () => {
  const store = new Store();
  const folder = 'file:///f';
  store.addFolder(folder, { base: folder, files: [{ uri: `${folder}/a.wood`, text: TREE }], problems: [] });
  for (const _ of store.readRest());
  const wanted = () => store.photosWanted().flatMap(({ paths }) => paths);
  expect(wanted()).toEqual(['photos/a.jpg']);
  expect(wanted()).toEqual([]);
  expect(store.find(`${folder}/a.wood`)!.root.workspace.photos).toBeUndefined();
  expect(store.photosRead(folder, new Map([['photos/a.jpg', { state: 'missing' }]]))).toBe(true);
  expect(store.find(`${folder}/a.wood`)!.root.workspace.photos?.get('photos/a.jpg')).toEqual({
    state: 'missing',
  });
  expect(store.photoTouched(`${folder}/photos/b.jpg`)).toBe(false);
  expect(wanted()).toEqual([]);
  expect(store.photoTouched(`${folder}/photos`)).toBe(true);
  expect(wanted()).toEqual(['photos/a.jpg']);
});

test('photographs of the folder are proposed, shown with what their file says, and rules lead to their pages', async () => {
  const folder = await folderWith({
    'lawn/a.wood': 'tree 1\n',
    'lawn/photos/14-north.jpg': taken('2026-05-30T10:00:00'),
    'lawn/photos/b (1).jpg': taken('2026-05-30T10:00:00'),
    'node_modules/x.jpg': taken('2026-05-30T10:00:00'),
    '.hidden/y.jpg': taken('2026-05-30T10:00:00'),
  });
  const editor = await startEditor({ program: PROGRAM, folder: folder.path, pages: 'soundwood:/rule/' });
  const text = 'tree 1\n  photo photos/14-north.jpg\n  photo no\n  accept reinspection-overdue\n';
  editor.open('lawn/a.wood', text);
  const { items } = await editor.ask<CompletionList>('textDocument/completion', 'lawn/a.wood', {
    line: 2,
    character: 10,
  });
  expect(items.map(({ textEdit }) => textEdit!.newText).sort()).toEqual([
    '"photos/b (1).jpg"',
    'photos/14-north.jpg',
  ]);
  await editor.pushed('lawn/a.wood', found => !has('photo-missing')(found) && found.length > 0);
  const hover = await editor.ask<Hover>('textDocument/hover', 'lawn/a.wood', { line: 1, character: 12 });
  const address = editor.uri('lawn/photos/14-north.jpg');
  expect((hover.contents as MarkupContent).value).toMatch(`![Photograph](${address})\n\n**photos/14`);

  const at = { line: 3, character: 12 };
  const page = 'soundwood:/rule/reinspection-overdue.md';
  expect(await editor.ask('textDocument/definition', 'lawn/a.wood', at)).toMatchObject([{ uri: page }]);
  expect(await editor.ask('textDocument/documentLink', 'lawn/a.wood')).toContainEqual(
    expect.objectContaining({ target: page }),
  );
});
