/** The language server as editors start it, from the first word to the last. */

import { writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node.js';
import type { CompletionList, Diagnostic, TextEdit, WorkspaceEdit } from 'vscode-languageserver-types';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { sampleFiles } from '../samples/sample-files.ts';
import { type Editor, startEditor } from './client.ts';

const PEOPLE = 'person RV "Ruth Varga"\n';
const LAWN = 'tree 1 "Oak 🌳"\n  dbh 41 in\n  inspection 2026-03-14 from ground\n    by RV\n';
const CLOSED = 'tree 2\n  vigor fiar\n  inspection 2026-03-14 from ground\n    by RV\n';
const FILES = { 'people.wood': PEOPLE, 'lawn.wood': LAWN, 'closed.wood': CLOSED };

async function editing(
  files: Record<string, string> = FILES,
  more: { pulls?: boolean; refusesToWatch?: boolean } = {},
): Promise<Editor> {
  const folder = await folderWith(files);
  return startEditor({ program: PROGRAM, folder: folder.path, ...more });
}

const has = (rule: string) => (found: readonly Diagnostic[]) => found.some(({ code }) => code === rule);
const hasNo = (rule: string) => (found: readonly Diagnostic[]) => !has(rule)(found);

const change = (
  editor: Editor,
  path: string,
  version: number,
  text: string,
  line: number,
  from: number,
  to: number,
) =>
  void editor.connection.sendNotification('textDocument/didChange', {
    textDocument: { uri: editor.uri(path), version },
    contentChanges: [{ range: { start: { line, character: from }, end: { line, character: to } }, text }],
  });

test('diagnostics of closed and open files appear, follow edits and go', async () => {
  const editor = await editing();
  const [mistake] = await editor.pushed('closed.wood', has('unknown-word'));
  expect(mistake).toMatchObject({
    source: 'soundwood',
    severity: 1,
    range: { start: { line: 1, character: 8 }, end: { line: 1, character: 12 } },
  });
  editor.open('lawn.wood', LAWN);
  change(editor, 'lawn.wood', 2, '41', 1, 6, 11);
  const found = await editor.pushed('lawn.wood', has('missing-unit'));
  expect(found.find(({ code }) => code === 'missing-unit')!.range.start).toEqual({ line: 1, character: 6 });
  change(editor, 'lawn.wood', 3, '41 in', 1, 6, 8);
  await editor.pushed('lawn.wood', hasNo('missing-unit'));
});

test('an edit in one file changes what is found in others', async () => {
  const editor = await editing();
  editor.open('people.wood', PEOPLE);
  await editor.pushed('closed.wood', hasNo('unknown-reference'));
  change(editor, 'people.wood', 2, 'XY', 0, 7, 9);
  await editor.pushed('closed.wood', has('unknown-reference'));
  // What was not saved goes with the document.
  void editor.connection.sendNotification('textDocument/didClose', {
    textDocument: { uri: editor.uri('people.wood') },
  });
  await editor.pushed('closed.wood', hasNo('unknown-reference'));
});

test('files that change on disk are read again', async () => {
  const folder = await folderWith(FILES);
  const editor = await startEditor({ program: PROGRAM, folder: folder.path });
  await editor.pushed('closed.wood', has('unknown-word'));
  writeFileSync(folder.file('closed.wood'), CLOSED.replace('fiar', 'fair'));
  const told = (path: string, type: number) =>
    void editor.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: editor.uri(path), type }],
    });
  told('closed.wood', 2);
  await editor.pushed('closed.wood', hasNo('unknown-word'));
  told('people.wood', 3);
  await editor.pushed('closed.wood', has('unknown-reference'));
});

test('diagnostics are pulled by editors that ask: of a document, and of the whole folder', async () => {
  const editor = await editing(FILES, { pulls: true });
  interface Report {
    readonly kind: string;
    readonly resultId: string;
    readonly items: readonly Diagnostic[];
  }
  editor.open('closed.wood', CLOSED);
  const first = await editor.ask<Report>('textDocument/diagnostic', 'closed.wood');
  expect(first.items.map(({ code }) => code)).toContain('unknown-word');
  const again = await editor.ask<Report>('textDocument/diagnostic', 'closed.wood', undefined, {
    previousResultId: first.resultId,
  });
  expect(again).toEqual({ kind: 'unchanged', resultId: first.resultId });
  const all = await editor.request<{ items: readonly (Report & { uri: string })[] }>('workspace/diagnostic', {
    previousResultIds: [{ uri: editor.uri('gone.wood'), value: '1' }],
  });
  expect(all.items.map(({ uri }) => uri).sort()).toEqual(
    ['closed.wood', 'gone.wood', 'lawn.wood', 'people.wood'].map(editor.uri),
  );
  expect(all.items.find(({ uri }) => uri.endsWith('closed.wood'))!.items).toEqual(first.items);
});

test('hover and completion at positions that count UTF-16', async () => {
  const editor = await editing();
  editor.open('lawn.wood', `${LAWN}  vi`);
  const found = await editor.ask<{ contents: { kind: string; value: string }; range: unknown }>(
    'textDocument/hover',
    'lawn.wood',
    { line: 3, character: 7 },
  );
  expect(found.contents).toMatchObject({ kind: 'markdown', value: expect.stringContaining('Ruth Varga') });
  expect(found.range).toEqual({ start: { line: 3, character: 7 }, end: { line: 3, character: 9 } });
  const list = await editor.ask<CompletionList>('textDocument/completion', 'lawn.wood', {
    line: 4,
    character: 4,
  });
  const by = list.items.find(({ label }) => label === 'by');
  expect(by).toBeUndefined();
  const vigor = list.items.find(({ label }) => label === 'vigor')!;
  expect(vigor).toMatchObject({
    insertTextFormat: 2,
    textEdit: { range: { start: { line: 4, character: 2 }, end: { line: 4, character: 4 } } },
  });
});

test('renaming reaches closed files, and what is taken is refused with a reason', async () => {
  const editor = await editing();
  editor.open('lawn.wood', LAWN);
  const at = { line: 3, character: 8 };
  expect(await editor.ask('textDocument/prepareRename', 'lawn.wood', at)).toMatchObject({
    placeholder: 'RV',
  });
  const edit = await editor.ask<WorkspaceEdit>('textDocument/rename', 'lawn.wood', at, { newName: 'RUTH' });
  expect(Object.keys(edit.changes!).sort()).toEqual(
    ['closed.wood', 'lawn.wood', 'people.wood'].map(editor.uri),
  );
  expect(edit.changes![editor.uri('people.wood')]).toEqual([
    { range: { start: { line: 0, character: 7 }, end: { line: 0, character: 9 } }, newText: 'RUTH' },
  ]);
  await expect(editor.ask('textDocument/rename', 'lawn.wood', at, { newName: 'R V' })).rejects.toThrow(
    "can't be a name",
  );
});

test('formatting, of the whole and after a line end', async () => {
  const editor = await editing();
  editor.open('lawn.wood', 'tree 1\r\ndbh  41 in\r\n');
  const options = { options: { tabSize: 2, insertSpaces: true } };
  const edits = await editor.ask<TextEdit[]>('textDocument/formatting', 'lawn.wood', undefined, options);
  expect(edits).toEqual([
    {
      range: { start: { line: 1, character: 0 }, end: { line: 1, character: 10 } },
      newText: '  dbh         41 in',
    },
  ]);
  const typed = await editor.ask<TextEdit[]>(
    'textDocument/onTypeFormatting',
    'lawn.wood',
    { line: 2, character: 0 },
    { ch: '\n', ...options },
  );
  expect(typed.map(({ newText }) => newText)).toEqual(['  dbh         41 in', '  ']);
});

test('quick fixes, and everything safe at once', async () => {
  const editor = await editing();
  editor.open('closed.wood', CLOSED);
  const range = { start: { line: 1, character: 9 }, end: { line: 1, character: 9 } };
  const of = (only?: string[]) =>
    editor.ask<{ title: string; kind: string; isPreferred?: boolean; edit: WorkspaceEdit }[]>(
      'textDocument/codeAction',
      'closed.wood',
      undefined,
      { range, context: { diagnostics: [], ...(only ? { only } : {}) } },
    );
  const [first] = await of(['quickfix']);
  expect(first).toMatchObject({ title: 'Write fair', kind: 'quickfix', isPreferred: true });
  const all = await of(['source.fixAll']);
  expect(all.map(({ kind }) => kind)).toEqual(['source.fixAll.soundwood']);
  expect(all[0]!.edit.changes![editor.uri('closed.wood')]!.map(({ newText }) => newText)).toEqual(['fair']);
});

test('on save: what has one meaning is rewritten, also where an editor names the kind of the server', async () => {
  const editor = await editing();
  editor.open('field.wood', 'tree 1\n  species bigleaf maple\n  DBH 41"\n  defect A butt rot\n');
  for (const only of ['source.fixAll', 'source.fixAll.soundwood']) {
    const [all, ...more] = await editor.ask<{ edit: WorkspaceEdit }[]>(
      'textDocument/codeAction',
      'field.wood',
      undefined,
      {
        range: { start: { line: 0, character: 0 }, end: { line: 4, character: 0 } },
        context: { diagnostics: [], only: [only] },
      },
    );
    expect(more).toEqual([]);
    expect(all!.edit.changes![editor.uri('field.wood')]!.map(({ newText }) => newText)).toEqual([
      // The last word stays where it is.
      'Acer macrophyllum  # bigleaf',
      'dbh 41 in',
    ]);
  }
});

test('the other requests answer in the shapes of the protocol', async () => {
  const editor = await editing({
    ...FILES,
    'lawn.wood': `${LAWN}  photo photos/1.jpg\n`,
  });
  editor.open('lawn.wood', `${LAWN}    photo photos/1.jpg\n`);
  const whole = { range: { start: { line: 0, character: 0 }, end: { line: 5, character: 0 } } };
  const ask = <T>(method: string, more?: object) => editor.ask<T>(method, 'lawn.wood', undefined, more);
  expect(await ask('textDocument/documentSymbol')).toMatchObject([{ name: 'tree 1 "Oak 🌳"', kind: 5 }]);
  expect(await ask('textDocument/documentLink')).toMatchObject([{ target: editor.uri('photos/1.jpg') }]);
  const lenses = await ask<object[]>('textDocument/codeLens');
  expect(
    await Promise.all(lenses.map(lens => editor.request<object>('codeLens/resolve', lens))),
  ).toMatchObject([
    { command: { title: '1 warning', command: '' } },
    { command: { title: 'weigh', command: 'soundwood.weigh', arguments: [editor.uri('lawn.wood'), '1'] } },
  ]);
  expect(await ask('textDocument/inlayHint', whole)).toMatchObject([{ label: '104.1 cm' }]);
  expect(await ask('textDocument/foldingRange')).toMatchObject([
    { startLine: 0, endLine: 4 },
    { startLine: 2 },
  ]);
  const { data } = await ask<{ data: number[] }>('textDocument/semanticTokens/full');
  expect(data.slice(0, 15)).toEqual([0, 0, 4, 0, 0, 0, 5, 1, 6, 1, 0, 2, 8, 4, 0]);
  expect(data.length % 5).toBe(0);
  expect(await ask('textDocument/selectionRange', { positions: [{ line: 1, character: 7 }] })).toMatchObject([
    { range: { start: { line: 1, character: 6 }, end: { line: 1, character: 11 } } },
  ]);
  expect(await editor.request('workspace/symbol', { query: 'varga' })).toMatchObject([
    { location: { uri: editor.uri('people.wood') } },
  ]);
  const at = { line: 3, character: 8 };
  expect(await editor.ask('textDocument/definition', 'lawn.wood', at)).toMatchObject([
    { uri: editor.uri('people.wood') },
  ]);
  expect(
    await editor.ask('textDocument/references', 'lawn.wood', at, { context: { includeDeclaration: false } }),
  ).toHaveLength(2);
  expect(await editor.ask('textDocument/documentHighlight', 'lawn.wood', at)).toHaveLength(1);
  expect(await editor.ask('soundwood/preview', 'lawn.wood', at)).toMatchObject({ title: 'Tree 1 Oak 🌳' });
  expect(
    await editor.request('workspace/willRenameFiles', {
      files: [{ oldUri: editor.uri('photos/1.jpg'), newUri: editor.uri('photos/one.jpg') }],
    }),
  ).toMatchObject({ changes: { [editor.uri('lawn.wood')]: [{ newText: 'photos/one.jpg' }] } });
});

test('requests about unknown documents have no answer, and the server stays', async () => {
  const editor = await editing();
  const at = { line: 0, character: 0 };
  expect(await editor.ask('textDocument/hover', 'nowhere.wood', at)).toBeNull();
  expect(await editor.ask('textDocument/hover', 'lawn.wood', { line: 99, character: 99 })).toBeNull();
  await expect(editor.request('textDocument/unheardOf', {})).rejects.toThrow();
  expect(await editor.ask('textDocument/hover', 'lawn.wood', at)).not.toBeNull();
});

test('an editor that will not watch files is served all the same', async () => {
  const editor = await editing(FILES, { refusesToWatch: true });
  await new Promise<void>(resolve =>
    editor.connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
      if (message.includes('The editor watches no files')) resolve();
    }),
  );
  await editor.pushed('closed.wood', has('unknown-word'));
});

test('a document outside every folder is served by itself', async () => {
  const editor = await editing();
  const uri = 'untitled:Untitled-1';
  void editor.connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'soundwood', version: 1, text: 'tree 1\n  dbh 41\n' },
  });
  const found = await editor.request<Diagnostic[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: { start: { line: 1, character: 6 }, end: { line: 1, character: 8 } },
    context: { diagnostics: [] },
  });
  expect(found).toHaveLength(5);
});

test('a request that is cancelled ends at once, with the code of the protocol', async () => {
  // Enough to weigh that the word to stop comes in between.
  const { text } = sampleFiles('fernhollow').find(({ path }) => path === 'lawn.wood')!;
  const many = Object.fromEntries(Array.from({ length: 12 }, (_, i) => [`f${i}/a.wood`, text] as const));
  const editor = await editing(many, { pulls: true });
  await editor.ask('textDocument/hover', 'f0/a.wood', { line: 0, character: 0 });
  const source = new CancellationTokenSource();
  const asked = editor.connection.sendRequest(
    'workspace/diagnostic',
    { previousResultIds: [] },
    source.token,
  );
  source.cancel();
  await expect(asked).rejects.toMatchObject({ code: -32800 });
  const all = await editor.request<{ items: unknown[] }>('workspace/diagnostic', { previousResultIds: [] });
  expect(all.items).toHaveLength(12);
});

test('shutdown and exit end the process in order; exit alone is a failure', async () => {
  const editor = await editing();
  expect(await editor.request('shutdown', undefined)).toBeNull();
  void editor.connection.sendNotification('exit');
  expect(await editor.exitCode).toBe(0);
  const other = await editing();
  void other.connection.sendNotification('exit');
  expect(await other.exitCode).toBe(1);
});
