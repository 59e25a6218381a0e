/** Where texts live on the page: folders, other programs, what can't be opened; new versions; and what it weighs. */

import { spawnSync } from 'node:child_process';
import { appendFile, cp, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import sirv from 'sirv';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { generateTrees, printTrees } from '../../server/bench/inventory.ts';
import { PROGRAM } from '../built.ts';
import { openChromium, withoutBrowser } from './chromium.ts';
import {
  DESKTOP,
  finding,
  isKept,
  openPage,
  personOf,
  type Served,
  servePage,
  textOf,
  type,
} from './page.ts';

/** What may be loaded until the first finding is there, compressed, in bytes. */
const MOST_LOADED = 700_000;

describe.skipIf(withoutBrowser)('in Chromium', () => {
  let browser: Browser;
  let served: Served;

  beforeAll(async () => {
    served = await servePage();
    browser = await openChromium();
  });
  afterAll(async () => {
    await browser?.close();
    served?.end();
  });

  const person = async (options?: Parameters<Browser['newContext']>[0]) => {
    const one = await personOf(browser, served.address, options);
    onTestFinished(() => one.context.close());
    return one;
  };
  const open = (context: BrowserContext) => openPage(context, served.address);
  const alert = (page: Page, words: string) => page.getByRole('alert').filter({ hasText: words });
  const menu = async (page: Page, name: string) => {
    await page.locator('summary').first().click();
    await page.getByRole('button', { name }).click();
  };
  const files = (page: Page) => page.locator('select[aria-label=File] option').allInnerTexts();

  /** The page with a folder on the disk, which here is one of the browser's own. */
  async function openFolder(page: Page) {
    await page.evaluate(async () => {
      const root = await navigator.storage.getDirectory();
      const folder = await root.getDirectoryHandle('grove', { create: true });
      const write = async (path: string, text: string) => {
        const stream = await (await folder.getFileHandle(path, { create: true })).createWritable();
        await stream.write(text);
        await stream.close();
      };
      await write('a.wood', 'tree 1\r\n  dbh 40 cm\r\n');
      await write('b.wood', 'tree 2\n  dbh 40 cm\n');
      Object.assign(globalThis, {
        showDirectoryPicker: async () => folder,
        otherProgram: {
          write,
          read: async (path: string) => (await (await folder.getFileHandle(path)).getFile()).text(),
          remove: (path: string) => folder.removeEntry(path),
        },
      });
    });
    await menu(page, 'Open a folder');
    await page.locator('summary', { hasText: 'grove' }).waitFor();
    const otherProgram = (deed: 'write' | 'read' | 'remove', path: string, text = '') =>
      page.evaluate(
        ([deed, path, text]) =>
          (
            globalThis as unknown as {
              otherProgram: Record<string, (path: string, text: string) => Promise<string>>;
            }
          ).otherProgram[deed!]!(path!, text!),
        [deed, path, text],
      );
    /** As when the person comes back from the other program. */
    const comeBack = () => page.evaluate(() => dispatchEvent(new Event('focus')));
    return { otherProgram, comeBack };
  }

  test('a folder: what other programs write is taken in, and asked about where both wrote', async () => {
    const { context, deeds } = await person();
    const page = await open(context);
    const { otherProgram, comeBack } = await openFolder(page);
    await expect.poll(() => textOf(page)).toContain('dbh 40 cm');
    await otherProgram('write', 'a.wood', 'tree 1\r\n  dbh 50 cm\r\n  height 3000 m\r\n');
    await otherProgram('write', 'c.wood', 'tree 3\n');
    await comeBack();
    await expect.poll(() => textOf(page)).toContain('dbh 50 cm');
    await expect.poll(() => files(page)).toEqual(['a.wood', 'b.wood', 'c.wood']);
    // The server knows it too.
    await finding(page, 'a.wood, line 3').waitFor();
    await type(page, '# here\n');
    await expect
      .poll(() => otherProgram('read', 'a.wood'))
      .toBe('# here\r\ntree 1\r\n  dbh 50 cm\r\n  height 3000 m\r\n');
    await isKept(page);
    await otherProgram('write', 'a.wood', '# there\r\n');
    await type(page, '# here too\n');
    await alert(page, 'a.wood was changed both here and by another program').waitFor();
    expect(await otherProgram('read', 'a.wood')).toBe('# there\r\n');
    await page.getByRole('button', { name: 'Use the other version' }).click();
    await expect.poll(() => textOf(page)).toBe('# there\n');
    // What was here is not gone.
    await page.locator('.cm-content').click();
    await page.keyboard.press('Control+z');
    await expect.poll(() => textOf(page)).toContain('# here too');
    await expect.poll(() => otherProgram('read', 'a.wood')).toContain('# here too\r\n# here\r\n');
    await otherProgram('remove', 'b.wood');
    await comeBack();
    await expect.poll(() => files(page)).toEqual(['a.wood', 'c.wood']);
    expect(deeds).toEqual([]);
  });

  test('a file is deleted after a question, and can be brought back', async () => {
    const { context } = await person();
    const page = await open(context);
    await isKept(page);
    page.removeAllListeners('dialog');
    page.on('dialog', dialog => void dialog.accept());
    await menu(page, 'Delete this file');
    await page.getByText('sample.wood was deleted.').waitFor();
    await expect.poll(() => files(page)).toEqual([]);
    await expect.poll(() => page.locator('.findings li').count()).toBe(0);
    await page.getByText('There is no file in this inventory').waitFor();
    // What writes into a text is gone with it.
    expect(await page.getByRole('toolbar').count()).toBe(0);
    await page.getByRole('button', { name: 'Restore it' }).click();
    await expect.poll(() => textOf(page)).toContain('Fernhollow Court');
    await finding(page, 'Cavity A').waitFor();
  });

  test('what can not be opened is said, and what was open stays', async () => {
    const { context } = await person();
    const page = await open(context);
    await type(page, '# mine\n');
    const take = async (name: string, buffer: Buffer) => {
      await page.locator('summary').first().click();
      await page.locator('.menu input[type=file]').setInputFiles({ name, mimeType: '', buffer });
    };
    await take('broken.zip', Buffer.from('no ZIP'));
    await alert(page, 'broken.zip is damaged, or no ZIP').waitFor();
    await take('letter.txt', Buffer.from('Dear'));
    await alert(page, 'There is no inventory in letter.txt').waitFor();
    expect(await textOf(page)).toContain('# mine');
    await take('old.wood', Buffer.from('tree 1\n# caf\xe9\n', 'latin1'));
    await alert(page, 'old.wood is not UTF-8 text; save it as UTF-8').waitFor();
    expect(await files(page)).toEqual([]);
  });

  test('a browser that keeps nothing says so, and works', async () => {
    const { context, deeds } = await person();
    await context.addInitScript(() => {
      Object.defineProperty(globalThis, 'indexedDB', { get: () => undefined });
      Object.defineProperty(globalThis, 'localStorage', {
        get: () => {
          throw new DOMException('No.', 'SecurityError');
        },
      });
    });
    const page = await open(context);
    await alert(page, 'This browser does not store anything').waitFor();
    await finding(page, 'Cavity A').waitFor();
    await type(page, '# typed\n');
    await page.getByRole('status').filter({ hasText: 'Not kept' }).waitFor();
    expect(deeds).toEqual([]);
  });

  test('a dropped folder opens with all that is in it', async () => {
    const { context } = await person();
    const page = await open(context);
    const folder = await mkdtemp(join(tmpdir(), 'soundwood-drop-'));
    onTestFinished(() => rm(folder, { recursive: true }));
    const grove = join(folder, 'grove');
    await mkdir(join(grove, 'north'), { recursive: true });
    await writeFile(join(grove, 'a.wood'), 'tree 1\n  dbh 40 cm\n');
    await writeFile(join(grove, 'north', 'b.wood'), 'tree 2\n');
    await writeFile(join(grove, 'letter.txt'), 'Dear');
    const session = await context.newCDPSession(page);
    const drag = (type: 'dragEnter' | 'dragOver' | 'drop') =>
      session.send('Input.dispatchDragEvent', {
        type,
        x: 300,
        y: 300,
        data: { items: [], files: [grove], dragOperationsMask: 1 },
      });
    for (const step of ['dragEnter', 'dragOver', 'drop'] as const) await drag(step);
    await page.locator('summary', { hasText: 'grove' }).waitFor();
    expect(await files(page)).toEqual(['a.wood', 'north/b.wood']);
    await expect.poll(() => textOf(page)).toContain('dbh 40 cm');
  });

  test('a newer version of the page waits until somebody asks for it', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'soundwood-page-'));
    onTestFinished(() => rm(folder, { recursive: true }));
    await cp(join(dirname(PROGRAM), 'page'), folder, { recursive: true });
    const server = createServer(sirv(folder, { dev: true }));
    await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
    onTestFinished(() => {
      server.closeAllConnections();
      server.close();
    });
    const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
    const { context, deeds } = await personOf(browser, address);
    onTestFinished(() => context.close());
    const page = await openPage(context, address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await type(page, '# typed before\n');
    await isKept(page);
    expect(await page.getByText('A newer version').count()).toBe(0);
    await appendFile(join(folder, 'service-worker.js'), '\n// newer\n');
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
    const load = page.getByRole('button', { name: 'Load it' });
    await load.waitFor();
    const reloaded = page.waitForEvent('load');
    await load.click();
    await reloaded;
    await expect.poll(() => textOf(page)).toContain('# typed before');
    expect(await page.getByText('A newer version').count()).toBe(0);
    expect(deeds).toEqual([]);
  });

  test('ten thousand trees open and are edited, and the numbers are those of the program', async () => {
    const { context, deeds } = await person();
    const page = await open(context);
    const trees = printTrees(generateTrees(10_000));
    const folder = await mkdtemp(join(tmpdir(), 'soundwood-many-'));
    onTestFinished(() => rm(folder, { recursive: true }));
    const file = join(folder, 'many.wood');
    const checked = async (text: string) => {
      await writeFile(file, text);
      const { stdout } = spawnSync(
        process.execPath,
        [PROGRAM, 'check', '--format', 'json', '--on', '2026-06-01', file],
        { encoding: 'utf8', maxBuffer: 100_000_000 },
      );
      const { findings } = JSON.parse(stdout) as { findings: { level: string }[] };
      const count = (level: string) => findings.filter(one => one.level === level).length;
      return { errors: count('error'), warnings: count('warning') };
    };
    const isSaid = async ({ errors, warnings }: { errors: number; warnings: number }) => {
      await page.locator('.count', { hasText: String(errors + warnings) }).waitFor();
      await page.getByText(`There are ${errors} errors and ${warnings} warnings`).waitFor();
    };
    const before = await checked(trees);
    expect(before.errors + before.warnings).toBeGreaterThan(100);
    await page.locator('summary').first().click();
    await page.locator('.menu input[type=file]').setInputFiles(file);
    await isSaid(before);
    // Of a long list some are shown, and more where somebody asks.
    await expect.poll(() => page.locator('.findings li').count()).toBe(100);
    await page.getByRole('button', { name: 'Show more' }).click();
    await expect.poll(() => page.locator('.findings li').count()).toBe(200);
    // At once: words to choose from, which come late on a busy machine, would take the Enter.
    await page.locator('.cm-content').press('Control+Home');
    await page.keyboard.insertText('wrong\n');
    const after = await checked(`wrong\n${trees}`);
    expect(after.errors).toBe(before.errors + 1);
    await isSaid(after);
    await isKept(page);
    await page.keyboard.press('Control+End');
    await page.locator('.cm-activeLine').waitFor();
    await page.keyboard.type('\ntree last\n');
    await page.keyboard.press('Escape');
    await isKept(page);
    await page.reload();
    await page.locator('.cm-content').waitFor();
    await page.locator('.cm-content').click();
    await page.keyboard.press('Control+End');
    await page.locator('.cm-line', { hasText: 'tree last' }).waitFor();
    expect(deeds).toEqual([]);
  });

  test('what is loaded until the first finding is there stays below its bound', async () => {
    const { context } = await person(DESKTOP);
    const loaded = new Map<string, Promise<number>>();
    context.on('response', response =>
      loaded.set(
        response.url(),
        response.body().then(body => gzipSync(body).length),
      ),
    );
    // What is kept for use without a network comes later, and is not waited for.
    await context.route('**/service-worker.js', route => route.abort());
    const page = await context.newPage();
    await page.goto(`${served.address}?on=2026-06-01`);
    await finding(page, 'Cavity A').waitFor();
    const sizes = await Promise.all(
      [...loaded]
        .filter(([url]) => !url.startsWith('blob:'))
        .map(async ([url, size]) => [new URL(url).pathname, await size] as const),
    );
    // The page, the server, and a part of it.
    expect(sizes.length).toBeGreaterThan(3);
    const sum = sizes.reduce((all, [, size]) => all + size, 0);
    expect(sum, JSON.stringify(sizes)).toBeLessThan(MOST_LOADED);
    expect(sum).toBeGreaterThan(MOST_LOADED / 2);
  });
});
