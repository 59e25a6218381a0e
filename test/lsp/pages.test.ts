/** What the extension asks for besides the protocol: reports, pages on rules, another day; texts without files. */

import { expect, test } from 'vitest';
import type { CodeAction, Diagnostic, Hover } from 'vscode-languageserver-types';
import type { NamedThing } from '../../server/language/explained.ts';
import type { DayParams } from '../../server/lsp/requests.ts';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { type Editor, startEditor } from './client.ts';

const LAWN = `site "Fernhollow Court"
  region      US-OR

person RV "Ruth Varga"
  qualified   consulting arborist

tree 14 "Lawn <b>maple</b>"
  species     Acer macrophyllum
  height      52 ft
  age         mature

  inspection 2026-03-14 from ground
    by        RV
    photo     photos/14-north.jpg

  prescription R1 reduce
    dose      18 %
    because   "lighten the load"
`;

const editing = async (pages?: string): Promise<Editor> => {
  const folder = await folderWith({ 'lawn.wood': LAWN });
  return startEditor({ program: PROGRAM, folder: folder.path, ...(pages ? { pages } : {}) });
};

const dose = (found: readonly Diagnostic[]) => found.find(({ code }) => code === 'season-dose');

test('a report on the folder, whichever of its files asks, and none on a stranger', async () => {
  const editor = await editing();
  // Photographs are looked for after the first findings are told.
  await editor.pushed('lawn.wood', all => all.some(({ code }) => code === 'photo-missing'));
  const report = (uri: string) => editor.request<string | null>('soundwood/report', { uri });
  const page = (await report(editor.uri('lawn.wood')))!;
  expect(page).toContain('<h1>Fernhollow Court</h1>');
  expect(page).toContain('Lawn &lt;b>maple&lt;/b>');
  expect(page).toContain('The dose of 18 % exceeds the limit of 15 %');
  expect(page).toMatch(/photos\/14-north\.jpg.*is not shown in the editor/);
  expect(page).toContain("default-src 'none'");
  expect(await report(editor.uri('').replace(/\/$/, ''))).toBe(page);
  expect(await report('file:///nowhere/at-all')).toBeNull();
});

test('what can be measured: the photograph of a line, and none elsewhere', async () => {
  const editor = await editing();
  const at = (word: string) => ({
    textDocument: { uri: editor.uri('lawn.wood') },
    position: { line: LAWN.split('\n').findIndex(line => line.includes(word)), character: 0 },
  });
  await editor.pushed('lawn.wood', all => all.some(({ code }) => code === 'photo-missing'));
  const measure = (params: object) => editor.request<object | null>('soundwood/measure', params);
  expect(await measure(at('14-north'))).toEqual({
    photo: editor.uri('photos/14-north.jpg'),
    tree: '14',
    defects: [],
  });
  expect(await measure(at('species'))).toBeNull();
  const asked = {
    shown: { width: 400, height: 300 },
    points: [
      { x: 10, y: 10 },
      { x: 60, y: 10 },
    ],
    distance: '20 ft',
    known: '',
    lens: '',
    oblique: '',
  };
  expect(await measure({ ...at('14-north'), asked })).toMatchObject({
    mistake: expect.stringContaining('Its file does not state the lens'),
  });
});

test('the code of a finding leads to a page that the editor can ask for', async () => {
  const editor = await editing('soundwood:/rule/');
  const found = await editor.pushed('lawn.wood', all => dose(all) !== undefined);
  expect(dose(found)!.codeDescription).toEqual({ href: 'soundwood:/rule/season-dose.md' });
  const page = (name: string) => editor.request<string | null>('soundwood/page', { name });
  expect(await page('season-dose')).toMatch(/^# season-dose\n[\s\S]*## Sources\n[\s\S]*```wood/);
  expect(await page('../secrets')).toBeNull();
});

test('everything that has a name has a page', async () => {
  const editor = await editing();
  const names = await editor.request<readonly NamedThing[]>('soundwood/names', undefined);
  expect(names.find(({ name }) => name === 'season-dose')?.kind).toMatch(/^rule, /);
  const page = (name: string) => editor.request<string | null>('soundwood/page', { name });
  for (const { name } of names) expect(await page(name), name).toMatch(/^# /);
  expect(await page('dose')).toMatch(/A limit: [\s\S]* %\.[\s\S]*A field of prescription/);
  expect(await page('nest check')).toMatch(/A head inside a tree\.[\s\S]*stand-off/);
});

test('mistakes of the notation have no page and no link', async () => {
  const editor = await editing('soundwood:/rule/');
  editor.open('lawn.wood', LAWN.replace('mature', 'matur'));
  const found = await editor.pushed('lawn.wood', all => all.some(({ code }) => code === 'unknown-word'));
  expect(found.find(({ code }) => code === 'unknown-word')).not.toHaveProperty('codeDescription');
});

test('another day is taken while the server runs, and settings of others leave it alone', async () => {
  const editor = await editing();
  const old = (all: readonly Diagnostic[]) => all.some(({ code }) => code === 'inspection-old');
  await editor.pushed('lawn.wood', all => dose(all) !== undefined && !old(all));
  const settings = (given: object) =>
    void editor.connection.sendNotification('workspace/didChangeConfiguration', { settings: given });
  settings({ soundwood: { on: '2036-06-01' } });
  await editor.pushed('lawn.wood', old);
  settings({});
  settings({ soundwood: { on: '2026-06-01' } });
  await editor.pushed('lawn.wood', all => dose(all) !== undefined && !old(all));
});

test('the day is told, and one that does not exist is said to be wrong', async () => {
  const editor = await editing();
  const told: DayParams[] = [];
  const warned: string[] = [];
  editor.connection.onNotification('$/soundwood/day', (day: DayParams) => told.push(day));
  editor.connection.onRequest('window/showMessageRequest', ({ message }: { message: string }) => {
    warned.push(message);
    return null;
  });
  const setDay = (on: string) =>
    void editor.connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { soundwood: { on } },
    });
  setDay('2026-06-31');
  await expect.poll(() => told.at(-1)?.mistake).toContain('2026-06-31, which is not a date');
  expect(told.at(-1)!.isToday).toBe(true);
  await expect.poll(() => warned).toEqual([told.at(-1)!.mistake]);
  setDay('2036-06-01');
  await expect.poll(() => told.at(-1)).toEqual({ day: '2036-06-01', isToday: false });
});

test('a text without a file: diagnostics, hover and quick fixes, and nothing of another such text', async () => {
  const editor = await editing();
  const uri = 'untitled:Untitled-1';
  // The sample of the walkthrough may be opened twice.
  editor.open(uri, LAWN.replace('mature', 'matur'));
  editor.open('untitled:Untitled-2', LAWN);
  const found = await editor.pushed(uri, all => all.length > 0);
  expect(found.map(({ code }) => code)).not.toContain('duplicate-tag');
  const { range } = found.find(({ code }) => code === 'unknown-word')!;
  const about = { textDocument: { uri }, range, context: { diagnostics: [], only: ['quickfix'] } };
  const [fix] = await editor.request<CodeAction[]>('textDocument/codeAction', about);
  expect(fix).toMatchObject({
    title: 'Write mature',
    edit: { changes: { [uri]: [{ range, newText: 'mature' }] } },
  });
  const at = { line: LAWN.split('\n').indexOf('    by        RV'), character: 15 };
  const hover = await editor.request<Hover>('textDocument/hover', { textDocument: { uri }, position: at });
  expect(hover.contents).toMatchObject({ value: expect.stringContaining('Ruth Varga') });
});
