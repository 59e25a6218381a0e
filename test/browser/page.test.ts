/** The page for browsers, in a real one: from nothing to a report, offline, in two tabs, with a full store. */

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import { unzipSync } from 'fflate';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { contributes } from '../../client/package.json';
import { HOSTILE_TEXTS, inventoryOf } from '../trust/hostile.ts';
import { openChromium, withoutBrowser } from './chromium.ts';
import {
  DESKTOP,
  finding,
  isKept,
  openPage,
  PHONE,
  part,
  personOf,
  type Served,
  servePage,
  textOf,
  type,
} from './page.ts';

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
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

  const person = (options?: Parameters<Browser['newContext']>[0]) =>
    personOf(browser, served.address, options);
  const open = (context: BrowserContext, fragment?: string) => openPage(context, served.address, fragment);

  /** What keeps people out, by axe, with the contrast that the sun asks for (WCAG 2.2, 1.4.6): 7 to 1. */
  async function violations(page: Page): Promise<readonly string[]> {
    await page.evaluate(axe);
    const found = await page.evaluate(() =>
      (
        globalThis as unknown as { axe: { run(context: object, options: object): Promise<AxeResults> } }
      ).axe.run(document, { rules: { 'color-contrast-enhanced': { enabled: true } } }),
    );
    return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  }

  test.each([
    ['at a desk', DESKTOP],
    ['on a phone', PHONE],
  ])('from nothing to a report %s', async (_where, options) => {
    const { context, deeds } = await person(options);
    const page = await open(context);
    await part(page, 'Findings');
    const dose = finding(page, 'The dose of 18 %');
    await dose.getByRole('button', { name: 'Quick fixes' }).click();
    const offered = page.getByRole('dialog', { name: 'Quick fixes' });
    await offered.getByRole('button').first().click();
    await dose.waitFor({ state: 'detached' });
    // Leads to the record in the text.
    await finding(page, 'Cavity A')
      .getByRole('button', { name: /line \d/ })
      .click();
    await page.locator('.cm-activeLine', { hasText: 'defect A' }).waitFor();
    await part(page, 'Tree');
    const picture = page.locator('.tree img').first();
    await picture.waitFor();
    expect(await picture.getAttribute('alt')).toContain('Tree 14');
    await part(page, 'Papers');
    await page.getByRole('button', { name: 'Report', exact: true }).click();
    await page.frameLocator('iframe').getByRole('heading', { name: 'Fernhollow Court' }).waitFor();
    await page.getByRole('button', { name: 'Calendar' }).click();
    await page.locator('pre', { hasText: 'BEGIN:VCALENDAR' }).waitFor();
    expect(deeds).toEqual([]);
    await context.close();
  });

  // Either size and either scheme once: colors don't depend on the size.
  test.each([
    ['at a desk in the dark', DESKTOP, 'dark'],
    ['on a phone', PHONE, 'light'],
  ] as const)('nothing keeps anyone out %s', async (_where, options, colorScheme) => {
    const { context } = await person({ ...options, colorScheme });
    const page = await open(context);
    await finding(page, 'Cavity A').waitFor({ state: 'attached' });
    expect(await violations(page)).toEqual([]);
    for (const name of ['Findings', 'Tree', 'Papers'] as const) {
      await part(page, name);
      await page.locator(`.${name.toLowerCase()}`).waitFor();
      expect(await violations(page)).toEqual([]);
    }
    await context.close();
  });

  test('the sample says what to try, and ticks off what was done', async () => {
    const { context } = await person();
    const page = await open(context);
    const steps = page.getByRole('region', { name: 'To try' });
    const ticked = () => steps.locator('.done .step').allInnerTexts();
    expect(await steps.locator('.step').allInnerTexts()).toEqual(
      contributes.walkthroughs[0]!.steps.slice(1).map(({ title }) => title),
    );
    await finding(page, 'Cavity A')
      .getByRole('button', { name: /line \d/ })
      .click();
    await expect.poll(ticked).toEqual(['Read the findings']);
    await steps.getByRole('button', { name: 'More on: Fix a finding' }).click();
    const more = page.getByRole('dialog', { name: 'Fix a finding' });
    await more.getByText('a reading that was not taken is never invented').waitFor();
    await page.keyboard.press('Escape');
    await more.waitFor({ state: 'detached' });
    await steps.getByRole('button', { name: 'See the tree', exact: true }).click();
    await page.locator('.tree img').first().waitFor();
    await expect.poll(ticked).toEqual(['Read the findings', 'See the tree']);
    await page.reload();
    await expect.poll(ticked).toEqual(['Read the findings', 'See the tree']);
    await steps.getByRole('button', { name: 'Close the steps' }).click();
    await steps.waitFor({ state: 'detached' });
    await context.close();
  });

  test('a finding leads to the page on its rule', async () => {
    const { context } = await person();
    const page = await open(context);
    await finding(page, 'Cavity A').getByRole('button', { name: 'Why: strength-loss' }).click();
    await page.getByRole('dialog', { name: 'Rule strength-loss' }).getByText('Wagener').first().waitFor();
    await context.close();
  });

  test('under the tree: inspection, picture, position and words as spoken', async () => {
    const { context, deeds } = await person({
      ...PHONE,
      permissions: ['geolocation'],
      geolocation: { latitude: 44.312711, longitude: -122.871422, accuracy: 6.2 },
    });
    // A receiver takes its time, and the cursor moves on meanwhile.
    await context.addInitScript(() => {
      const { geolocation } = navigator;
      const ask = geolocation.getCurrentPosition.bind(geolocation);
      geolocation.getCurrentPosition = (known, ...others) =>
        ask(position => setTimeout(() => known(position), 1_500), ...others);
    });
    const page = await open(context);
    await page.locator('.cm-line', { hasText: 'tree 14' }).tap();
    const tool = (name: string) => page.getByRole('toolbar').getByRole('button', { name, exact: true });
    const lines = async () =>
      (await textOf(page))
        .split('\n')
        .map(line => line.trim().replace(/ +/g, ' '))
        .filter(line => line !== '');

    await page.getByRole('combobox', { name: 'Who looks' }).selectOption('Ruth Varga');
    await tool('Seen from…').tap();
    const asked = page.getByRole('dialog', { name: 'Tree 14' });
    await asked.getByText('Where is the tree inspected from?').waitFor();
    expect(await violations(page)).toEqual([]);
    await asked.getByRole('button', { name: 'ground' }).tap();
    await asked.waitFor({ state: 'detached' });
    await expect
      .poll(async () => (await lines()).slice(-2))
      .toEqual(['inspection 2026-06-01 from ground', 'by RV']);

    await page
      .getByRole('toolbar')
      .locator('input[type=file]')
      .setInputFiles({
        name: 'IMG_1.JPG',
        mimeType: 'image/jpeg',
        buffer: Buffer.from(axe.slice(0, 100)),
      });
    await expect
      .poll(lines)
      .toEqual(expect.arrayContaining([expect.stringMatching(/^photo photos\/\d{4}-\d\d-\d\d-1\.jpg$/)]));
    // Behind the words of the row, under the thumb.
    await tool('Here').tap();
    await page.locator('.cm-content').press('Control+Home');
    await expect.poll(lines).toContain('position 44.31271, -122.87142');
    expect(await lines()).toContain('note "position by the receiver of a phone or tablet, within 7 m"');

    await page.locator('.cm-line', { hasText: 'tree 14' }).tap();
    await tool('As spoken…').tap();
    const spoken = page.getByRole('dialog', { name: 'As spoken, at tree 14' });
    await page
      .getByRole('textbox', { name: 'As spoken' })
      .fill('cavity southwest two foot up, wall about 3 inches');
    await spoken.getByText('can be one on record or another one').waitFor();
    expect(await violations(page)).toEqual([]);
    // What is not written yet is there after a crash.
    await page.reload();
    await page.locator('.cm-line', { hasText: 'tree 14' }).tap();
    await tool('As spoken…').tap();
    await spoken.getByRole('button', { name: 'another cavity' }).tap();
    await spoken.getByRole('button', { name: 'on trunk at …' }).tap();
    const words = spoken.getByLabel('What is written');
    await expect.poll(() => words.textContent()).toContain('on        trunk at 2 ft, facing SW');
    await spoken.getByRole('button', { name: 'Add to the text' }).tap();
    await spoken.waitFor({ state: 'detached' });
    await page.locator('.cm-content').press('Control+End');
    await expect
      .poll(async () => (await lines()).slice(-3))
      .toEqual(['defect B cavity', 'on trunk at 2 ft, facing SW', 'wall ~3 in']);
    await tool('As spoken…').tap();
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /^cavity southwest two foot up/ })
      .waitFor();
    await page.keyboard.press('Escape');

    await tool('Go to…').tap();
    const list = page.getByRole('dialog', { name: 'Go to' });
    await list.getByRole('textbox').fill('cavity');
    expect(await violations(page)).toEqual([]);
    await list.getByRole('button', { name: 'defect A cavity of tree 14' }).tap();
    await page.locator('.cm-activeLine', { hasText: 'defect A' }).waitFor();
    expect(deeds).toEqual([]);
    await context.close();
  });

  test('a picture is named by its path from the folder of its text', async () => {
    const { context } = await person(PHONE);
    const page = await open(context);
    const { zipSync, strToU8 } = await import('fflate');
    const zip = zipSync({ 'north/trees.wood': strToU8('tree 1\n  inspection 2026-06-01 from ground\n') });
    await page.locator('summary').click();
    await page
      .locator('.menu input[type=file]')
      .setInputFiles({ name: 'grove.zip', mimeType: 'application/zip', buffer: Buffer.from(zip) });
    await page.locator('summary', { hasText: 'grove' }).waitFor();
    await page.locator('.cm-line', { hasText: 'tree 1' }).tap();
    await page
      .getByRole('toolbar')
      .locator('input[type=file]')
      .setInputFiles({
        name: 'a.jpeg',
        mimeType: 'image/jpeg',
        buffer: Buffer.from(axe.slice(0, 100)),
      });
    await page.locator('.cm-line', { hasText: /^ {4}photo +photos\/[\d-]+-1\.jpeg$/ }).waitFor();
    await part(page, 'Findings');
    await page
      .getByText(/No findings in the open files|north\/trees\.wood, line/)
      .first()
      .waitFor();
    expect(await page.getByText('photo-missing').count()).toBe(0);
    await context.close();
  });

  test('what is tapped is large enough for a thumb', async () => {
    const { context } = await person(PHONE);
    const page = await open(context);
    const small = () =>
      page.evaluate(() =>
        [...document.querySelectorAll('button, select, summary, .button, textarea, .sheet input')]
          // In the midst of a sentence they are as high as its lines.
          .filter(one => one.checkVisibility() && !one.matches('.words button, .cm-editor *, .part'))
          .filter(one => one.getBoundingClientRect().height < 44 || one.getBoundingClientRect().width < 44)
          .map(one => one.outerHTML),
      );
    await finding(page, 'Cavity A').waitFor({ state: 'attached' });
    await page.getByRole('button', { name: '123' }).tap();
    expect(await small()).toEqual([]);
    for (const name of ['Findings', 'Tree', 'Papers']) {
      await part(page, name);
      expect(await small()).toEqual([]);
    }
    await context.close();
  });

  test('by keyboard alone', async () => {
    const { context } = await person();
    const page = await open(context);
    await page.locator('.cm-line', { hasText: 'tree 14' }).click();
    await page.locator('.cm-content').press('Escape');
    const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim());
    await page.keyboard.press('Tab');
    await expect.poll(focused).toBe('Seen from…');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'Tree 14' }).waitFor();
    await expect.poll(focused).toBe('Tree 14');
    await page.keyboard.press('Tab');
    await expect.poll(focused).toBe('ground');
    await page.keyboard.press('Enter');
    await page.locator('.cm-activeLine', { hasText: 'by        RV' }).waitFor();
    await page.getByRole('dialog', { name: 'Tree 14' }).waitFor({ state: 'detached' });
    await expect.poll(focused).toBe('Seen from…');
    await context.close();
  });

  test('buttons that write leave the focus, and the keyboard of the phone, as they are', async () => {
    const { context } = await person(PHONE);
    const page = await open(context);
    const isInText = () => page.evaluate(() => document.activeElement?.classList.contains('cm-content'));
    expect(await isInText()).toBe(false);
    await page.getByRole('button', { name: '123' }).tap();
    await page.getByRole('button', { name: '7', exact: true }).tap();
    expect(await isInText()).toBe(false);
    await expect.poll(() => textOf(page)).toMatch(/^7# A sample/);
    await page.locator('.cm-content').tap();
    await page.getByRole('button', { name: '8', exact: true }).tap();
    expect(await isInText()).toBe(true);
    await expect.poll(() => textOf(page)).toContain('8');
    await context.close();
  });

  test('without a network, after the first visit', async () => {
    const { context, deeds } = await person();
    const first = await open(context);
    await first.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await expect.poll(() => first.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
    await first.close();
    await context.setOffline(true);
    const page = await open(context);
    await finding(page, 'Cavity A').waitFor();
    expect(deeds).toEqual([]);
    await context.close();
  });

  test('what was typed is there after a crash', async () => {
    const { context } = await person();
    const page = await open(context);
    await type(page, '# typed before the crash\n');
    await isKept(page);
    await page.close({ runBeforeUnload: false });
    const again = await open(context);
    await expect.poll(() => textOf(again)).toContain('# typed before the crash');
    await context.close();
  });

  test('of two tabs one writes, and nothing of either is lost', async () => {
    const { context } = await person();
    const first = await open(context);
    await isKept(first);
    const second = await open(context);
    const notice = second.getByRole('alert').filter({ hasText: 'being edited in another tab' });
    await notice.waitFor();
    await type(second, '# not written');
    expect(await textOf(second)).not.toContain('# not written');
    await type(first, '# of the first tab\n');
    await second.getByRole('button', { name: 'Edit here instead' }).click();
    await expect.poll(() => textOf(second)).toContain('# of the first tab');
    await first.getByRole('alert').filter({ hasText: 'another tab' }).waitFor();
    await type(second, '# of the second tab\n');
    await isKept(second);
    await second.close();
    await first.getByRole('button', { name: 'Edit here instead' }).click();
    await expect.poll(() => textOf(first)).toMatch(/# of the second tab\n# of the first tab/);
    await context.close();
  });

  test('a full store is said, and what was typed is written when there is room', async () => {
    const { context } = await person();
    const page = await open(context);
    await isKept(page);
    await page.evaluate(() => {
      const store = IDBObjectStore.prototype;
      const { put } = store;
      (globalThis as unknown as { room(): void }).room = () => {
        store.put = put;
      };
      store.put = () => {
        throw new DOMException('There is no room.', 'QuotaExceededError');
      };
    });
    await type(page, '# typed with a full store\n');
    await page.getByRole('alert').filter({ hasText: 'run out of storage' }).waitFor();
    const waiting = page.waitForEvent('download');
    await page.locator('summary').click();
    await page.getByRole('button', { name: 'Download as ZIP' }).click();
    const files = unzipSync(new Uint8Array(await readFile(await (await waiting).path())));
    expect(new TextDecoder().decode(files['sample.wood'])).toContain('# typed with a full store');
    await page.evaluate(() => (globalThis as unknown as { room(): void }).room());
    await isKept(page);
    await context.close();
  });

  test('a ZIP opens as it was saved, and paths that lead out of it are left out', async () => {
    const { context } = await person();
    const page = await open(context);
    const { zipSync, strToU8 } = await import('fflate');
    const zip = zipSync({
      'one/trees.wood': strToU8('tree 1\n  dbh 40 cm\n'),
      '../out.wood': strToU8('tree 2\n'),
    });
    await page.locator('summary').click();
    await page
      .locator('.menu input[type=file]')
      .setInputFiles({ name: 'grove.zip', mimeType: 'application/zip', buffer: Buffer.from(zip) });
    await page.locator('summary', { hasText: 'grove' }).waitFor();
    await expect.poll(() => textOf(page)).toContain('dbh 40 cm');
    expect(await page.locator('select[aria-label=File] option').allInnerTexts()).toEqual(['one/trees.wood']);
    await context.close();
  });

  test('a file that was not checked is never taken for one without findings', async () => {
    const { context } = await person();
    // The server is there and never answers.
    await context.route('**/server.js', route =>
      route.fulfill({ contentType: 'text/javascript', body: 'onmessage = () => {};' }),
    );
    const page = await open(context);
    await page.getByText('Not checked yet: sample.wood.').waitFor();
    expect(await page.getByText('No findings in the open files').count()).toBe(0);
    expect(await page.locator('.count').textContent()).toBe('…');
    await context.close();
  });

  test('hostile texts stay texts', async () => {
    const { context, deeds } = await person();
    const page = await open(context);
    const files = HOSTILE_TEXTS.map((text, i) => ({
      name: `${i}.wood`,
      mimeType: 'text/plain',
      buffer: Buffer.from(inventoryOf(text, `T${i}`)),
    }));
    await page.locator('summary').click();
    await page.locator('.menu input[type=file]').setInputFiles(files.slice(0, 12));
    await page.locator('select[aria-label=File] option').nth(11).waitFor({ state: 'attached' });
    await page.locator('.findings li').first().waitFor();
    await page.locator('.cm-line', { hasText: /^tree/ }).first().click();
    await part(page, 'Tree');
    await page.locator('.tree img').first().waitFor();
    expect(await page.locator('.tree script, .tree iframe, .tree form, .findings img').count()).toBe(0);
    expect(deeds).toEqual([]);
    await context.close();
  });

  test('a link carries a text to who gets it', async () => {
    const { context } = await person({ ...DESKTOP, permissions: ['clipboard-read', 'clipboard-write'] });
    const page = await open(context);
    await page.locator('summary').click();
    await page.getByRole('button', { name: 'Copy a link' }).click();
    let link = '';
    await expect
      .poll(async () => (link = await page.evaluate(() => navigator.clipboard.readText())))
      .toContain('#text=');
    const first = link;
    const other = await person();
    const got = await other.context.newPage();
    await got.goto(link);
    await expect.poll(() => textOf(got)).toContain('site "Fernhollow Court"');
    expect(await got.locator('select[aria-label=File] option').allInnerTexts()).toEqual(['shared.wood']);
    // A second link does not show the text of the first.
    await type(page, '# another text\n');
    await page.getByRole('button', { name: 'Copy a link' }).click();
    await expect
      .poll(async () => (link = await page.evaluate(() => navigator.clipboard.readText())) !== first)
      .toBe(true);
    const second = await other.context.newPage();
    await second.goto(link);
    await expect.poll(() => textOf(second)).toContain('# another text');
    await Promise.all([context.close(), other.context.close()]);
  });
});
