/** The server as a worker of a browser: one script, no node, files from the editor. */

import { readFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { expect, onTestFinished, test } from 'vitest';
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  createMessageConnection,
  type DataCallback,
  type Message,
  type MessageConnection,
} from 'vscode-languageserver/node.js';
import type { Diagnostic } from 'vscode-languageserver-types';
import { extensionFile } from '../built.ts';
import { photo, tagsOf } from '../mechanics/exif-file.ts';

/** What a browser's worker has and this one does not. */
const SCOPE = `
const { parentPort } = require('node:worker_threads');
globalThis.self = globalThis;
globalThis.postMessage = message => parentPort.postMessage(message);
const events = new EventTarget();
globalThis.addEventListener = (...given) => events.addEventListener(...given);
parentPort.on('message', data => {
  const event = Object.assign(new Event('message'), { data });
  globalThis.onmessage?.(event);
  events.dispatchEvent(event);
});
globalThis.require = undefined;
`;

const SCRIPT = readFileSync(extensionFile('server-browser.js'), 'utf8');

class Reader extends AbstractMessageReader {
  constructor(private readonly worker: Worker) {
    super();
  }
  listen(callback: DataCallback) {
    const heard = (message: Message) => callback(message);
    this.worker.on('message', heard);
    return { dispose: () => void this.worker.off('message', heard) };
  }
}

class Writer extends AbstractMessageWriter {
  constructor(private readonly worker: Worker) {
    super();
  }
  async write(message: Message) {
    this.worker.postMessage(message);
  }
  end() {}
}

async function startWorker(): Promise<MessageConnection> {
  const worker = new Worker(`${SCOPE}\n(() => { const require = undefined; ${SCRIPT} })();`, {
    eval: true,
  });
  onTestFinished(async () => void (await worker.terminate()));
  return createMessageConnection(new Reader(worker), new Writer(worker));
}

test('a worker asks the editor for the files and serves them', async () => {
  const connection = await startWorker();
  const root = 'vscode-vfs://host/inventory';
  const asked: unknown[] = [];
  let people = 'person RV "Ruth Varga"\n';
  connection.onRequest('soundwood/files', (params: unknown) => {
    asked.push(params);
    return [
      { uri: `${root}/people.wood`, text: people },
      { uri: `${root}/lawn%20one.wood`, text: 'tree 1\n  inspection 2026-03-14 from ground\n    by RV\n' },
      { uri: 'vscode-vfs://host/elsewhere/x.wood', text: 'tree 1\n' },
    ];
  });
  const latest = new Map<string, readonly Diagnostic[]>();
  let look = () => {};
  connection.onNotification(
    'textDocument/publishDiagnostics',
    (params: { uri: string; diagnostics: Diagnostic[] }) => {
      latest.set(params.uri, params.diagnostics);
      look();
    },
  );
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: null,
    rootUri: root,
    workspaceFolders: [{ uri: root, name: 'inventory' }],
    initializationOptions: { on: '2026-06-01' },
    capabilities: {},
  });
  void connection.sendNotification('initialized', {});
  const found = await connection.sendRequest<{ location: { uri: string } }[]>('workspace/symbol', {
    query: '',
  });
  expect(found.map(({ location }) => location.uri)).toEqual([
    `${root}/lawn%20one.wood`,
    `${root}/people.wood`,
  ]);
  expect(asked).toEqual([{ folder: root }]);

  people = 'person XY "Ruth Varga"\n';
  const unknown = new Promise<void>(resolve => {
    look = () => {
      if (latest.get(`${root}/lawn%20one.wood`)?.some(({ code }) => code === 'unknown-reference')) resolve();
    };
  });
  void connection.sendNotification('workspace/didChangeWatchedFiles', {
    changes: [{ uri: `${root}/people.wood`, type: 2 }],
  });
  await unknown;
  expect(asked).toHaveLength(2);
});

test('it asks for the heads of photographs, and says what they and the text disagree on', async () => {
  const connection = await startWorker();
  const root = 'vscode-vfs://host/inventory';
  const text = `tree 1
  photo photos/there.jpg
  inspection 2026-03-14 from ground
    photo photos/old.jpg
    photo photos/gone.jpg
    photo photos/unknown.jpg
`;
  connection.onRequest('soundwood/files', () => [{ uri: `${root}/a.wood`, text }]);
  const asked = new Promise<unknown>(resolve => {
    connection.onRequest('soundwood/photos', (params: unknown) => {
      resolve(params);
      const head = photo(tagsOf({ takenAt: '2025-03-14T10:00:00' }).exif);
      return [
        { path: 'photos/old.jpg', missing: false, head },
        { path: 'photos/gone.jpg', missing: true },
        { path: 'photos/there.jpg', missing: false },
      ];
    });
  });
  const found = new Promise<readonly Diagnostic[]>(resolve => {
    connection.onNotification(
      'textDocument/publishDiagnostics',
      ({ diagnostics }: { diagnostics: readonly Diagnostic[] }) => {
        const photos = diagnostics.filter(({ code }) => String(code).startsWith('photo-'));
        if (photos.length > 0) resolve(photos);
      },
    );
  });
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: null,
    rootUri: root,
    initializationOptions: { on: '2026-06-01' },
    capabilities: {},
  });
  void connection.sendNotification('initialized', {});
  expect(await asked).toMatchObject({
    folder: root,
    paths: ['photos/there.jpg', 'photos/old.jpg', 'photos/gone.jpg', 'photos/unknown.jpg'],
  });
  expect((await found).map(({ code, range }) => `${range.start.line} ${code}`)).toEqual([
    '3 photo-date-disagrees',
    '4 photo-missing',
  ]);
});
