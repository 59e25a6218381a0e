/**
 * The server as a process: on standard input and output, or on the channel that its command line names
 * (`--node-ipc`, `--pipe`, `--socket`).
 */

import { existsSync, realpathSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Transform } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
import glob from 'fast-glob';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import { localToday } from './clock.ts';
import type { SourceText } from './files.ts';
import { Frames } from './frames.ts';
import { readPhotos } from './node-photos.ts';
import { serve } from './server.ts';

/** How far up a site or a practice block is looked for where no repository bounds it, as on the command line. */
const FOLDERS_UP = 5;

/** The .wood files right in the folders above, and the outermost folder that has any. */
async function above(folder: string): Promise<{ base: string; paths: readonly string[] }> {
  let base = folder;
  const paths: string[] = [];
  for (let at = folder, level = 0; level <= FOLDERS_UP; level++) {
    const entries = await readdir(at, { withFileTypes: true }).catch(() => []);
    const found = entries.filter(entry => entry.isFile() && entry.name.endsWith('.wood'));
    if (at !== folder && found.length > 0) {
      base = at;
      paths.push(...found.map(({ name }) => join(at, name)));
    }
    if (entries.some(({ name }) => name === '.git') || dirname(at) === at) break;
    at = dirname(at);
  }
  return { base, paths };
}

/** UTF-8 with or without byte order mark. */
const textOf = async (path: string): Promise<string> =>
  new TextDecoder('utf-8', { fatal: true }).decode(await readFile(path));

const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));
const addressOf = (path: string): string => pathToFileURL(path).href;

const pages = new Map<string, string | undefined>();

/** The page on a rule, where the pages lie beside the folder of the program. */
function pageOf(rule: string): string | undefined {
  if (!pages.has(rule)) {
    // The program may be started by a link to it.
    const program = process.argv[1] === undefined ? '.' : realpathSync(process.argv[1]);
    const page = new URL(`../rules/pages/${rule}.md`, pathToFileURL(program));
    pages.set(rule, /^[a-z-]+$/.test(rule) && existsSync(page) ? page.href : undefined);
  }
  return pages.get(rule);
}

/** Standard input, without what is no message; ends the process where nothing can be made out any more. */
function standardInput(): NodeJS.ReadableStream {
  const frames = new Frames();
  const messages = new Transform({
    transform(chunk: Uint8Array, _encoding, done) {
      try {
        for (const message of frames.take(chunk)) this.push(message);
        done();
      } catch (error) {
        done(error as Error);
      }
    },
  });
  messages.on('error', error => {
    process.stderr.write(`soundwood: ${error.message}\n`);
    process.exit(1);
  });
  return process.stdin.pipe(messages);
}

const connection = process.argv.some(argument => /^--(?:node-ipc|pipe|socket)/.test(argument))
  ? createConnection(ProposedFeatures.all)
  : createConnection(ProposedFeatures.all, standardInput(), process.stdout);

serve(connection, {
  files: {
    async folder(uri) {
      const folder = fileURLToPath(uri);
      const inside = await glob('**/*.wood', {
        cwd: folder,
        absolute: true,
        followSymbolicLinks: false,
        ignore: ['**/node_modules/**'],
        suppressErrors: true,
      });
      const { base, paths } = await above(folder);
      const problems: string[] = [];
      const files: SourceText[] = [];
      for (const path of [...inside, ...paths]) {
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
  },
  today: localToday,
  pageOf,
});
