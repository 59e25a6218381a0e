/** A scripted editor: starts `soundwood serve` as a process and speaks the protocol with it. */

import { type ChildProcess, spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { onTestFinished } from 'vitest';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node.js';
import type { Diagnostic, Position } from 'vscode-languageserver-types';

export interface Editor {
  readonly connection: MessageConnection;
  readonly process: ChildProcess;
  /** Of a file of the folder; a text without a file is its own. */
  readonly uri: (path: string) => string;
  readonly initialized: { readonly capabilities: Record<string, unknown> };
  /** Opens a document with this text. */
  readonly open: (path: string, text: string) => void;
  readonly request: <T>(method: string, params: unknown) => Promise<T>;
  /** About a document and, where one is given, a position. */
  readonly ask: <T>(method: string, path: string, position?: Position, more?: object) => Promise<T>;
  /** Waits until the diagnostics pushed for a file fulfil a condition. */
  readonly pushed: (
    path: string,
    wanted: (found: readonly Diagnostic[]) => boolean,
  ) => Promise<readonly Diagnostic[]>;
  readonly exitCode: Promise<number | null>;
}

export interface EditorOptions {
  readonly program: string;
  /** Absolute. */
  readonly folder: string;
  readonly today?: string;
  /** Asks for diagnostics instead of being sent them. */
  readonly pulls?: boolean;
  /** Wants to be told how many findings there are where not all are sent. */
  readonly counts?: boolean;
  /** Address that its own pages on rules begin with. */
  readonly pages?: string;
  /** Its name. */
  readonly client?: string;
  /** Says that it can watch files, and can't. */
  readonly refusesToWatch?: boolean;
}

export async function startEditor({
  program,
  folder,
  today = '2026-06-01',
  pulls,
  counts,
  pages,
  client,
  refusesToWatch,
}: EditorOptions): Promise<Editor> {
  const server = spawn(process.execPath, [program, 'serve', '--stdio'], {
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  const exitCode = new Promise<number | null>(resolve => server.once('exit', code => resolve(code)));
  const connection = createMessageConnection(
    new StreamMessageReader(server.stdout!),
    new StreamMessageWriter(server.stdin!),
  );
  onTestFinished(async () => {
    connection.dispose();
    if (server.exitCode === null) server.kill();
    await exitCode;
  });
  const root = pathToFileURL(folder).href;
  const uri = (path: string) => (path.startsWith('untitled:') ? path : `${root}/${path}`);
  const latest = new Map<string, readonly Diagnostic[]>();
  const waiting = new Set<() => void>();
  connection.onNotification(
    'textDocument/publishDiagnostics',
    (params: { uri: string; diagnostics: Diagnostic[] }) => {
      latest.set(params.uri, params.diagnostics);
      for (const look of [...waiting]) look();
    },
  );
  connection.onRequest('client/registerCapability', () => {
    if (refusesToWatch) throw new Error('Not here.');
    return null;
  });
  connection.listen();
  const request: Editor['request'] = (method, params) => connection.sendRequest(method, params);
  const initialized = await request<Editor['initialized']>('initialize', {
    processId: process.pid,
    ...(client === undefined ? {} : { clientInfo: { name: client } }),
    rootUri: root,
    workspaceFolders: [{ uri: root, name: 'inventory' }],
    initializationOptions: {
      today,
      ...(pages === undefined ? {} : { pages }),
      ...(counts ? { counts } : {}),
    },
    capabilities: {
      workspace: { workspaceFolders: true, didChangeWatchedFiles: { dynamicRegistration: true } },
      textDocument: {
        hover: { contentFormat: ['markdown', 'plaintext'] },
        completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] } },
        ...(pulls ? { diagnostic: {} } : {}),
      },
    },
  });
  void connection.sendNotification('initialized', {});
  return {
    connection,
    process: server,
    uri,
    initialized,
    request,
    exitCode,
    open: (path, text) =>
      void connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri: uri(path), languageId: 'soundwood', version: 1, text },
      }),
    ask: (method, path, position, more = {}) =>
      request(method, { textDocument: { uri: uri(path) }, ...(position ? { position } : {}), ...more }),
    pushed: (path, wanted) =>
      new Promise(resolve => {
        const look = () => {
          const found = latest.get(uri(path));
          if (!found || !wanted(found)) return;
          waiting.delete(look);
          resolve(found);
        };
        waiting.add(look);
        look();
      }),
  };
}
