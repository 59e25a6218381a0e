/** The page of the preview in a real browser: readable for all, its parts by keyboard, its policy kept. */

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { previewPage } from '../../client/preview-page.ts';
import { previewAt } from '../../server/language/preview.ts';
import { fixture } from '../language/fixture.ts';
import { newPage, openChromium, withoutBrowser } from './chromium.ts';

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const TREE = `tree 14 "Lawn maple"
  species     Acer macrophyllum
  dbh         41 in
  height      52 ft
  crown       from 14 ft, 58 ft wide

  defect A cavity
    on        trunk at 18 ft, facing SW
    diameter  26 in
    wall      2..4 in at SW, ~5 in at NE

  view "bedroom window"
    eye       5 ft, 90 ft away
    hide      0..20 ft, 60 ft beyond
`;

/** What the editor gives to a page. */
const EDITOR = `globalThis.sent = []; globalThis.acquireVsCodeApi = () => ({
  postMessage: message => sent.push(message), setState: state => { globalThis.kept = state; } });`;

/** Colors of the two common themes. */
const THEMES = {
  light: { class: 'vscode-light', background: '#ffffff', text: '#3b3b3b', description: '#3b3b3b' },
  dark: { class: 'vscode-dark', background: '#1f1f1f', text: '#cccccc', description: '#9d9d9d' },
} as const;

interface PageWindow {
  readonly sent: readonly object[];
  readonly kept: object;
  readonly axe: { run: () => Promise<AxeResults> };
}

describe.skipIf(withoutBrowser)('in Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openChromium();
  });
  afterAll(() => browser?.close());

  const open = async (theme: keyof typeof THEMES) => {
    const { snapshot, file } = fixture(TREE);
    const preview = previewAt(snapshot, file, 2)!;
    const page = await newPage(browser, { viewport: { width: 600, height: 800 } });
    const complaints: string[] = [];
    page.on('console', message => complaints.push(message.text()));
    page.on('pageerror', error => complaints.push(String(error)));
    await page.addInitScript(EDITOR);
    const html = previewPage(preview, '<h1>Tree 14</h1><h2>Figures</h2><p>Some words.</p>', 'abc');
    await page.route('http://preview.invalid/', route =>
      route.fulfill({ contentType: 'text/html; charset=utf-8', body: html }),
    );
    await page.goto('http://preview.invalid/');
    const { background, text, description, class: name } = THEMES[theme];
    await page.evaluate(
      ([name, background, text, description]) => {
        document.body.className = name!;
        const { style } = document.documentElement;
        style.setProperty('--vscode-editor-background', background!);
        style.setProperty('--vscode-editor-foreground', text!);
        style.setProperty('--vscode-descriptionForeground', description!);
      },
      [name, background, text, description],
    );
    return { page, complaints, preview };
  };

  test.each(['light', 'dark'] as const)('%s: no violation of the accessibility rules', async theme => {
    const { page, complaints } = await open(theme);
    await page.evaluate(axe);
    const { violations, passes } = await page.evaluate(() => (globalThis as unknown as PageWindow).axe.run());
    expect(passes.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['button-name', 'image-alt', 'color-contrast']),
    );
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html}`)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  test('the keyboard goes from part to part, and Enter to its line', async () => {
    const { page, preview } = await open('light');
    const places = preview.pictures.flatMap(picture => picture.places);
    for (const { name, first } of places) {
      await page.keyboard.press('Tab');
      const focused = page.locator('button:focus');
      expect(await focused.getAttribute('aria-label')).toBe(`Go to ${name}, line ${first + 1}`);
      await page.keyboard.press('Enter');
      expect(await page.evaluate(() => (globalThis as unknown as PageWindow).sent.at(-1))).toEqual({
        line: first,
      });
    }
    expect(places.length).toBeGreaterThan(4);
    await page.close();
  });

  test("the part of the cursor's line is marked, and the place kept for a reload", async () => {
    const { page } = await open('light');
    const line = TREE.split('\n').findIndex(text => text.includes('wall'));
    await page.evaluate(line => postMessage({ uri: 'file:///a.wood', line }, '*'), line);
    const marked = page.locator('button[aria-current]');
    await expect.poll(() => marked.count()).toBe(2);
    for (const part of await marked.all())
      expect(await part.getAttribute('aria-label')).toMatch(/^Go to cavity A, line 7$/);
    expect(await page.evaluate(() => (globalThis as unknown as PageWindow).kept)).toEqual({
      uri: 'file:///a.wood',
      line,
    });
    await page.close();
  });
});
