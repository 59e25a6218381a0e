/**
 * The page for browsers, in Chromium: how soon the first finding is there, beside a page with its editor component
 * alone, and what a key costs with many trees, beside the server of desktop editors. A browser slows down the thread of
 * a page and not its workers.
 */

import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import sirv from 'sirv';
import { generateTrees, printTrees } from './inventory.ts';
import { median } from './measure.ts';
import { keysOfServer, type Timing, timing } from './typing.ts';

/** Loaded, not bundled: they look for files beside them. */
const load = createRequire(import.meta.url);
const CLIENT = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'client');
const CHROMIUM = [process.env.BROWSER ?? '', '/usr/bin/chromium', '/usr/bin/chromium-browser'].find(
  path => path !== '' && existsSync(path),
);

/** As slow as many a phone. */
const SLOWER = 4;
const KEYS = 20;

const EDITOR_ALONE = `import { defaultKeymap, history } from '@codemirror/commands';
import { EditorView, keymap, lineNumbers } from '@codemirror/view';
new EditorView({ parent: document.body, extensions: [lineNumbers(), history(), keymap.of(defaultKeymap)] });`;

/** The page, and a page with the editor alone, to this machine. */
async function served(): Promise<{ readonly address: string; readonly end: () => void }> {
  const folder = mkdtempSync(join(tmpdir(), 'soundwood-bench-'));
  spawnSync(process.execPath, [join(CLIENT, 'page', 'build.mjs'), folder], { stdio: 'inherit' });
  const { buildSync } = load('esbuild') as typeof import('esbuild');
  buildSync({
    stdin: { contents: EDITOR_ALONE, resolveDir: CLIENT },
    bundle: true,
    minify: true,
    format: 'esm',
    outfile: join(folder, 'alone.js'),
  });
  writeFileSync(
    join(folder, 'alone.html'),
    '<!doctype html><title>Editor</title><body><script type="module" src="alone.js"></script>',
  );
  const server = createServer(sirv(folder, { dev: true }));
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    end() {
      server.closeAllConnections();
      server.close();
      rmSync(folder, { recursive: true });
    },
  };
}

/** ms from the start of a first visit until something is on the page. */
async function untilThere(browser: Browser, address: string, selector: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 390, height: 780 } });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await page.goto(address, { waitUntil: 'commit' });
  const time = await page.evaluate(
    what =>
      new Promise<number>(resolve => {
        const look = () => {
          if (document.querySelector(what)) resolve(performance.now());
          else setTimeout(look, 5);
        };
        look();
      }),
    selector,
  );
  await context.close();
  return time;
}

/** From a key to its finding in the text, with many trees. */
async function keysOfPage(browser: Browser, address: string, text: string): Promise<Timing> {
  const context = await browser.newContext({ viewport: { width: 1360, height: 820 } });
  const page = await context.newPage();
  await page.goto(`${address}/?on=2026-06-01`);
  await page.locator('.findings li').first().waitFor();
  await page.locator('summary').first().click();
  await page
    .locator('.menu input[type=file]')
    .setInputFiles({ name: 'many.wood', mimeType: '', buffer: Buffer.from(text) });
  await page.locator('summary', { hasText: 'many' }).waitFor();
  await page.locator('.count', { hasText: /\d/ }).waitFor();
  // The first tree has a nest, which bears on others.
  await page.locator('.cm-line', { hasText: 'dbh' }).nth(1).click();
  await page.keyboard.press('End');
  await page.evaluate(() => {
    const keys = globalThis as unknown as { pressed: number };
    keys.pressed = 0;
    addEventListener('keydown', () => (keys.pressed = performance.now()), { capture: true });
  });
  const times: number[] = [];
  for (let i = 0; i < KEYS; i++) {
    const isWrong = i % 2 === 0;
    const shown = page.evaluate(
      wanted =>
        new Promise<number>(resolve => {
          const keys = globalThis as unknown as { pressed: number };
          const look = () => {
            const is = document.querySelector('.cm-activeLine .cm-lintRange-error') !== null;
            if (keys.pressed === 0 || is !== wanted) setTimeout(look, 1);
            else {
              resolve(performance.now() - keys.pressed);
              keys.pressed = 0;
            }
          };
          look();
        }),
      isWrong,
    );
    await page.keyboard.press(isWrong ? 'x' : 'Backspace');
    times.push(await shown);
  }
  await context.close();
  return timing(times);
}

export interface PageTimes {
  /** ms until the first finding of the sample, and until the editor alone, at a first visit. */
  readonly finding: number;
  readonly editor: number;
}

/** Undefined without a browser. */
async function inBrowser<T>(
  measure: (browser: Browser, address: string) => Promise<T>,
): Promise<T | undefined> {
  if (CHROMIUM === undefined) return undefined;
  const { chromium } = load('playwright-core') as typeof import('playwright-core');
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
  const { address, end } = await served();
  try {
    return await measure(browser, address);
  } finally {
    await browser.close();
    end();
  }
}

export const measurePage = (rounds: number): Promise<PageTimes | undefined> =>
  inBrowser(async (browser, address) => {
    const finding: number[] = [];
    const editor: number[] = [];
    for (let i = 0; i < rounds; i++) {
      finding.push(await untilThere(browser, `${address}/?on=2026-06-01`, '.findings li'));
      editor.push(await untilThere(browser, `${address}/alone.html`, '.cm-content'));
    }
    return { finding: median(finding), editor: median(editor) };
  });

export async function paging(count: number): Promise<void> {
  process.stdout.write(
    `\nThe page in Chromium, its thread ${SLOWER} times slower, first visit, median of 5\n`,
  );
  const times = await measurePage(5);
  if (!times) {
    process.stdout.write('  There is no Chromium here.\n');
    return;
  }
  const { finding, editor } = times;
  process.stdout.write(
    `  the editor component alone   ${editor.toFixed(0).padStart(6)} ms\n  the first finding            ${finding.toFixed(0).padStart(6)} ms  ${(finding / editor).toFixed(1)} times the editor alone\n`,
  );
  const text = printTrees(generateTrees(count));
  const desktop = await keysOfServer(count);
  const page = await inBrowser((browser, address) => keysOfPage(browser, address, text));
  if (page)
    process.stdout.write(
      `  ${count} trees, key to finding: the server of desktop editors ${desktop.median.toFixed(0)} (p95 ${desktop.p95.toFixed(0)}) ms, on the page ${page.median.toFixed(0)} (p95 ${page.p95.toFixed(0)}) ms until it is drawn: p95 ${(page.p95 / desktop.p95).toFixed(1)} times\n`,
    );
}
