/** The report in a real browser: at the width of a phone and of a desk, in light and dark, by keyboard, on paper. */

import { readFile, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import type { Io } from '../../server/cli/io.ts';
import { run } from '../../server/cli/program.ts';
import { plain } from '../../server/show/terminal.ts';
import { folderWith } from '../cli/folder.ts';
import { newPage, openChromium, withoutBrowser } from './chromium.ts';

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** The trees of two writers, one of them metric: every kind of part and of unit. */
const sampleReport = () => reportOf('samples/fernhollow/lawn.wood', 'samples/fernhollow/creek.wood');

async function reportOf(...args: readonly string[]): Promise<string> {
  let out = '';
  const io: Io = {
    cwd: process.cwd(),
    out: text => {
      out += text;
    },
    err: text => {
      throw new Error(text);
    },
    paint: plain,
    columns: 80,
    interactive: false,
    debug: false,
    progress: false,
    today: parseDate('2026-06-01')!,
    ask: () => Promise.reject(new Error('There is nobody to ask.')),
  };
  expect(await run(['report', ...args], io)).toBe(0);
  return out;
}

describe.skipIf(withoutBrowser)('in Chromium', () => {
  let browser: Browser;
  let sample: string;
  beforeAll(async () => {
    [browser, sample] = await Promise.all([openChromium(), sampleReport()]);
  });
  afterAll(() => browser?.close());

  interface Opened {
    readonly page: Page;
    /** What the page asked for besides itself. */
    readonly requests: readonly string[];
    /** Complaints of the browser, broken policies among them. */
    readonly complaints: readonly string[];
  }

  async function open(html: string, options: Parameters<Browser['newPage']>[0]): Promise<Opened> {
    const folder = await folderWith({});
    await writeFile(folder.file('report.html'), html);
    const page = await newPage(browser, options);
    const requests: string[] = [];
    const complaints: string[] = [];
    const address = pathToFileURL(folder.file('report.html')).href;
    page.on('request', request => {
      if (request.url() !== address && !request.url().startsWith('data:')) requests.push(request.url());
    });
    page.on('console', message => complaints.push(message.text()));
    page.on('pageerror', error => complaints.push(String(error)));
    page.on('dialog', dialog => {
      complaints.push(`dialog ${dialog.message()}`);
      void dialog.dismiss();
    });
    await page.goto(address, { waitUntil: 'load' });
    return { page, requests, complaints };
  }

  /** Violations of the accessibility rules, or of these, with the elements that break them. */
  async function violations(page: Page, rules?: readonly string[]): Promise<readonly string[]> {
    // By the debugger, so that the page's own policy stays as it is.
    await page.evaluate(axe);
    const { violations: found, passes } = await page.evaluate(
      only =>
        (globalThis as unknown as { axe: { run: (options: object) => Promise<AxeResults> } }).axe.run(
          only ? { runOnly: only } : {},
        ),
      rules,
    );
    expect(passes.map(({ id }) => id)).toContain('color-contrast');
    return found.map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .map(({ html }) => html)
          .slice(0, 3)
          .join(' | ')}`,
    );
  }

  /** Letter across within its margins, px. */
  const ACROSS = ((279.4 - 30) / 25.4) * 96;

  const SIZES = {
    phone: { width: 360, height: 740 },
    desk: { width: 1280, height: 900 },
  } as const;

  // Either size and either scheme once: colors don't depend on the size, and all else not on the scheme.
  test.each([
    ['phone', 'light', undefined],
    ['desk', 'dark', ['color-contrast']],
  ] as const)(
    '%s, %s: readable for all, nothing wider than the page, nothing asked for',
    async (size, scheme, rules) => {
      const { page, requests, complaints } = await open(sample, {
        viewport: SIZES[size],
        colorScheme: scheme,
      });
      expect(await violations(page, rules)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
        SIZES[size].width,
      );
      const broken = await page.evaluate(
        () => [...document.images].filter(image => image.naturalWidth === 0 || image.alt === '').length,
      );
      expect(broken).toBe(0);
      expect(requests).toEqual([]);
      expect(complaints).toEqual([]);
      await page.close();
    },
    // The rules of accessibility take a while where the machine is busy.
    120_000,
  );

  test('work orders in Spanish: readable for all, and each on the two sides of a sheet', async () => {
    const orders = await reportOf('samples/cottonwood-bench', '--for', 'crew');
    const { page, complaints } = await open(orders, { viewport: SIZES.phone });
    expect(await violations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      SIZES.phone.width,
    );
    // Within the margins of a letter sheet, at 96 pixels to the inch.
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 732, height: 976 });
    const sides = await page.locator('.order').evaluateAll(all =>
      all.flatMap(one => {
        const back = one.querySelector('.back')!.scrollHeight;
        return [one.scrollHeight - back, back];
      }),
    );
    expect(sides.length).toBeGreaterThan(10);
    expect(Math.max(...sides)).toBeLessThanOrEqual(976);
    // In points: the smallest type that is read outdoors at arm's length.
    const smallest = await page
      .locator('.order')
      .evaluateAll(all => Math.min(...all.map(one => Number.parseFloat(getComputedStyle(one).fontSize))));
    expect(smallest * (72 / 96)).toBeGreaterThanOrEqual(7.5);
    expect(complaints).toEqual([]);
    await page.close();
  }, 120_000);

  test('the paper is that of the scheme', async () => {
    const grounds = await Promise.all(
      (['light', 'dark'] as const).map(async colorScheme => {
        const { page } = await open(sample, { colorScheme });
        const ground = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
        await page.close();
        return ground;
      }),
    );
    expect(grounds).toEqual(['rgb(251, 248, 241)', 'rgb(31, 29, 26)']);
  });

  test('the inventory sorts by numbers and filters by words, with the keyboard alone', async () => {
    const { page, complaints } = await open(sample, { viewport: SIZES.desk });
    const inventory = page.getByRole('region', { name: 'Inventory' });
    const heights = () => inventory.locator('tbody tr:not([hidden]) td:nth-child(5)').allTextContents();
    const all = (await heights()).length;
    const height = inventory.getByRole('button', { name: 'Height' });
    await height.focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    expect(
      await inventory.locator('th[aria-sort]').evaluateAll(heads => heads.map(head => head.ariaSort)),
    ).toEqual(['descending']);
    // 112 ft stand above 37 m, whatever the unit; trees without a height come last or first, never between.
    const metres = (await heights())
      .filter(text => text !== '')
      .map(text => Number(/[\d.]+(?= (ft|m)$)/.exec(text)![0]) * (text.endsWith('ft') ? 0.3048 : 1));
    expect(metres.length).toBeGreaterThan(20);
    expect(metres).toEqual(metres.toSorted((a, b) => b - a));
    await page.getByRole('searchbox', { name: 'Show trees that contain' }).fill('acer macro');
    const rows = inventory.locator('tbody tr:not([hidden])');
    const shown = await rows.count();
    expect(shown).toBeGreaterThan(1);
    for (const text of await rows.allTextContents()) expect(text).toContain('Acer macrophyllum');
    expect(await page.getByRole('status').textContent()).toMatch(new RegExp(`^${shown} of \\d+ trees$`));
    // The map shows the same trees, and leads to their rows.
    const spots = page.locator('.spot:visible');
    const positioned = await rows.evaluateAll(
      shownRows => shownRows.filter(row => document.querySelector(`.spot[href="#${row.id}"]`)).length,
    );
    expect(positioned).toBeGreaterThan(0);
    expect(await spots.count()).toBe(positioned);
    const row = (await spots.first().getAttribute('href'))!;
    await spots.first().focus();
    await page.keyboard.press('Enter');
    expect(new URL(page.url()).hash).toBe(row);
    await page.getByRole('searchbox').fill('');
    await page.getByRole('combobox', { name: 'When' }).selectOption('now');
    const now = await rows.count();
    expect(now).toBeGreaterThan(0);
    expect(now).toBeLessThan(all);
    await page.getByRole('combobox', { name: 'When' }).selectOption('all');
    expect(await rows.count()).toBe(all);
    expect(complaints).toEqual([]);
    await page.close();
  });

  test('the policy of the page stops what the page itself does not hold', async () => {
    const { page } = await open(sample, {});
    const ran = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "taken over"';
      document.body.append(script);
      const image = document.createElement('div');
      image.innerHTML = '<p style="color: red">x</p>';
      document.body.append(image);
      return [document.title, getComputedStyle(image.firstElementChild!).color];
    });
    expect(ran[0]).not.toBe('taken over');
    expect(ran[1]).not.toBe('rgb(255, 0, 0)');
    await page.close();
  });

  test('a name that would be a script, a picture or a frame stays a name', async () => {
    const name = `"<script>alert(1)</script><img src=http://127.0.0.1:9/x onerror=alert(2)>' onload='alert(3)"" x=""y"`;
    const folder = await folderWith({
      'a.wood': `site ${name}\n  region US-OR\n\ntree 1 ${name}\n  position 44.3, -122.8\n  dbh 10 in\n  height 40 ft\n  crown from 8 ft, 20 ft wide\n  prescription R1 thin\n    dose 10 %\n    because ${name}\n`,
    });
    const { out, code } = await folder.run('report');
    expect(code).toBe(0);
    const { page, requests, complaints } = await open(out, {});
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    expect(await page.locator('script').count()).toBe(1);
    expect(await page.locator('h1').textContent()).toContain('<script>alert(1)</script>');
    await page.close();
  });

  test('on paper of the place: each part and each work order on a page of its own, the tables of the office across', async () => {
    const { page } = await open(sample, {});
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString('latin1');
    const sheets = [...pdf.matchAll(/\/MediaBox\s*\[([\d. ]+)\]/g)].map(match =>
      match[1]!
        .trim()
        .split(/\s+/)
        .slice(2)
        .map(points => Math.round(Number(points))),
    );
    const upright = sheets.filter(([width, height]) => width === 612 && height === 792).length;
    const across = sheets.filter(([width, height]) => width === 792 && height === 612).length;
    expect(upright + across).toBe(sheets.length);
    const orders = await page.locator('.order').count();
    expect(upright).toBeGreaterThan(orders);
    expect(across).toBeGreaterThan(1);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: Math.floor(ACROSS), height: 700 });
    const widest = await page
      .locator('#office table')
      .evaluateAll(tables => Math.max(...tables.map(table => table.getBoundingClientRect().right)));
    expect(widest).toBeLessThanOrEqual(ACROSS + 1);
    await page.close();
  });
});
