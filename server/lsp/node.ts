/**
 * The server as a process, on standard input and output or on the channel given on the command line (`--node-ipc`,
 * `--pipe`, `--socket`).
 */

import { existsSync, realpathSync } from 'node:fs';
import { dirname } from 'node:path';
import { Transform } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import {
  createConnection,
  type Message,
  ProposedFeatures,
  StreamMessageWriter,
} from 'vscode-languageserver/node.js';
import { localToday } from '../host/clock.ts';
import { foldersUp, inventoriesBelow, inventoriesIn, readBytes } from '../host/folders.ts';
import { isPhotoIn, namedFilesBelow, readPhotos } from '../host/photos.ts';

import { Frames } from './frames.ts';
import { forget, written } from './json.ts';
import type { SourceText } from './requests.ts';
import { serve } from './server.ts';
import { uriOf } from './uris.ts';

/** UTF-8 with or without byte order mark. */
const textOf = async (path: string): Promise<string> =>
  new TextDecoder('utf-8', { fatal: true }).decode(await readBytes(path));

const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));
const addressOf = (path: string): string => pathToFileURL(path).href;

const pages = new Map<string, string | undefined>();

/** URI of the page on a rule; undefined if the pages are not installed next to the program's folder. */
function pageOf(rule: string): string | undefined {
  if (!pages.has(rule)) {
    // The program may be started through a symbolic link.
    const program = process.argv[1] === undefined ? '.' : realpathSync(process.argv[1]);
    const page = new URL(`../rules/pages/${rule}.md`, pathToFileURL(program));
    pages.set(rule, /^[a-z-]+$/.test(rule) && existsSync(page) ? page.href : undefined);
  }
  return pages.get(rule);
}

/** Pictures that editors can show. */
const SHOWN = /\.(?:jpe?g|png|webp)$/i;

const log = (text: string) => void process.stderr.write(`soundwood: ${text}\n`);

/** The messages on standard input; anything else is dropped. */
function standardInput(): NodeJS.ReadableStream {
  const frames = new Frames(log);
  const messages = new Transform({
    transform(chunk: Uint8Array, _encoding, done) {
      for (const message of frames.take(chunk)) this.push(message);
      done();
    },
  });
  return process.stdin.pipe(messages);
}

/** Writes messages of which the answer may be bytes already. */
class Writer extends StreamMessageWriter {
  constructor() {
    super(process.stdout, {
      contentTypeEncoder: { name: 'application/json', encode: async message => written(message) },
    });
  }

  override async write(message: Message): Promise<void> {
    await super.write(message).finally(() => forget(message));
  }
}

// A server runs all day beside other programs. The engine would let its memory grow to several times of what is in use
// before it collects any; collecting at 30 % more costs no time that could be measured.
setFlagsFromString('--heap-growing-percent=30');

// An uncaught error costs one answer; the server stays available for the others.
process.on('uncaughtException', (error: NodeJS.ErrnoException) => {
  // The client is gone.
  if (error.code === 'EPIPE') process.exit(1);
  log(error.stack ?? String(error));
});

const connection = process.argv.some(argument => /^--(?:node-ipc|pipe|socket)/.test(argument))
  ? createConnection(ProposedFeatures.all)
  : // The library takes a writer beside a stream; its types do not say so. With a reader it would outlive its client.
    createConnection(ProposedFeatures.all, standardInput(), new Writer() as unknown as NodeJS.WritableStream);

serve(connection, {
  files: {
    async folder(uri) {
      const folder = fileURLToPath(uri);
      const inside = await inventoriesBelow(folder);
      const above = await Promise.all((await foldersUp(folder)).slice(1).map(inventoriesIn));
      // The topmost folder above with inventories.
      const outermost = above.findLast(paths => paths.length > 0)?.[0];
      const base = outermost === undefined ? folder : dirname(outermost);
      const problems = inside.odd.map(({ path, why }) => `${path} ${why}`);
      if (inside.closed) problems.push(`${inside.closed.path} was not read: ${reason(inside.closed.error)}`);
      const files: SourceText[] = [];
      for (const path of [...inside.paths, ...above.flat()]) {
        try {
          files.push({ uri: addressOf(path), text: await textOf(path) });
        } catch (error) {
          problems.push(`${path} was not read: ${reason(error)}`);
        }
      }
      return { base: addressOf(base), files, problems };
    },
    read: uri =>
      textOf(fileURLToPath(uri)).catch((error: NodeJS.ErrnoException) => {
        if (error.code === 'ENOENT') return undefined;
        throw error;
      }),
    photos: async (folder, paths) =>
      folder.startsWith('file:') ? readPhotos(fileURLToPath(folder), paths) : new Map(),
    namedPaths: async folder => (folder.startsWith('file:') ? namedFilesBelow(fileURLToPath(folder)) : []),
    photoPicture: async (folder, path) =>
      folder.startsWith('file:') && SHOWN.test(path) && (await isPhotoIn(fileURLToPath(folder), path))
        ? uriOf(folder, path)
        : undefined,
  },
  today: localToday,
  pageOf,
});
