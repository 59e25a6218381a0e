/** A scripted editor over stdio, and what the server behind it uses. */

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { pathToFileURL } from 'node:url';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node.js';

/** Of the server process so far. */
interface Usage {
  /** ms, user and system. */
  readonly cpu: number;
  /** MB at its peak. */
  readonly memory: number;
}

export interface Server {
  readonly connection: MessageConnection;
  readonly process: ChildProcess;
  /** The next diagnostics that are pushed for the document. */
  readonly nextDiagnostics: () => Promise<void>;
  readonly usage: () => Promise<Usage>;
}

/** Makes a Node program answer messages on its channel with what it has used so far. */
const ACCOUNTING = `data:text/javascript,${encodeURIComponent(
  'process.on("message", () => { const u = process.resourceUsage(); process.send({ cpu: (u.userCPUTime + u.systemCPUTime) / 1000, memory: u.maxRSS / 1024 }); }); process.channel.unref();',
)}`;

export interface StartOptions {
  readonly capabilities?: object;
  readonly options?: object;
}

export async function start(
  args: readonly string[],
  folder: string,
  { capabilities = {}, options = {} }: StartOptions = {},
): Promise<Server> {
  const child = spawn(process.execPath, ['--import', ACCOUNTING, ...args], {
    stdio: ['pipe', 'pipe', 'ignore', 'ipc'],
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout!),
    new StreamMessageWriter(child.stdin!),
  );
  let waiting: (() => void) | undefined;
  connection.onNotification('textDocument/publishDiagnostics', () => {
    const resolve = waiting;
    waiting = undefined;
    resolve?.();
  });
  connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) => items.map(() => null));
  connection.onRequest('client/registerCapability', () => null);
  connection.onRequest('window/workDoneProgress/create', () => null);
  connection.onRequest('workspace/diagnostic/refresh', () => null);
  connection.listen();
  const uri = pathToFileURL(folder).href;
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: uri,
    workspaceFolders: [{ uri, name: 'bench' }],
    capabilities,
    initializationOptions: options,
  });
  await connection.sendNotification('initialized', {});
  return {
    connection,
    process: child,
    nextDiagnostics: () => new Promise(resolve => (waiting = resolve)),
    usage: async () => {
      child.send('usage');
      const [used] = await once(child, 'message');
      return used as Usage;
    },
  };
}

export const end = async ({ connection, process }: Server): Promise<void> => {
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  await new Promise(resolve => process.once('exit', resolve));
  connection.dispose();
};
