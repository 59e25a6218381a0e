/** Messages that are JSON-RPC and no more: whatever an editor's plug-in sends, the server answers the next one. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { PROGRAM } from '../built.ts';
import { openWire, type Wire } from './wire.ts';

const URI = 'untitled:lawn.wood';
const TEXT = `site "Court"
  region US-OR

person RV "Ruth Varga"

tree 14 "Oak"
  dbh         41 in, 12 in
  height      52 ft
  crown       from 14 ft, 40 ft wide

  inspection 2026-03-14 from ground
    by RV

  defect A cavity
    on        trunk at 4 ft, facing S
    diameter  41 in
    wall      3 in at S
    photo     photos/a.jpg

  prescription R1 reduce
    height    52 ft to 46 ft
`;
const about = { textDocument: { uri: URI } };
const at = { line: 5, character: 2 };
const range = { start: { line: 0, character: 0 }, end: { line: 20, character: 0 } };

/** Every request and notification of LSP 3.17 that goes to a server, in the form that it should have, and our own. */
const REQUESTS: Readonly<Record<string, unknown>> = {
  'textDocument/hover': { ...about, position: at },
  'textDocument/completion': { ...about, position: at, context: { triggerKind: 1 } },
  'textDocument/definition': { ...about, position: at },
  'textDocument/references': { ...about, position: at, context: { includeDeclaration: true } },
  'textDocument/documentHighlight': { ...about, position: at },
  'textDocument/prepareRename': { ...about, position: at },
  'textDocument/rename': { ...about, position: at, newName: '15' },
  'textDocument/documentSymbol': about,
  'textDocument/foldingRange': about,
  'textDocument/selectionRange': { ...about, positions: [at] },
  'textDocument/documentLink': about,
  'textDocument/codeLens': about,
  'textDocument/inlayHint': { ...about, range },
  'textDocument/codeAction': { ...about, range, context: { diagnostics: [], only: ['quickfix'] } },
  'textDocument/formatting': { ...about, options: { tabSize: 2, insertSpaces: true } },
  'textDocument/rangeFormatting': { ...about, range, options: { tabSize: 2, insertSpaces: true } },
  'textDocument/onTypeFormatting': { ...about, position: at, ch: '\n', options: { tabSize: 2 } },
  'textDocument/semanticTokens/full': about,
  'textDocument/semanticTokens/range': { ...about, range },
  'textDocument/diagnostic': { ...about, previousResultId: '1' },
  'workspace/diagnostic': { previousResultIds: [{ uri: URI, value: '1' }] },
  'workspace/symbol': { query: 'Oak' },
  'workspace/executeCommand': { command: 'soundwood.weigh', arguments: [URI, '14'] },
  'workspace/willRenameFiles': { files: [{ oldUri: 'file:///a/b.jpg', newUri: 'file:///a/c.jpg' }] },
  'soundwood/preview': { ...about, position: at },
  'soundwood/report': { uri: URI },
  'soundwood/page': { rule: 'wall-ratio' },
  'textDocument/willSaveWaitUntil': { ...about, reason: 1 },
  'completionItem/resolve': { label: 'x' },
  'codeLens/resolve': { range },
};
const NOTIFICATIONS: Readonly<Record<string, unknown>> = {
  'textDocument/didOpen': { textDocument: { uri: URI, languageId: 'soundwood', version: 1, text: TEXT } },
  'textDocument/didChange': {
    textDocument: { uri: URI, version: 2 },
    contentChanges: [{ range: { start: at, end: at }, text: ' ' }],
  },
  'textDocument/didClose': { textDocument: { uri: 'untitled:other.wood' } },
  'textDocument/didSave': { ...about, text: TEXT },
  'textDocument/willSave': { ...about, reason: 1 },
  'workspace/didChangeConfiguration': { settings: { soundwood: { today: '2026-06-01' } } },
  'workspace/didChangeWatchedFiles': { changes: [{ uri: 'file:///nowhere/a.wood', type: 2 }] },
  'workspace/didChangeWorkspaceFolders': {
    event: {
      added: [{ uri: 'file:///nowhere/else', name: 'else' }],
      removed: [{ uri: 'file:///nowhere/at/all', name: 'all' }],
    },
  },
  'workspace/didCreateFiles': { files: [{ uri: 'file:///a.wood' }] },
  'workspace/didRenameFiles': { files: [{ oldUri: 'file:///a.wood', newUri: 'file:///b.wood' }] },
  'workspace/didDeleteFiles': { files: [{ uri: 'file:///a.wood' }] },
  'window/workDoneProgress/cancel': { token: 1 },
  '$/cancelRequest': { id: 'never asked' },
  '$/setTrace': { value: 'off' },
  '$/progress': { token: 1, value: {} },
  '$/logTrace': { message: 'x' },
  initialized: {},
};

const ODD = [null, 7, -1, 1e300, '', 'text', '%', 'file:///%zz', true, [], {}, [null], { uri: null }, [[]]];

/** The value with one of its members, at any depth, made odd or taken away. */
function* maimed(value: unknown, odd: readonly unknown[] = ODD): Iterable<unknown> {
  yield* odd;
  if (typeof value !== 'object' || value === null) return;
  for (const [name, member] of Object.entries(value)) {
    const whole = (changed: unknown) =>
      Array.isArray(value) ? value.with(Number(name), changed) : { ...value, [name]: changed };
    for (const changed of maimed(member, odd)) yield whole(changed);
    if (!Array.isArray(value)) yield whole(undefined);
  }
}

let asked = 0;
const open = (wire: Wire) => wire.notify('textDocument/didOpen', NOTIFICATIONS['textDocument/didOpen']);
/** It holds the text as it was opened last, and has figures of its tree. */
async function lives(wire: Wire, behind: string): Promise<void> {
  open(wire);
  const id = `lives ${++asked}`;
  wire.request(id, 'textDocument/hover', { ...about, position: { line: 13, character: 4 } });
  const { result } = await wire.answerTo(id).catch((error: Error) => {
    throw new Error(`Behind ${behind}: ${error.message}`);
  });
  expect(JSON.stringify(result), behind).toContain('cavity A');
}

/** With a folder of its own, and whatever an editor can do that makes the server ask more of it. */
async function editing(given?: string): Promise<Wire> {
  const folder = given ?? mkdtempSync(join(tmpdir(), 'soundwood-'));
  if (!given) onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  writeFileSync(join(folder, 'a.wood'), 'tree 1\n');
  const wire = openWire(PROGRAM);
  const root = pathToFileURL(folder).href;
  wire.request('hello', 'initialize', {
    processId: null,
    workspaceFolders: [{ uri: root, name: 'inventory' }],
    capabilities: {
      workspace: { workspaceFolders: true },
      textDocument: { hover: { contentFormat: ['markdown'] } },
    },
  });
  await wire.answerTo('hello');
  wire.notify('initialized', {});
  return wire;
}

test('requests with a member that is wrong: each is answered, once', async () => {
  const wire = await editing();
  open(wire);
  for (const [method, sound] of Object.entries(REQUESTS)) {
    const ids: string[] = [];
    for (const params of maimed(sound)) {
      const id = `${method} ${ids.length}`;
      ids.push(id);
      wire.request(id, method, params);
    }
    for (const id of ids) await wire.answerTo(id);
    const answers = wire.received.filter(({ id }) => String(id).startsWith(`${method} `));
    expect(answers, method).toHaveLength(ids.length);
    await lives(wire, method);
  }
});

test('notifications with a member that is wrong: what follows is answered', async () => {
  const wire = await editing();
  open(wire);
  for (const [method, sound] of Object.entries(NOTIFICATIONS)) {
    let sent = 0;
    for (const params of maimed(sound)) {
      wire.notify(method, params);
      if (++sent % 40 === 0) await lives(wire, method);
    }
    wire.notify(method);
    await lives(wire, method);
    // The folder that it began with is served still.
    wire.request(method, 'workspace/symbol', { query: 'tree 1' });
    expect(JSON.stringify((await wire.answerTo(method)).result), method).toContain('a.wood');
  }
});

test('initialize with a member that is wrong: it is answered, or may be asked again', async () => {
  const sound = {
    rootUri: null,
    capabilities: { workspace: { workspaceFolders: true }, textDocument: { hover: {} } },
    workspaceFolders: [{ uri: 'file:///nowhere', name: 'x' }],
    initializationOptions: { today: '2026-06-01' },
  };
  let wire = openWire(PROGRAM);
  let tried = 0;
  // Each that is taken ends the life of a process: every second, which of three kinds are all in turn.
  const some = [...maimed(sound, [null, 'text', [null]])].filter((_, i) => i % 2 === 0);
  for (const params of some) {
    const id = `initialize ${++tried}`;
    wire.request(id, 'initialize', params);
    if ((await wire.answerTo(id)).error) continue;
    wire.notify('initialized', {});
    await lives(wire, JSON.stringify(params));
    wire.close();
    wire = openWire(PROGRAM);
  }
  expect(tried).toBeGreaterThan(15);
});

test('pipes that change on disk are not waited for', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const wire = await editing(folder);
  // More than the threads that read files.
  const pipes = Array.from({ length: 8 }, (_, i) => join(folder, `${i}.wood`));
  expect(spawnSync('mkfifo', pipes).status).toBe(0);
  writeFileSync(join(folder, 'b.wood'), 'tree 22\n');
  const changes = [...pipes, join(folder, 'b.wood')].map(path => ({
    uri: pathToFileURL(path).href,
    type: 1,
  }));
  wire.notify('workspace/didChangeWatchedFiles', { changes });
  await lives(wire, 'pipes');
  wire.notify('workspace/didChangeWorkspaceFolders', {
    event: { added: [{ uri: pathToFileURL(folder).href, name: 'again' }], removed: [] },
  });
  await lives(wire, 'a folder with pipes');
  // The folder is read while requests are answered: on a busy machine the first of them comes before that.
  const symbols = async (i: number): Promise<string> => {
    wire.request(`trees ${i}`, 'workspace/symbol', { query: 'tree 22' });
    return JSON.stringify((await wire.answerTo(`trees ${i}`)).result);
  };
  let found = await symbols(0);
  for (let i = 1; i < 2000 && !found.includes('b.wood'); i++) found = await symbols(i);
  expect(found).toContain('b.wood');
  const told = wire.received.map(({ params }) => String(params?.message));
  expect(told.filter(text => text.includes('is a pipe, not a file')).length).toBeGreaterThanOrEqual(8);
});
