/** A report on paper, by the browser that the machine has. */

import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { afterEach, expect, test, vi } from 'vitest';
import { withoutBrowser } from '../browser/chromium.ts';
import { folderWith } from '../cli/folder.ts';

const INVENTORY = `site "Court"
  region US-OR

tree 14 "Oak"
  dbh 41 in
  height 52 ft
  crown from 14 ft, 40 ft wide
  prescription R1 clean
    because "dead branches over the path"
`;

afterEach(() => vi.unstubAllEnvs());

test.skipIf(withoutBrowser)('report.pdf is a PDF with an outline and pages', async () => {
  const folder = await folderWith({ 'a.wood': INVENTORY });
  const { code, out, err } = await folder.run('report', '--output', 'report.pdf');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/^report\.pdf: 1 tree\.\n/);
  const pdf = (await readFile(folder.file('report.pdf'))).toString('latin1');
  expect(pdf).toMatch(/^%PDF-/);
  expect(pdf).toMatch(/%%EOF\s*$/);
  expect(pdf).toContain('/Outlines');
  expect([...pdf.matchAll(/\/MediaBox/g)].length).toBeGreaterThanOrEqual(3);
});

test('without a browser it says what to install and what to do instead, before any work', async () => {
  vi.stubEnv('BROWSER_PATH', '/nowhere/browser');
  const folder = await folderWith({ 'a.wood': INVENTORY });
  const { code, out, err } = await folder.run('report', '--output', 'report.pdf');
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toContain('/nowhere/browser (BROWSER_PATH)');
  expect(err).toContain('--output report.html');
  expect(existsSync(folder.file('report.pdf'))).toBe(false);
});

test('a program that is no browser leaves the file that was there', async () => {
  vi.stubEnv('BROWSER_PATH', process.execPath);
  const folder = await folderWith({ 'a.wood': INVENTORY, 'report.pdf': 'old' });
  const { code, err } = await folder.run('report', '--output', 'report.pdf');
  expect(code).toBe(2);
  expect(err).toContain('could not print the page');
  expect(await readFile(folder.file('report.pdf'), 'utf8')).toBe('old');
});

test('a report of files elsewhere names them by their place in the inventory', async () => {
  const folder = await folderWith({
    'north/court/a.wood': INVENTORY.replace('clean', 'clean\n    dose 200 %'),
    'north/court/site.wood': 'site "Other"\n  region US-OR\n',
    'desk/keep.txt': '',
  });
  const { out } = await folder.runIn('desk', 'report', '../north/court', '--for', 'office');
  expect(out).toContain('a.wood:');
  expect(out).not.toContain('../');
});
