/**
 * What the requests cost that an editor sends after each key, and how soon an open file of a large folder is answered:
 * over stdio, in the CPU of the server, with reading and writing the messages.
 */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { generateTrees, printTrees } from './inventory.ts';
import { median } from './measure.ts';
import { end, type Server, start } from './serving.ts';

const KEYS = 20;
const WARM_UP = 6;
/** Lines in a window. */
const VISIBLE = 60;
const HOLLOWS = 0.25;

const PROGRAM = join(dirname(fileURLToPath(import.meta.url)), 'soundwood.js');

const CAPABILITIES = {
  textDocument: {
    diagnostic: {},
    semanticTokens: { requests: { range: true, full: { delta: true } }, formats: ['relative'] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    codeLens: {},
    inlayHint: {},
    foldingRange: {},
  },
  workspace: { diagnostics: { refreshSupport: true } },
};

const serving = (folder: string): Promise<Server> =>
  start([PROGRAM, 'serve', '--stdio'], folder, {
    capabilities: CAPABILITIES,
    options: { today: '2026-06-01' },
  });

const open = ({ connection }: Server, uri: string, text: string): Promise<void> =>
  connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'soundwood', version: 1, text },
  });

/** The set of requests after a key; what an editor keeps from one to the next is kept here. */
class Editor {
  private tokens: string | undefined;
  private diagnostics: string | undefined;

  constructor(
    private readonly server: Server,
    private readonly uri: string,
    private readonly line: number,
  ) {}

  readonly requests = {
    diagnostics: async () => {
      const { resultId } = await this.ask<{ resultId: string }>('diagnostic', {
        previousResultId: this.diagnostics,
      });
      this.diagnostics = resultId;
    },
    tokens: async () => {
      const { resultId } = this.tokens
        ? await this.ask<{ resultId?: string }>('semanticTokens/full/delta', {
            previousResultId: this.tokens,
          })
        : await this.ask<{ resultId?: string }>('semanticTokens/full');
      this.tokens = resultId;
    },
    symbols: () => this.ask('documentSymbol'),
    folds: () => this.ask('foldingRange'),
    lenses: async () => {
      // Those in the window are resolved.
      const all = await this.ask<readonly { range: { start: { line: number } } }[]>('codeLens');
      const seen = all.filter(
        ({ range: { start } }) => start.line >= this.line && start.line < this.line + VISIBLE,
      );
      await Promise.all(seen.map(lens => this.server.connection.sendRequest('codeLens/resolve', lens)));
    },
    links: () => this.ask('documentLink'),
    hints: () =>
      this.ask('inlayHint', {
        range: {
          start: { line: this.line, character: 0 },
          end: { line: this.line + VISIBLE, character: 0 },
        },
      }),
  };

  private ask<T = unknown>(method: string, more: object = {}): Promise<T> {
    return this.server.connection.sendRequest(`textDocument/${method}`, {
      textDocument: { uri: this.uri },
      ...more,
    });
  }
}

type Key = 'digit' | 'Enter';

let version = 1;

/** Median CPU, ms, of each request of the set after a key in the middle of the file, and of the change with all of them. */
async function afterKey(
  server: Server,
  editor: Editor,
  uri: string,
  line: number,
  key: Key,
): Promise<readonly (readonly [string, number])[]> {
  const costs = new Map<string, number[]>();
  const measure = async (name: string, work: () => Promise<unknown>) => {
    const before = await server.usage();
    await work();
    const after = await server.usage();
    const list = costs.get(name);
    if (list) list.push(after.cpu - before.cpu);
    else costs.set(name, [after.cpu - before.cpu]);
  };
  const at = { line, character: 14 };
  const behind = key === 'Enter' ? { line: line + 1, character: 0 } : { line, character: 15 };
  const press = (isTyped: boolean) =>
    server.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version: ++version },
      contentChanges: [
        {
          range: { start: at, end: isTyped ? at : behind },
          text: isTyped ? (key === 'Enter' ? '\n' : '1') : '',
        },
      ],
    });
  for (let i = 0; i < KEYS + WARM_UP; i++) {
    if (i === WARM_UP) costs.clear();
    // Apart, since to measure each costs more than some of them.
    await measure('all', async () => {
      await press(true);
      for (const ask of Object.values(editor.requests)) await ask();
    });
    await press(false);
    for (const [name, ask] of Object.entries(editor.requests)) await measure(name, ask);
  }
  return [...costs].map(([name, times]) => [name, median(times)] as const);
}

async function keys(count: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  const text = printTrees(generateTrees(count, 1, HOLLOWS));
  const uri = pathToFileURL(join(folder, 'trees.wood')).href;
  writeFileSync(join(folder, 'trees.wood'), text);
  const server = await serving(folder);
  await open(server, uri, text);
  const lines = text.split('\n');
  const line = lines.findIndex((one, i) => i > lines.length / 2 && one.startsWith('  dbh'));
  const editor = new Editor(server, uri, line);
  for (const key of ['digit', 'Enter'] as const) {
    const costs = await afterKey(server, editor, uri, line, key);
    const all = costs.find(([name]) => name === 'all')![1];
    const each = costs.filter(([name]) => name !== 'all').map(([name, ms]) => `${name} ${ms.toFixed(1)}`);
    process.stdout.write(
      `  ${`${count} trees, ${key}`.padEnd(24)} ${all.toFixed(1).padStart(6)} ms   ${each.join(', ')}\n`,
    );
  }
  await end(server);
  rmSync(folder, { recursive: true });
}

/** ms until the findings of one open file of a folder are there, and what then is known of the rest. */
async function opening(files: number, trees: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  const text = (i: number) => printTrees(generateTrees(trees, i * trees + 1, HOLLOWS));
  for (let i = 0; i < files; i++) writeFileSync(join(folder, `part-${i}.wood`), text(i));
  const uri = pathToFileURL(join(folder, 'part-0.wood')).href;
  const before = performance.now();
  const server = await serving(folder);
  await open(server, uri, text(0));
  const { items } = await server.connection.sendRequest<{ items: readonly unknown[] }>(
    'textDocument/diagnostic',
    { textDocument: { uri } },
  );
  const first = performance.now() - before;
  let sent = items.length;
  let longest = 0;
  server.connection.onNotification('$/progress', ({ value }) => {
    longest = Math.max(longest, value.items?.length ?? 0);
    for (const one of value.items ?? []) sent += one.items?.length ?? 0;
  });
  const rest = await server.connection.sendRequest<{ items: readonly { items?: readonly unknown[] }[] }>(
    'workspace/diagnostic',
    { previousResultIds: [], partialResultToken: 'rest' },
  );
  for (const one of rest.items) sent += one.items?.length ?? 0;
  const all = performance.now() - before;
  const { memory } = await server.usage();
  process.stdout.write(
    `  ${`${files} files of ${trees} trees`.padEnd(24)} first findings ${first.toFixed(0).padStart(6)} ms   all ${(all / 1000).toFixed(1)} s (${sent} findings)   memory ${memory.toFixed(0)} MB at its peak\n`,
  );
  await end(server);
  rmSync(folder, { recursive: true });
}

/** Prints what a key costs with the requests that follow it, and how soon an open file is answered. */
export async function pacing(): Promise<void> {
  process.stdout.write(
    `\nAll that an editor asks after a key, CPU of the server, median of ${KEYS} keys; one in four trees is hollow\n`,
  );
  await keys(500);
  await keys(10_000);
  process.stdout.write('\nFrom the start of the server to the findings of the one open file, wall clock\n');
  await opening(1, 500);
  await opening(200, 500);
}
