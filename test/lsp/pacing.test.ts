/** Long work and long answers: others get their turn, and what comes in parts or deltas is what a whole answer has. */

import { expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node.js';
import type { Diagnostic, DocumentSymbol, Position } from 'vscode-languageserver-types';
import { generateTrees, printTrees } from '../../server/bench/inventory.ts';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { type Editor, startEditor } from './client.ts';

/** One in four is hollow, so that judging them takes a while. */
const trees = (count: number, first = 1) => printTrees(generateTrees(count, first, 0.25));

interface Report {
  readonly kind: string;
  readonly resultId: string;
  readonly items: readonly Diagnostic[];
}

async function editing(files: Record<string, string>, counts = false): Promise<Editor> {
  const folder = await folderWith(files);
  return startEditor({ program: PROGRAM, folder: folder.path, pulls: true, counts });
}

/** Text with a piece in place of a stretch; both sides of the protocol do the same. */
class Document {
  private version = 1;

  constructor(
    private readonly editor: Editor,
    readonly path: string,
    public text: string,
  ) {
    editor.open(path, text);
  }

  replace(start: number, end: number, put: string): void {
    const change = {
      range: { start: this.positionAt(start), end: this.positionAt(end) },
      text: put,
    };
    this.text = this.text.slice(0, start) + put + this.text.slice(end);
    void this.editor.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: this.editor.uri(this.path), version: ++this.version },
      contentChanges: [change],
    });
  }

  positionAt(offset: number): Position {
    const lines = this.text.slice(0, offset).split('\n');
    return { line: lines.length - 1, character: lines.at(-1)!.length };
  }
}

test('deltas of tokens, and lists after edits, are those of a file that was just opened', async () => {
  const files = { 'a.wood': trees(12) };
  const editor = await editing(files);
  const document = new Document(editor, 'a.wood', files['a.wood']);
  interface Tokens {
    readonly resultId: string;
    readonly data: number[];
    readonly edits?: readonly { start: number; deleteCount: number; data?: number[] }[];
  }
  let { resultId, data } = await editor.ask<Tokens>('textDocument/semanticTokens/full', 'a.wood');
  const { text } = document;
  const at = (part: string, from = 0) => text.indexOf(part, from);
  const third = at('\ntree 3');
  const edits: readonly (readonly [number, number, string])[] = [
    [at('dbh', third), at('dbh', third), 'x'],
    [third, third, '\n# a note of one line\n\n'],
    [0, 0, '# at the top\n'],
    [30, at('tree 2'), ''],
    [0, 5, ''],
    [200, 200, '\ntre 99 "Élan 🌳"\n  dbh 3 in\n'],
    [400, 900, '\n'],
    [0, 0, 'tree "line":5\n'],
  ];
  for (const [start, end, put] of edits) {
    document.replace(start, end, put);
    const delta = await editor.ask<Tokens>('textDocument/semanticTokens/full/delta', 'a.wood', undefined, {
      previousResultId: resultId,
    });
    expect(delta.edits!.length).toBeLessThanOrEqual(1);
    for (const edit of delta.edits!) data.splice(edit.start, edit.deleteCount, ...(edit.data ?? []));
    resultId = delta.resultId;
    editor.open('fresh.wood', document.text);
    expect(data).toEqual((await editor.ask<Tokens>('textDocument/semanticTokens/full', 'fresh.wood')).data);
    for (const method of ['documentSymbol', 'foldingRange']) {
      const of = (path: string) => editor.ask(`textDocument/${method}`, path);
      expect(await of('a.wood')).toEqual(await of('fresh.wood'));
    }
    void editor.connection.sendNotification('textDocument/didClose', {
      textDocument: { uri: editor.uri('fresh.wood') },
    });
  }
  // A name that the server does not have gets everything.
  const whole = await editor.ask<Tokens>('textDocument/semanticTokens/full/delta', 'a.wood', undefined, {
    previousResultId: 'nobody',
  });
  expect(whole.data).toEqual(data);
  const symbols = await editor.ask<DocumentSymbol[]>('textDocument/documentSymbol', 'a.wood');
  const lines = document.text.split('\n');
  expect(symbols.length).toBeGreaterThan(5);
  for (const {
    name,
    selectionRange: { start },
  } of symbols)
    expect(lines[start.line]!.slice(start.character)).toContain(name);
});

test('a hover is answered while a large file is judged, and what is cancelled ends', async () => {
  const files = { 'a.wood': trees(1500), 'b.wood': trees(2, 9001) };
  const editor = await editing(files);
  editor.open('a.wood', files['a.wood']);
  const done: string[] = [];
  const uri = editor.uri('a.wood');
  const source = new CancellationTokenSource();
  const stopped = editor.connection
    .sendRequest('textDocument/diagnostic', { textDocument: { uri } }, source.token)
    .catch(error => error.code);
  const found = editor.ask<Report>('textDocument/diagnostic', 'a.wood').then(report => {
    done.push('diagnostics');
    return report;
  });
  await editor.ask('textDocument/hover', 'a.wood', { line: 8, character: 4 });
  done.push('hover');
  source.cancel();
  expect(await stopped).toBe(-32800);
  done.push('cancelled');
  expect((await found).items.length).toBeGreaterThan(100);
  expect(done).toEqual(['hover', 'cancelled', 'diagnostics']);
});

test('findings follow the text that is there when they are found', async () => {
  const files = { 'a.wood': trees(800) };
  const editor = await editing(files);
  const document = new Document(editor, 'a.wood', files['a.wood']);
  const early = editor.ask<Report>('textDocument/diagnostic', 'a.wood');
  await editor.ask('textDocument/hover', 'a.wood', { line: 8, character: 4 });
  const at = document.text.indexOf('dbh') + 3;
  document.replace(at, document.text.indexOf('\n', at), '  wide');
  const line = document.positionAt(at).line;
  const found = await early;
  expect(found.items.some(({ range, severity }) => range.start.line === line && severity === 1)).toBe(true);
  expect((await editor.ask<Report>('textDocument/diagnostic', 'a.wood')).items).toEqual(found.items);
});

test('the findings of a folder come in parts, each file once, as they come in one answer', async () => {
  const files = { 'a.wood': trees(20), 'b.wood': trees(20, 101), 'c/d.wood': trees(3, 201) };
  const editor = await editing(files);
  interface FileReport extends Report {
    readonly uri: string;
  }
  const parts: FileReport[][] = [];
  editor.connection.onNotification(
    '$/progress',
    ({ token, value }: { token: unknown; value: { items: FileReport[] } }) => {
      if (token === 'parts') parts.push(value.items);
    },
  );
  const ask = (more: object) =>
    editor.request<{ items: FileReport[] }>('workspace/diagnostic', { previousResultIds: [], ...more });
  const rest = await ask({ partialResultToken: 'parts' });
  expect(rest.items).toEqual([]);
  expect(parts.map(({ length }) => length)).toEqual([1, 1, 1]);
  expect(new Set(parts.flat().map(({ uri }) => uri)).size).toBe(3);
  expect((await ask({})).items).toEqual(parts.flat());
});

test('of a file with too many findings the mistake just typed is shown, then mistakes of writing', async () => {
  // A warning for each tree, and a mistake of writing in the last one.
  const many = Array.from({ length: 600 }, (_, i) => `tree ${i + 1}\n  inspection 2031-01-01 from ground\n`);
  const files = { 'a.wood': `${many.join('\n')}\ntree 9001\n  vigor god\n` };
  const editor = await editing(files);
  const document = new Document(editor, 'a.wood', files['a.wood']);
  const pull = async () => (await editor.ask<Report>('textDocument/diagnostic', 'a.wood')).items;
  const lineOf = (tag: number) => document.positionAt(document.text.indexOf(`tree ${tag}\n`)).line;
  const of = (tag: number, found: readonly Diagnostic[]) => {
    const line = lineOf(tag);
    return found.filter(({ range: { start } }) => start.line >= line && start.line <= line + 2);
  };
  const before = await pull();
  expect(before).toHaveLength(501);
  expect(before.at(-1)!.message).toMatch(/^500 of 601 findings of this file are shown/);
  expect(of(9001, before).map(({ code }) => code)).toEqual(['unexpected']);
  expect(of(580, before)).toEqual([]);
  const edited = document.text.indexOf('tree 580\n') + 'tree 580\n'.length;
  document.replace(edited, edited, '  age mature\n');
  expect(of(580, await pull()).map(({ code }) => code)).toEqual(['date-order']);
  // What is in view is shown as well.
  expect(of(560, await pull())).toEqual([]);
  const start = { line: lineOf(560), character: 0 };
  const range = { start, end: { line: start.line + 2, character: 0 } };
  await editor.ask('textDocument/inlayHint', 'a.wood', undefined, { range });
  const after = await pull();
  expect(after).toHaveLength(501);
  expect(of(560, after).map(({ code }) => code)).toEqual(['date-order']);
  expect(of(580, after)).toHaveLength(1);
});

test('a client that asks for them is told the true numbers where not all findings are sent', async () => {
  const many = Array.from({ length: 600 }, (_, i) => `tree ${i + 1}\n  inspection 2031-01-01 from ground\n`);
  const files = { 'a.wood': many.join('\n') };
  const editor = await editing(files, true);
  const told: unknown[] = [];
  editor.connection.onNotification('soundwood/counts', params => void told.push(params));
  const document = new Document(editor, 'a.wood', files['a.wood']);
  const uri = editor.uri('a.wood');
  await editor.ask('textDocument/diagnostic', 'a.wood');
  await editor.ask('textDocument/diagnostic', 'a.wood');
  document.replace(0, document.text.length, many[0]!);
  await editor.ask('textDocument/diagnostic', 'a.wood');
  expect(told).toEqual([
    { uri, counts: { errors: 600, warnings: 0 } },
    { uri, counts: null },
  ]);
});
