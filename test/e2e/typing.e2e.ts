/** Lines typed key by key at the speed of a person, by someone who has changed no setting of the editor. */

import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile, settingsFor } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { readInRegion } from '../../server/show/in-region.ts';
import { type Editor, type Host, startEditor } from './editor.ts';
import { openFile, problem, save, typeIn } from './hands.ts';

const SITE = `site "Fernhollow Court"
  region      US-OR

person RV "Ruth Varga"
  qualified   consulting arborist, remote pilot
`;
const TREE = /^tree 14 "Lawn maple"\n[\s\S]*?(?=^```)/m.exec(readFileSync('README.md', 'utf8'))![0];
/** As people type it: single spaces, and the editor indents. */
const asTyped = (text: string) => text.replace(/^ +/gm, '').replace(/ {2,}/g, ' ');
const EMPTY = ['typed', 'mended', 'quoted', 'undone', 'tabbed', 'pasted'];

describe.each<Host>(['node', 'web'])('extension host: %s', host => {
  let editor: Editor;
  beforeAll(async () => {
    const empty = Object.fromEntries(EMPTY.map(name => [`${name}.wood`, '']));
    editor = await startEditor(host, { 'site.wood': SITE, 'tree.wood': TREE, ...empty });
  });
  afterAll(() => editor?.stop());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      await editor.page.screenshot({ path: `${tmpdir()}/soundwood-e2e-failed.png` });
  });

  /** The text of a file becomes this; it is saved each time it is looked at. */
  const becomes = (name: string, expected: string) =>
    expect
      .poll(async () => {
        await save(editor.page);
        return readFileSync(join(editor.folder, name), 'utf8');
      })
      .toBe(expected);

  test('the server is there', async () => {
    await openFile(editor.page, 'tree.wood');
    await problem(editor.page, 'Cavity A (18 ft up)');
  });

  test('the tree of the README comes out as it stands there, with its findings', async () => {
    const { page } = editor;
    await openFile(page, 'typed.wood');
    const tree = TREE.replace('tree 14', 'tree 15');
    await typeIn(page, asTyped(tree));
    await becomes('typed.wood', `${tree}    `);
    const files = [readFile('site.wood', SITE), readFile('typed.wood', tree)];
    const workspace = buildWorkspace(files);
    const findings = checkWorkspace(workspace, parseDate('2026-06-01')!);
    const serious = findings.filter(({ level }) => level === 'error');
    expect(serious.length).toBeGreaterThan(2);
    const { region } = settingsFor(workspace, 'typed.wood');
    for (const { message } of serious) await problem(page, readInRegion(message, region).slice(0, 60));
  });

  test('mistakes taken back with Backspace, and the indentation after a blank line', async () => {
    const { page } = editor;
    await openFile(page, 'mended.wood');
    await typeIn(page, 'tree 21\nvigor good⌫⌫⌫⌫fair\nagee⌫ mature\n\n⌫tree 22\ndbh 41 in\n');
    await becomes(
      'mended.wood',
      'tree 21\n  vigor       fair\n  age         mature\n\ntree 22\n  dbh         41 in\n  ',
    );
  });

  test('quotation marks close by themselves and are typed over', async () => {
    const { page } = editor;
    await openFile(page, 'quoted.wood');
    await typeIn(page, 'tree 23 "Lawn maple"\nnote "the ""old"" maple"\nnote "by"\n');
    await becomes(
      'quoted.wood',
      'tree 23 "Lawn maple"\n  note        "the ""old"" maple"\n  note        "by"\n  ',
    );
  });

  test('one undo takes back the alignment', async () => {
    const { page } = editor;
    await openFile(page, 'undone.wood');
    await typeIn(page, 'tree 24\ndbh 41 in\n');
    await becomes('undone.wood', 'tree 24\n  dbh         41 in\n  ');
    await page.keyboard.press('Control+Z');
    await becomes('undone.wood', 'tree 24\n  dbh 41 in\n  ');
  });

  test('Tab accepts a suggestion', async () => {
    const { page } = editor;
    await openFile(page, 'tabbed.wood');
    await typeIn(page, 'tree 25\nvigor fa');
    const offer = page.locator('.suggest-widget.visible .monaco-list-row', { hasText: 'fair' });
    await offer.waitFor();
    await typeIn(page, '\t\nage mature\n');
    await becomes('tabbed.wood', 'tree 25\n  vigor       fair\n  age         mature\n  ');
  });

  test('a block that is pasted comes out as it was copied, and one undo takes it back', async () => {
    const { page } = editor;
    await openFile(page, 'tree.wood');
    await page.keyboard.press('Control+A');
    await page.keyboard.press('Control+C');
    await openFile(page, 'pasted.wood');
    await page.keyboard.press('Control+V');
    await becomes('pasted.wood', TREE);
    await page.keyboard.press('Control+Z');
    await becomes('pasted.wood', '');
  });
});
