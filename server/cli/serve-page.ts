/** `soundwood serve --page`: the page for browsers, to this machine alone. */

import { existsSync, realpathSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { dirname, join } from 'node:path';
import sirv from 'sirv';
import { UserError } from '../base/user-error.ts';
import { EXIT_CLEAN, type Io } from './io.ts';

/** Beside the program, wherever it lies: in its repository, and next to it. */
const FOLDERS = [join('..', '..', 'client', 'dist', 'page'), 'page'];

const LOOPBACK = '127.0.0.1';

/**
 * Serves the page until the process is told to end. @throws UserError where the page is not built or the port is taken
 * @param port 0 for any that is free
 */
export async function servePage(port: number, io: Io): Promise<number> {
  const program = dirname(process.argv[1] === undefined ? '.' : realpathSync(process.argv[1]));
  const folder = FOLDERS.map(one => join(program, one)).find(one => existsSync(join(one, 'index.html')));
  if (folder === undefined) throw new UserError('the page has not been built: run npm run page.');
  const files = sirv(folder, { dev: true });
  const server = createServer((request, response) =>
    files(request, response, () => {
      response.statusCode = 404;
      response.end('Not found.\n');
    }),
  );
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, LOOPBACK, resolve);
  }).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(
      error.code === 'EADDRINUSE' ? `port ${port} is in use: choose another one with --port.` : error.message,
    );
  });
  io.out(`http://${LOOPBACK}:${(server.address() as AddressInfo).port}/\n`);
  await new Promise<void>(resolve => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, resolve);
  });
  server.closeAllConnections();
  server.close();
  return EXIT_CLEAN;
}
