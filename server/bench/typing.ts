/** What a keystroke costs in an editor: scripted clients over stdio, and a JSON service asked in the same process. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { generateTrees, printTrees, TREES_SCHEMA } from './inventory.ts';
import { end, type Server, start } from './serving.ts';

/** Loaded, not bundled: its module format defeats bundlers. */
const { getLanguageService, TextDocument } = createRequire(import.meta.url)(
  'vscode-json-languageservice',
) as typeof import('vscode-json-languageservice');

const KEYSTROKES = 60;

export interface Timing {
  readonly median: number;
  readonly p95: number;
}

export function timing(values: readonly number[]): Timing {
  const sorted = [...values].sort((a, b) => a - b);
  return { median: sorted[sorted.length >> 1]!, p95: sorted[Math.floor(sorted.length * 0.95)]! };
}

/** Opens a document, types digits into one of its lines, asks for hovers; milliseconds each. */
async function type(
  server: Server,
  languageId: string,
  uri: string,
  text: string,
  line: number,
  character: number,
) {
  const opened = server.nextDiagnostics();
  const before = performance.now();
  await server.connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId, version: 1, text },
  });
  await opened;
  const open = performance.now() - before;
  const keys: number[] = [];
  const hovers: number[] = [];
  for (let i = 0; i < KEYSTROKES; i++) {
    const answered = server.nextDiagnostics();
    const pressed = performance.now();
    const isTyping = i % 2 === 0;
    await server.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version: i + 2 },
      contentChanges: [
        {
          range: { start: { line, character }, end: { line, character: character + (isTyping ? 0 : 1) } },
          text: isTyping ? '1' : '',
        },
      ],
    });
    await answered;
    keys.push(performance.now() - pressed);
    const asked = performance.now();
    await server.connection.sendRequest('textDocument/hover', {
      textDocument: { uri },
      position: { line, character: 3 },
    });
    hovers.push(performance.now() - asked);
  }
  return { open, keys: timing(keys), hovers: timing(hovers) };
}

const show = (name: string, open: number, keys: Timing, hovers: Timing | undefined) =>
  `  ${name.padEnd(40)} open ${open.toFixed(0).padStart(6)} ms   keystroke ${keys.median.toFixed(1).padStart(7)} (p95 ${keys.p95.toFixed(1)}) ms${
    hovers ? `   hover ${hovers.median.toFixed(1)} (p95 ${hovers.p95.toFixed(1)}) ms` : ''
  }\n`;

/** What a key costs in the server, by one that types into a file with so many trees. */
export const keysOfServer = async (count: number): Promise<Timing> => (await typed(count)).keys;

async function typed(count: number) {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  const text = printTrees(generateTrees(count));
  const file = join(folder, 'trees.wood');
  writeFileSync(file, text);
  const line = text.split('\n').findIndex((one, i) => i > 200 && one.startsWith('  dbh'));
  const program = join(dirname(fileURLToPath(import.meta.url)), 'soundwood.js');
  const server = await start([program, 'serve', '--stdio'], folder, { options: { today: '2026-06-01' } });
  const found = await type(server, 'soundwood', pathToFileURL(file).href, text, line, 14);
  await end(server);
  rmSync(folder, { recursive: true });
  return found;
}

async function soundwood(count: number): Promise<void> {
  const { open, keys, hovers } = await typed(count);
  process.stdout.write(show(`soundwood, ${count} trees`, open, keys, hovers));
}

async function yaml(count: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  const text = generateTrees(count)
    .map(tree => `- ${JSON.stringify(tree)}\n`)
    .join('');
  const server = await start(
    [fileURLToPath(import.meta.resolve('yaml-language-server/bin/yaml-language-server')), '--stdio'],
    folder,
  );
  const at = text.indexOf('"low":') + 6;
  const { open, keys } = await type(
    server,
    'yaml',
    pathToFileURL(join(folder, 'trees.yaml')).href,
    text,
    0,
    at,
  );
  await end(server);
  rmSync(folder, { recursive: true });
  process.stdout.write(show(`yaml-language-server, ${count} records, push`, open, keys, undefined));
}

async function json(count: number): Promise<void> {
  const service = getLanguageService({});
  service.configure({
    validate: true,
    schemas: [{ uri: 'bench://trees', fileMatch: ['*'], schema: TREES_SCHEMA as object }],
  });
  const text = JSON.stringify(generateTrees(count));
  const validate = async (version: number, changed: string): Promise<number> => {
    const before = performance.now();
    const document = TextDocument.create('file:///trees.json', 'json', version, changed);
    await service.doValidation(document, service.parseJSONDocument(document));
    return performance.now() - before;
  };
  const open = await validate(1, text);
  const at = text.indexOf('"low":') + 6;
  const keys: number[] = [];
  for (let i = 0; i < KEYSTROKES / 3; i++)
    keys.push(await validate(i + 2, i % 2 === 0 ? `${text.slice(0, at)}1${text.slice(at)}` : text));
  process.stdout.write(
    show(`vscode-json-languageservice, ${count} records, pull`, open, timing(keys), undefined),
  );
}

/** Prints what opening, a keystroke and a hover cost. */
export async function typing(): Promise<void> {
  process.stdout.write(
    `\nIn an editor, ${KEYSTROKES} keystrokes, wall clock; a keystroke ends when the diagnostics are there\n`,
  );
  await soundwood(10_000);
  await json(10_000);
  await yaml(1_000);
  await soundwood(100_000);
}
