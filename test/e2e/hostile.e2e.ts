/** Hostile texts in a real editor: its own renderer of Markdown makes no link, picture, element or order of them. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { Locator } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { HOSTILE_TEXTS, inventoryOf } from '../trust/hostile.ts';
import { type Editor, startEditor } from './editor.ts';
import { command, fromHover, goTo, openFile } from './hands.ts';

/** Several in one name: each step in the editor takes a second. */
const AT_A_TIME = 9;
const NAMES = Array.from({ length: Math.ceil(HOSTILE_TEXTS.length / AT_A_TIME) }, (_, i) =>
  HOSTILE_TEXTS.slice(i * AT_A_TIME, (i + 1) * AT_A_TIME)
    .map(text => text.slice(0, 150))
    .join(' '),
);

let editor: Editor;
/** What the page or one of its frames did beside being shown. */
const deeds: string[] = [];

beforeAll(async () => {
  editor = await startEditor('node');
  for (const [i, name] of NAMES.entries()) {
    const path = join(editor.folder, `hostile/${i}/hostile-${i}.wood`);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, inventoryOf(name, `T${i}`));
  }
  editor.page.on('dialog', dialog => {
    deeds.push(`dialog ${dialog.message()}`);
    void dialog.dismiss();
  });
  editor.page.on('request', request => {
    if (/^https?:\/\/127\.0\.0\.1:9\//.test(request.url())) deeds.push(`asked for ${request.url()}`);
  });
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === 'fail')
    await editor.page.screenshot({ path: `${tmpdir()}/soundwood-e2e-failed.png` });
});

const lineOf = (text: string, wanted: string): number =>
  text.slice(0, text.indexOf(wanted)).split('\n').length;
const spaced = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** Elements that lead or load, with where they lead to; pictures within the text are ours. */
const leading = (place: Locator): Promise<readonly string[]> =>
  place.evaluate(element =>
    [...element.querySelectorAll('*')].flatMap(one => {
      const found = [
        'href',
        'data-href',
        'src',
        'srcset',
        'action',
        'poster',
        'data',
        'style',
        'onerror',
        'onload',
      ]
        .filter(name => one.hasAttribute(name))
        .map(name => `${one.tagName} ${name}=${one.getAttribute(name)!.slice(0, 60)}`);
      return found.filter(text => !text.startsWith('IMG src=data:image/svg+xml;base64,'));
    }),
  );

test.each(NAMES.map((name, i) => [`T${i}`, name, i] as const))(
  'hover and picture of tree %s',
  async (tag, name, i) => {
    const { page } = editor;
    const text = inventoryOf(name, tag);
    await openFile(page, `hostile-${i}.wood`);
    await goTo(page, lineOf(text, `tree ${tag}`), 1);
    await command(page, 'Soundwood: Open Tree Preview to the Side');
    const shown = page.frameLocator('iframe.webview').frameLocator('#active-frame').locator('body');
    const title = shown.locator('h1').first();
    await expect.poll(async () => spaced((await title.textContent()) ?? '')).toContain(spaced(name));
    expect(await leading(shown)).toEqual([]);
    // The editor puts the settings of its own drawings beside it.
    const elements = await shown.evaluate(body => [
      ...new Set([...body.querySelectorAll('*:not(#markdown-mermaid)')].map(one => one.tagName)),
    ]);
    const OURS = [
      'BR',
      'BUTTON',
      'EM',
      'FIGURE',
      'H1',
      'H2',
      'IMG',
      'LI',
      'MAIN',
      'P',
      'SCRIPT',
      'STRONG',
      'TABLE',
      'TBODY',
      'TD',
      'TH',
      'THEAD',
      'TR',
      'UL',
    ];
    expect(elements.filter(one => !OURS.includes(one))).toEqual([]);

    await openFile(page, `hostile-${i}.wood`);
    await fromHover(page, lineOf(text, `tree ${tag}`), 2, async (hover, within) => {
      const words = hover.locator('.rendered-markdown', { hasText: `Tree ${tag}` }).first();
      expect(spaced((await words.textContent(within)) ?? '')).toContain(spaced(name));
      expect((await leading(words)).filter(one => !/^(?:CODE|PRE|SPAN|DIV) style=/.test(one))).toEqual([]);
    });
  },
);

test('nothing ran, and nothing was asked for', () => {
  expect(deeds).toEqual([]);
  expect([...editor.foreign]).toEqual([]);
});
