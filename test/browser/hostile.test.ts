/**
 * Hostile texts in a real browser: in the report, with its policy and without it, so that escaping alone has to hold,
 * and in the pictures opened by themselves. Nothing runs, nothing is asked for, no element is made of a text.
 */

import { writeFile } from 'node:fs/promises';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Folder, folderWith } from '../cli/folder.ts';
import { HOSTILE_TEXTS, inventoryOf } from '../trust/hostile.ts';
import { newPage, openChromium, withoutBrowser } from './chromium.ts';

/** In its place, a text that no reader makes more of; taken as the path of a photograph it leads as far. */
const harmless = (text: string): string => (/^\w+:|^\\/.test(text) ? 'plain: text' : 'plain text');

const inventories = (texts: readonly string[]) =>
  folderWith(Object.fromEntries(texts.map((text, i) => [`${i}/a.wood`, inventoryOf(text, `T${i}`)])));

describe.skipIf(withoutBrowser)('in Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openChromium();
  });
  afterAll(() => browser?.close());

  /** A page, and what it did beside being shown. */
  async function watched(): Promise<{ readonly page: Page; readonly deeds: readonly string[] }> {
    const page = await newPage(browser);
    const deeds: string[] = [];
    page.on('request', request => {
      if (!request.isNavigationRequest() && !request.url().startsWith('data:'))
        deeds.push(`asked for ${request.url()}`);
    });
    page.on('framenavigated', frame => {
      if (frame.parentFrame()) deeds.push(`frame ${frame.url()}`);
    });
    page.on('console', message => deeds.push(message.text()));
    page.on('pageerror', error => deeds.push(String(error)));
    page.on('popup', popup => deeds.push(`opened ${popup.url()}`));
    page.on('dialog', dialog => {
      deeds.push(`dialog ${dialog.message()}`);
      void dialog.dismiss();
    });
    return { page, deeds };
  }

  async function open(page: Page, folder: Folder, name: string, content: string): Promise<void> {
    await writeFile(folder.file(name), content);
    const address = pathToFileURL(folder.file(name)).href;
    await page.goto(address, { waitUntil: 'load' });
    expect(page.url()).toBe(address);
  }

  /** Every element in its order, with the names of its attributes; but choices, of which equal texts make one. */
  const skeleton = (page: Page): Promise<readonly string[]> =>
    page.evaluate(() =>
      [...document.querySelectorAll('*')]
        .map(element => [element.tagName, ...element.getAttributeNames()].join(' '))
        .filter(element => element !== 'OPTION value'),
    );

  test('reports, with their policy and without it', async () => {
    const folder = await inventories(HOSTILE_TEXTS);
    const { out } = await folder.run('report');
    const plain = await inventories(HOSTILE_TEXTS.map(harmless));
    const { page, deeds } = await watched();
    await open(page, plain, 'report.html', (await plain.run('report')).out);
    const expected = await skeleton(page);
    expect(expected.length).toBeGreaterThan(5_000);

    const bare = out.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '');
    expect(bare).not.toBe(out);
    for (const [html, without] of [
      [out, []],
      [bare, ['META http-equiv content']],
    ] as const) {
      await open(page, folder, 'report.html', html);
      const found = await skeleton(page);
      expect([...found, ...without].sort()).toEqual([...expected].sort());
      // The page's own script works on hostile rows, too.
      await page.getByRole('searchbox').first().fill('script');
      await page.getByRole('region', { name: 'Inventory' }).getByRole('button').first().click();
      expect(deeds).toEqual([]);
    }
    const body = await page.locator('body').textContent();
    for (const text of HOSTILE_TEXTS) expect(body).toContain(text);
    await page.close();
  });

  test('pictures by themselves', async () => {
    const folder = await inventories(HOSTILE_TEXTS);
    const { out } = await folder.run('report', '--for', 'client');
    const pictures = new Set(
      [...out.matchAll(/src="data:image\/svg\+xml;base64,([^"]+)"/g)].map(match =>
        Buffer.from(match[1]!, 'base64').toString('utf8'),
      ),
    );
    expect(pictures.size).toBeGreaterThan(HOSTILE_TEXTS.length);
    const { page, deeds } = await watched();
    await open(page, folder, 'empty.html', '<!doctype html><title>empty</title>');
    const kinds = new Set(
      await page.evaluate(
        texts =>
          texts.flatMap(text =>
            [...new DOMParser().parseFromString(text, 'image/svg+xml').querySelectorAll('*')].flatMap(one => [
              one.tagName,
              ...one.getAttributeNames(),
            ]),
          ),
        [...pictures],
      ),
    );
    // All are made of elements that can do nothing; opening one takes long.
    for (const svg of [...pictures].filter((_, i) => i % EACH === 0))
      await open(page, folder, 'picture.svg', svg);
    expect(deeds).toEqual([]);
    expect([...kinds].filter(kind => !KINDS.includes(kind))).toEqual([]);
    await page.close();
  });
});

/** Of so many pictures one is opened by itself; `PICTURES=1` for all. */
const EACH = Number(process.env.PICTURES ?? 7);

/** Elements and attributes that pictures may have. */
const KINDS: readonly string[] = [
  ...['aria-label', 'circle', 'class', 'clip-path', 'clip-rule', 'clipPath', 'cx', 'cy', 'd', 'defs', 'desc'],
  ...[
    'ellipse',
    'fill',
    'fill-opacity',
    'fill-rule',
    'font-size',
    'g',
    'height',
    'id',
    'path',
    'pattern',
    'patternUnits',
    'r',
    'rect',
    'role',
  ],
  ...[
    'rx',
    'ry',
    'stroke-dasharray',
    'stroke-linecap',
    'stroke-width',
    'style',
    'svg',
    'text',
    'text-anchor',
  ],
  ...['title', 'viewBox', 'width', 'x', 'xmlns', 'y'],
];
