/** The server as a web worker, with the messages to and from it. */

import {
  BrowserMessageReader,
  BrowserMessageWriter,
  type MessageTransports,
} from 'vscode-languageclient/browser';

/** How often to look, in ms, whether a worker has begun. */
const LOOK = 100;

class WorkerReader extends BrowserMessageReader {
  /** No more messages will come. */
  end(): void {
    this.fireClose();
  }
}

/**
 * Starts a worker and notices its end. Workers end without an event, but the browser then releases the locks they hold:
 * the server holds one with the name of its worker (server/lsp/browser.ts).
 */
export function startWorker(script: string): MessageTransports & { readonly worker: Worker } {
  const name = `soundwood-${crypto.randomUUID()}`;
  const worker = new Worker(script, { name });
  const reader = new WorkerReader(worker);
  let lock: string | undefined;
  worker.addEventListener('error', () => lock ?? reader.end());
  const wait = async () => {
    while (lock === undefined) {
      await new Promise(resolve => setTimeout(resolve, LOOK));
      const { held } = await navigator.locks.query();
      // Editors may put their own words before the name of a worker.
      lock = held?.find(({ name: found }) => found?.endsWith(name))?.name;
    }
    await navigator.locks.request(lock, () => reader.end());
  };
  // Pages that are not secure have no locks: there, only an error is noticed.
  if ('locks' in navigator) wait().catch(() => {});
  return { worker, reader, writer: new BrowserMessageWriter(worker) };
}
