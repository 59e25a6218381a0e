/** The wire to a language server, without any library between: bytes in, messages out. */

import { spawn } from 'node:child_process';
import { onTestFinished } from 'vitest';

export interface Answer {
  readonly id?: number | string | null;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
  readonly method?: string;
  readonly params?: Readonly<Record<string, unknown>>;
}

export interface Wire {
  /** Bytes as they are. */
  readonly write: (bytes: string | Uint8Array) => void;
  /** Closes the server's standard input. */
  readonly close: () => void;
  readonly request: (id: number | string, method: string, params?: unknown) => void;
  readonly notify: (method: string, params?: unknown) => void;
  /** The next message that fulfils a condition, looked for among all that came; ends where the server does. */
  readonly wait: (wanted: (message: Answer) => boolean) => Promise<Answer>;
  readonly answerTo: (id: number | string) => Promise<Answer>;
  readonly received: readonly Answer[];
  readonly exitCode: Promise<number | null>;
}

/** A message of the protocol with its header (LSP 3.17, Base protocol). */
export function framed(message: unknown): Buffer {
  const body = Buffer.from(typeof message === 'string' ? message : JSON.stringify(message));
  return Buffer.concat([Buffer.from(`Content-Length: ${body.length}\r\n\r\n`), body]);
}

export function openWire(program: string): Wire {
  const server = spawn(process.execPath, [program, 'serve', '--stdio'], {
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  const exitCode = new Promise<number | null>(resolve => server.once('exit', code => resolve(code)));
  onTestFinished(async () => {
    if (server.exitCode === null) server.kill();
    await exitCode;
  });
  server.stdin.on('error', () => {});
  const received: Answer[] = [];
  const waiting = new Set<() => void>();
  let rest = Buffer.alloc(0);
  server.stdout.on('data', (chunk: Buffer) => {
    rest = Buffer.concat([rest, chunk]);
    for (;;) {
      const end = rest.indexOf('\r\n\r\n');
      if (end < 0) break;
      const length = Number(/Content-Length: (\d+)/i.exec(rest.toString('latin1', 0, end))![1]);
      if (rest.length < end + 4 + length) break;
      received.push(JSON.parse(rest.toString('utf8', end + 4, end + 4 + length)) as Answer);
      rest = rest.subarray(end + 4 + length);
    }
    for (const look of [...waiting]) look();
  });
  const send = (message: object) => void server.stdin.write(framed({ jsonrpc: '2.0', ...message }));
  const wait: Wire['wait'] = wanted =>
    new Promise((resolve, reject) => {
      const look = () => {
        const found = received.find(wanted);
        if (!found) return;
        waiting.delete(look);
        resolve(found);
      };
      waiting.add(look);
      look();
      void exitCode.then(code =>
        reject(new Error(`The server ended with ${code} and gave no such message.`)),
      );
    });
  return {
    write: bytes => void server.stdin.write(bytes),
    close: () => server.stdin.end(),
    request: (id, method, params) => send({ id, method, params }),
    notify: (method, params) => send({ method, params }),
    wait,
    answerTo: id => wait(message => message.id === id && message.method === undefined),
    received,
    exitCode,
  };
}

/** Initialized, with no folder. */
export async function opened(program: string, capabilities: object = {}): Promise<Wire> {
  const wire = openWire(program);
  wire.request('hello', 'initialize', { processId: null, rootUri: null, capabilities });
  await wire.answerTo('hello');
  wire.notify('initialized', {});
  return wire;
}
