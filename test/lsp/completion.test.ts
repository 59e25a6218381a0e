/** Completion over the protocol: lists are short, and what else is known of an item comes with a second request. */

import { expect, test } from 'vitest';
import type { CompletionItem, CompletionList } from 'vscode-languageserver-types';
import { HEADS } from '../../grammar/fields.ts';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { type EditorOptions, startEditor } from './client.ts';

const MOST_BYTES = 20_000;

async function typing(more: Partial<EditorOptions> = {}, files: Record<string, string> = {}) {
  const folder = await folderWith(files);
  const editor = await startEditor({ program: PROGRAM, folder: folder.path, ...more });
  let number = 0;
  const complete = async (text: string) => {
    const name = `${++number}.wood`;
    editor.open(name, text);
    const lines = text.split('\n');
    const position = { line: lines.length - 1, character: lines.at(-1)!.length };
    return editor.ask<CompletionList>('textDocument/completion', name, position);
  };
  const resolve = (item: CompletionItem) => editor.request<CompletionItem>('completionItem/resolve', item);
  return { complete, resolve };
}

test('an item is short until somebody looks at it', async () => {
  const { complete, resolve } = await typing();
  const { items, isIncomplete } = await complete('tree 1\n  species norway ma');
  expect(isIncomplete).toBe(false);
  const [maple] = items;
  expect(maple).toMatchObject({
    label: 'Acer platanoides',
    filterText: 'norway maple',
    textEdit: { range: { start: { character: 10 }, end: { character: 19 } }, newText: 'Acer platanoides' },
  });
  expect(maple).not.toHaveProperty('documentation');
  expect(await resolve(maple!)).toMatchObject({
    ...maple,
    detail: 'Norway maple',
    documentation: { kind: 'markdown', value: expect.stringContaining('Sapindaceae') },
  });
});

test('an item of an earlier list stays as it is', async () => {
  const { complete, resolve } = await typing();
  const [vigor] = (await complete('tree 1\n  vigo')).items;
  const [age] = (await complete('tree 1\n  ag')).items;
  expect(await resolve(vigor!)).toEqual(vigor);
  expect(await resolve(age!)).toMatchObject({ label: 'age', detail: 'Life stage.' });
});

test('a list that is cut says so, and no list is long', async () => {
  const { complete } = await typing();
  expect(await complete('tree 1\n  species ')).toMatchObject({ isIncomplete: true });
  for (const head of HEADS.values()) {
    const above = head.under === undefined ? '' : `${HEADS.get(head.under)!.example}\n`;
    for (const begun of ['', ...[...head.fields.keys()].map(word => `${word} `)]) {
      const list = await complete(`${above}${head.example}\n  ${begun}`);
      expect(JSON.stringify(list).length, `${head.word}: ${begun}`).toBeLessThan(MOST_BYTES);
    }
  }
});

test('an editor that compares the last word alone gets a text that begins with it', async () => {
  const filters = async (more: Partial<EditorOptions>) =>
    (await (await typing(more)).complete('tree 1\n  species norway ma')).items.map(
      ({ filterText }) => filterText,
    );
  expect(await filters({ client: 'Eglot' })).toEqual(['maple']);
  expect(await filters({ client: 'Neovim' })).toEqual(['norway maple']);
});
