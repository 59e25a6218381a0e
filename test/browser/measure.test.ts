/** Measuring in a photograph in a real browser: points by mouse and by keyboard, the size by the server's own code. */

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { measurePage } from '../../client/measure-page.ts';
import { dataUri } from '../../server/base/data-uri.ts';
import { type PhotoFile, photoPaths } from '../../server/facts/photos.ts';
import { photoFileOf } from '../../server/facts/read-photo.ts';
import { withPhotos } from '../../server/facts/workspace.ts';
import { type MeasureAsked, measurementAt } from '../../server/language/measuring.ts';
import { edited, fixture } from '../language/fixture.ts';
import { newPage, openChromium, withoutBrowser } from './chromium.ts';

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const picture = new Uint8Array(await readFile('samples/field/camera/IMG_0413.jpg'));

const TREE = `tree 1
  species  Acer macrophyllum
  defect A cavity
    on     trunk at 18 ft, facing SW
    ‸photo  camera/IMG_0413.jpg, from 32 ft
`;

const EDITOR = `globalThis.sent = []; globalThis.acquireVsCodeApi = () => ({
  postMessage: message => sent.push(message), setState: () => {} });`;

interface PageWindow {
  readonly sent: readonly { readonly asked: MeasureAsked; readonly write?: boolean }[];
  readonly axe: { run: () => Promise<AxeResults> };
}

describe.skipIf(withoutBrowser)('in Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openChromium();
  });
  afterAll(() => browser?.close());

  const open = async () => {
    const { snapshot, file, offset } = fixture(TREE);
    const photos = new Map<string, PhotoFile>();
    for (const path of photoPaths(file)) photos.set(path, await photoFileOf(path, picture));
    const known = { ...snapshot, workspace: withPhotos(snapshot.workspace, photos) };
    const about = measurementAt(known, file, offset)!;
    const page = await newPage(browser, { viewport: { width: 1000, height: 700 } });
    const complaints: string[] = [];
    page.on('console', message => complaints.push(message.text()));
    page.on('pageerror', error => complaints.push(String(error)));
    await page.addInitScript(EDITOR);
    const html = measurePage(
      { ...about, name: 'IMG_0413.jpg', source: dataUri('image/jpeg', picture) },
      'abc',
    );
    await page.route('http://measure.invalid/', route =>
      route.fulfill({ contentType: 'text/html; charset=utf-8', body: html }),
    );
    await page.goto('http://measure.invalid/');
    await page.waitForFunction(() => (document.getElementById('image') as HTMLImageElement).naturalWidth > 0);
    const last = () => page.evaluate(() => (globalThis as unknown as PageWindow).sent.at(-1));
    /** What the panel does: asks the server, and tells the page. */
    const answer = async () => {
      const message = (await last())!;
      const found = measurementAt(known, file, offset, message.asked)!;
      await page.evaluate(data => globalThis.postMessage(data), {
        measured: found.measured,
        mistake: found.mistake,
      } as never);
      return found;
    };
    return { page, complaints, last, answer, file };
  };

  test('two clicks measure, and the button writes', async () => {
    const { page, last, answer, file, complaints } = await open();
    const box = (await page.locator('#image').boundingBox())!;
    const click = (x: number, y: number) =>
      page.mouse.click(box.x + ((x + 0.2) / 480) * box.width, box.y + ((y + 0.2) / 360) * box.height);
    await click(227, 180);
    expect(await last()).toBeUndefined();
    await click(252, 180);
    expect((await last())!.asked).toEqual({
      shown: { width: 480, height: 360 },
      points: [
        { x: 227, y: 180 },
        { x: 252, y: 180 },
      ],
      distance: '32 ft',
      known: '',
      lens: '',
      oblique: '',
      defect: 'A',
      field: 'width',
    });
    const { measured } = await answer();
    // Drawn 9 in wide.
    expect(measured!.length.low).toBeLessThan(9 * 0.0254);
    expect(measured!.length.high).toBeGreaterThan(9 * 0.0254);
    await page.getByText(measured!.written, { exact: true }).waitFor();
    await page.selectOption('#field', 'opening-width');
    await answer();
    await page.getByRole('button', { name: 'Write' }).click();
    expect((await last())!.write).toBe(true);
    const { edits, measured: written } = await answer();
    const text = edited(file.text, edits!);
    expect(text).toContain(`    opening ${written!.written} wide\n`);
    expect(text).toContain('measured in camera/IMG_0413.jpg from 32 ft');
    expect(text.match(/photo {2}camera/g)).toHaveLength(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  test('the keyboard alone sets points, enlarges and takes back; mistakes are told', async () => {
    const { page, last, answer, complaints } = await open();
    await page.locator('#stage').focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
    await page.keyboard.press('+');
    for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect((await last())!.asked.points).toEqual([
      { x: 229, y: 180 },
      { x: 259, y: 181 },
    ]);
    await page.fill('#distance', '32 feet');
    await answer();
    await page.getByText('is not a length').waitFor();
    expect(await page.locator('#write').isDisabled()).toBe(true);
    await page.locator('#stage').focus();
    await page.keyboard.press('Delete');
    await page.getByText('Set two points on the thing').waitFor();
    await page.evaluate(axe);
    const { violations } = await page.evaluate(() => (globalThis as unknown as PageWindow).axe.run());
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html}`)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });
});
