/** The commands of the palette, by keyboard: what each asks, and what it leaves behind. */

import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { type Editor, type Host, startEditor } from './editor.ts';
import { command, openFile, pageWith, problem } from './hands.ts';

const TABLE = `Tag,Species,DBH (in),Height (ft)
7,Acer macrophyllum,31,62
8,Quercus garryana,24,48
`;

/** Answers the question that is shown, once it is the one expected. */
async function answer(page: Page, question: string, text: string, isWrong = false): Promise<void> {
  const widget = page.locator('.quick-input-widget');
  await widget.getByText(question).first().waitFor();
  await widget.locator('input:visible').first().fill(text);
  // Until the former text's mistake is gone, the box does not take the key.
  if (!isWrong) await widget.locator('.quick-input-message .codicon-error').waitFor({ state: 'hidden' });
  await page.keyboard.press('Enter');
  // The box checks the text again before it closes; opening another one earlier dismisses it.
  if (!isWrong) await widget.getByText(question).first().waitFor({ state: 'hidden' });
}

/** Chooses from the list that is shown. */
async function choose(page: Page, question: string, entry: string): Promise<void> {
  const widget = page.locator('.quick-input-widget');
  await widget.locator(`input[placeholder*="${question}"]`).fill(entry);
  await widget.locator('.monaco-list-row.focused', { hasText: entry }).waitFor();
  await page.keyboard.press('Enter');
}

/** How long the dialog for files leaves a path alone once its list is there, in ms. */
const SETTLED = 1500;

/** Puts a path into the dialog for files. */
async function file(page: Page, dialog: string, path: string): Promise<void> {
  const titled = page.locator('.quick-input-title', { hasText: dialog });
  const widget = page.locator('.quick-input-widget').filter({ has: titled });
  await widget.waitFor();
  const box = widget.locator('input:visible').first();
  // The list of the folder may come late, and takes back what was written.
  await expect
    .poll(async () => {
      await box.fill(path);
      await page.waitForTimeout(SETTLED);
      return box.inputValue();
    })
    .toBe(path);
  await page.keyboard.press('Enter');
}

const notice = (page: Page, text: string | RegExp) =>
  page.locator('.notification-list-item-message', { hasText: text }).first().waitFor();

describe.each<Host>(['node', 'web'])('extension host: %s', host => {
  let editor: Editor;
  const text = (name: string) => readFileSync(join(editor.folder, name), 'utf8');

  beforeAll(async () => {
    editor = await startEditor(host);
    rmSync(join(editor.folder, '.git'), { recursive: true });
    const git = (...args: string[]) =>
      execFileSync('git', ['-c', 'user.name=Test', '-c', 'user.email=test@example.org', ...args], {
        cwd: editor.folder,
      });
    git('init', '--quiet');
    git('add', '.');
    git('commit', '--quiet', '--message', 'The inventory in spring');
    writeFileSync(
      join(editor.folder, 'lawn.wood'),
      text('lawn.wood').replace('dose      18 %', 'dose      15 %'),
    );
    writeFileSync(join(editor.folder, 'table.csv'), TABLE);
    mkdirSync(join(editor.folder, 'new'));
    await openFile(editor.page, 'creek.wood');
    await editor.page.locator('.view-line').first().waitFor();
  });
  afterAll(() => editor?.stop());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      await editor.page.screenshot({ path: `${tmpdir()}/soundwood-e2e-failed.png` });
    // What a failed test leaves open would take the keys of the next one.
    await editor.page.keyboard.press('Escape');
    await editor.page.keyboard.press('Escape');
  });

  test('explains a limit', async () => {
    const { page } = editor;
    await command(page, 'Soundwood: Explain');
    await choose(page, 'A rule, a limit or a word', 'dose-veteran');
    const shown = await pageWith(page, 'dose-veteran');
    await shown.getByText('To change it').waitFor();
  });

  test('checks as of another day, and rejects one that does not exist', async () => {
    const { page } = editor;
    await openFile(page, 'lawn.wood');
    await command(page, 'Soundwood: Check as of a Day');
    await answer(page, 'A date such as 2026-06-01', '2026-06-31', true);
    await page.locator('.quick-input-widget').getByText('Enter a date such as').waitFor();
    await answer(page, 'Enter a date such as', '2036-06-01');
    await problem(page, 'ended 3471 days ago');
    expect(text('.vscode/settings.json')).toMatch(/"soundwood\.on": "2036-06-01"/);
    await command(page, 'Soundwood: Check as of a Day');
    await answer(page, 'A date such as 2026-06-01', '2026-06-01');
  });

  if (host === 'web') {
    test.each(['New Inventory', 'Import a Table', 'Compare with a Commit', 'Save Calendar', 'Export'])(
      '%s says that a browser can not start the program',
      async title => {
        const { page } = editor;
        await command(page, `Soundwood: ${title}`);
        await notice(page, 'which a browser cannot start');
        await command(page, 'Notifications: Clear All Notifications');
      },
    );
    return;
  }

  test('compares with a commit', async () => {
    const { page } = editor;
    await command(page, 'Soundwood: Compare with a Commit');
    await choose(page, 'A branch, tag or commit', 'HEAD');
    const shown = await pageWith(page, 'HEAD');
    await shown.getByText('18 %').first().waitFor();
  });

  test('saves the calendar, and asks before it overwrites one', async () => {
    const { page } = editor;
    await openFile(page, 'lawn.wood');
    await command(page, 'Soundwood: Save Calendar');
    await file(page, 'Save Calendar', join(editor.folder, 'calendar.ics'));
    await notice(page, /calendar\.ics: \d+ dates of \d+ trees/);
    expect(text('calendar.ics')).toMatch(/^BEGIN:VCALENDAR[\s\S]*Lawn maple/);
    writeFileSync(join(editor.folder, 'calendar.ics'), 'kept');
    await command(page, 'Notifications: Clear All Notifications');
    await command(page, 'Soundwood: Save Calendar');
    await file(page, 'Save Calendar', join(editor.folder, 'calendar.ics'));
    await page.getByText('already exists').first().waitFor();
    await page.keyboard.press('Escape');
    expect(text('calendar.ics')).toBe('kept');
    await page.keyboard.press('Escape');
  });

  test('exports the trees', async () => {
    const { page } = editor;
    await openFile(page, 'lawn.wood');
    await command(page, 'Soundwood: Export');
    await choose(page, 'In which form?', 'GeoJSON');
    await file(page, 'Export as GeoJSON', join(editor.folder, 'trees.geojson'));
    await notice(page, /trees\.geojson: \d+ trees/);
    expect(JSON.parse(text('trees.geojson')).features.length).toBeGreaterThan(20);
  });

  test('imports a table as an unsaved text', async () => {
    const { page } = editor;
    await command(page, 'Soundwood: Import a Table');
    await file(page, 'Table of trees', join(editor.folder, 'table.csv'));
    await choose(page, 'Which column has the tags', 'The column that looks like it');
    await page.locator('.tab.active[aria-label*="Untitled-1"]').waitFor();
    await page.locator('.view-line', { hasText: 'tree 8' }).first().waitFor();
    await notice(page, '2 trees from 2 rows');
  });

  test('starts an inventory in another folder', async () => {
    const { page } = editor;
    await command(page, 'Soundwood: New Inventory');
    await choose(page, 'In which folder?', 'Another folder');
    const dialog = 'Folder of the new inventory';
    await file(page, dialog, join(editor.folder, 'new'));
    // The dialog may show what is in the folder first.
    const titled = page.locator('.quick-input-title', { hasText: dialog });
    await expect
      .poll(
        async () => {
          if (await titled.isVisible()) await page.keyboard.press('Enter');
          return titled.isVisible();
        },
        { interval: 1000 },
      )
      .toBe(false);
    await answer(page, 'Name of the site?', 'Mill Lane');
    await answer(page, 'Which country', 'US-OR');
    await answer(page, 'Who inspects?', 'Ada Quill');
    await page.locator('.tab.active[aria-label*="trees.wood"]').waitFor();
    expect(existsSync(join(editor.folder, 'new', 'people.wood'))).toBe(true);
    expect(text('new/site.wood')).toMatch(/^site "Mill Lane"\n {2}region {6}US-OR\n/);
  });

  test('runs the check as a task, with nothing on the path', async () => {
    const { page } = editor;
    // Its title names no other command.
    await command(page, 'Tasks: Run Test Task');
    const check = page.locator('.quick-input-widget .monaco-list-row.focused', {
      hasText: 'soundwood: check',
    });
    const terminal = page.locator('.terminal-wrapper.active .xterm-rows').first();
    await check.or(terminal).first().waitFor();
    if (await check.isVisible()) await page.keyboard.press('Enter');
    await expect.poll(() => terminal.textContent()).toMatch(/\d+\strees\sin\s\d+\sfiles:\s\d+\serrors/);
  });
});
