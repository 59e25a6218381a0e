/** What a person does at the editor with keyboard and eyes: each waits for what it brings about. */

import { availableParallelism, loadavg } from 'node:os';
import type { Frame, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

/** How long one attempt waits, in ms; the next one begins then. */
const SEEN_WITHIN = 3_000;

/** How long one attempt to read a hover has, in ms: a busy machine draws its picture late. */
const HOVER_WITHIN = 20_000;

/** Opens a file by its name. */
export async function openFile(page: Page, name: string): Promise<void> {
  await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
  await page.keyboard.press('Control+P');
  await page.locator('.quick-input-widget input').fill(name);
  await page.locator('.quick-input-list .monaco-list-row.focused', { hasText: name }).waitFor();
  await page.keyboard.press('Enter');
  await page
    .locator(`.editor-instance[aria-label*="${name}"], .tab.active[aria-label*="${name}"]`)
    .first()
    .waitFor();
  // Keys that come before the cursor is in the text are lost.
  await page.locator(`.editor-instance[aria-label*="${name}"] .monaco-editor.focused`).first().waitFor();
}

/** Puts the cursor into a line and column, both from 1. */
export async function goTo(page: Page, line: number, column: number): Promise<void> {
  await page.keyboard.press('Control+G');
  const input = page.locator('.quick-input-widget input');
  await input.fill(`:${line}:${column}`);
  // Before it has read the place, the box does not take the key.
  await page.locator('.quick-input-list .monaco-list-row', { hasText: `line ${line} at` }).waitFor();
  await page.keyboard.press('Enter');
  await input.waitFor({ state: 'hidden' });
  await page.locator('#status\\.editor\\.selection', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
}

/** Runs a command by its title. */
export async function command(page: Page, title: string): Promise<void> {
  const row = page.locator('.quick-input-list .monaco-list-row.focused', { hasText: title });
  await expect
    .poll(async () => {
      // A palette that is just closing may take the new one with it: it is opened again.
      await page.keyboard.press('F1');
      return page
        .locator('.quick-input-widget input')
        .fill(`>${title}`, { timeout: SEEN_WITHIN })
        .then(() => row.waitFor({ timeout: SEEN_WITHIN }))
        .then(
          () => true,
          () => false,
        );
    })
    .toBe(true);
  await page.keyboard.press('Enter');
}

/** The problem with this text, filtered from a list of which not all is on the screen; waits until it is there. */
export async function problem(page: Page, text: string): Promise<Locator> {
  const panel = page.locator('.markers-panel');
  if (!(await panel.isVisible())) await command(page, 'View: Toggle Problems');
  const input = page.locator('.viewpane-filter input').first();
  // Marked in the row: the list has taken the filter. A list that is just being opened empties it once more.
  const marked = page.locator('.highlight', { hasText: text });
  const row = panel.locator('.monaco-list-row').filter({ has: marked }).first();
  await expect
    .poll(async () => {
      // Written anew each time: a list that changes while it is filtered may keep what it showed.
      await input.fill('');
      await input.fill(text);
      return row.waitFor({ timeout: SEEN_WITHIN }).then(
        () => true,
        () => false,
      );
    })
    .toBe(true);
  return row;
}

/** The page in a panel or preview that has this heading; waits until it is there. */
export async function pageWith(page: Page, heading: string): Promise<Frame> {
  let found: Frame | undefined;
  await expect
    .poll(async () => {
      for (const frame of page.frames()) {
        const titled = frame.locator('h1, h3', { hasText: heading }).first();
        // A frame may go while it is looked at.
        if (await titled.isVisible().catch(() => false)) found = frame;
      }
      return found !== undefined;
    })
    .toBe(true);
  return found!;
}

/**
 * What `read` finds in what is known at the cursor. Findings that come anew close a hover at any moment: it is opened again
 * until `read` has come to its end, for which it has the time that it is handed.
 */
export async function fromHover<T>(
  page: Page,
  line: number,
  column: number,
  read: (hover: Locator, within: { timeout: number }) => Promise<T>,
): Promise<T> {
  const results: T[] = [];
  await expect
    .poll(async () => {
      await goTo(page, line, column);
      await command(page, 'Show or Focus Hover');
      const hover = page.locator('.monaco-hover:not(.hidden)').first();
      return read(hover, { timeout: HOVER_WITHIN }).then(
        result => {
          results.push(result);
          return 'read';
        },
        error => String(error),
      );
    })
    .toBe('read');
  await page.keyboard.press('Escape');
  return results[0]!;
}

/** Takes the quick fix with this text at the cursor, and waits until the problem that it mends is gone. */
export async function quickFix(page: Page, text: string, mended: Locator): Promise<void> {
  const offer = page.locator('.action-widget .monaco-list-row', { hasText: text }).first();
  await expect
    .poll(async () => {
      // The list closes when findings come anew, also under the pointer: it is opened again.
      if (await mended.isVisible()) {
        await page.keyboard.press('Control+.');
        await offer.click({ timeout: SEEN_WITHIN }).catch(() => undefined);
      }
      return mended.waitFor({ state: 'hidden', timeout: SEEN_WITHIN }).then(
        () => true,
        () => false,
      );
    })
    .toBe(true);
}

/** Saves the open file and waits until it is. */
export async function save(page: Page): Promise<void> {
  await page.keyboard.press('Control+S');
  await page.locator('.tab.active.dirty').waitFor({ state: 'detached' });
}

/** The pauses of someone who types, in ms. */
const PAUSES = [60, 95, 75, 120, 85, 65, 110];

/** How long someone rests at the end of a line, in ms. */
const LINE_END = 300;

/** On a machine that is busier than it has cores, the answer to a key comes as much later; at most by this. */
const BUSIEST = 10;

/**
 * Types as people do, key by key; a line break is Enter, a tab Tab, and ⌫ Backspace. The editor formats a line at its end
 * and drops what is formatted after the next key, so the key after a line break waits for a busy machine.
 */
export async function typeIn(page: Page, text: string): Promise<void> {
  const keys: Readonly<Record<string, string>> = { '\n': 'Enter', '\t': 'Tab', '⌫': 'Backspace' };
  let typed = 0;
  for (const one of text) {
    const key = keys[one];
    await (key ? page.keyboard.press(key) : page.keyboard.type(one));
    const busy = Math.min(BUSIEST, Math.max(1, loadavg()[0]! / availableParallelism()));
    const pause = PAUSES[typed++ % PAUSES.length]!;
    await page.waitForTimeout(one === '\n' ? busy * LINE_END : pause);
  }
}
