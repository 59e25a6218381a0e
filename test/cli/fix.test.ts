import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { folderWith } from './folder.ts';

const SITE = 'site "Alder Court"\n  region      US-OR\n';
const FIELD = 'tree 14 Lawn maple\n  species bigleaf maple\n  DBH 41"\n';
const FIXED = 'tree 14 "Lawn maple"\n  species Acer macrophyllum  # bigleaf maple\n  dbh 41 in\n';

test('shows a diff and changes nothing', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'a.wood': FIELD });
  const { code, out } = await folder.run('fix');
  expect(code).toBe(1);
  expect(out).toBe(`--- a/a.wood
+++ b/a.wood
@@ -1,3 +1,3 @@
-tree 14 Lawn maple
-  species bigleaf maple
-  DBH 41"
+tree 14 "Lawn maple"
+  species Acer macrophyllum  # bigleaf maple
+  dbh 41 in
2 files, 1 to fix (use --write).
`);
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe(FIELD);
});

test('--write writes; a file without habits is clean', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'a.wood': FIELD });
  expect((await folder.run('fix', '--write')).code).toBe(0);
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe(FIXED);
  expect(await folder.run('fix')).toEqual({
    code: 0,
    out: '2 files, 0 to fix (use --write).\n',
    err: '',
  });
});

const SYCAMORE = 'tree 14\n  species sycamore\n';

test('the questions are printed, filled in and answered by a script', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'a.wood': SYCAMORE });
  const asked = await folder.run('fix', '--show-questions');
  expect(asked.code).toBe(1);
  const rows = JSON.parse(asked.out);
  expect(rows).toEqual([
    {
      where: ['a.wood:2'],
      question: 'tree: sycamore',
      asks: 'sycamore can be Platanus occidentalis, or Platanus racemosa.',
      choices: ['Platanus occidentalis', 'Platanus racemosa'],
      answer: '',
    },
  ]);
  rows[0].answer = 'Platanus racemosa';
  const answered = await folderWith({
    'site.wood': SITE,
    'a.wood': SYCAMORE,
    'answers.json': JSON.stringify(rows),
  });
  expect((await answered.run('fix', '--answers', 'answers.json', '--write')).code).toBe(0);
  expect(await readFile(answered.file('a.wood'), 'utf8')).toContain('species Platanus racemosa  # sycamore');
});

test('a person is asked at the terminal, once, and may leave it', async () => {
  const folder = await folderWith({
    'site.wood': SITE,
    'a.wood': `${SYCAMORE}\n${SYCAMORE.replace('14', '15')}`,
  });
  expect((await folder.talk([''], 'fix', '--write')).code).toBe(1);
  expect((await folder.talk(['1'], 'fix', '--write')).code).toBe(0);
  const text = await readFile(folder.file('a.wood'), 'utf8');
  expect(text.match(/Platanus occidentalis/g)).toHaveLength(2);
});

test('a file with no answers is refused', async () => {
  const folder = await folderWith({ 'a.wood': SYCAMORE, 'answers.json': '{}' });
  const { code, err } = await folder.run('fix', '--answers', 'answers.json');
  expect(code).toBe(2);
  expect(err).toContain('answers.json contains no answers');
});

const NOTES = `3/16/26 from ground
14 bigleaf maple 41 inch, cavity sw 18 foot up
`;

test('field notes become an inventory on standard output, with what is asked on standard error', async () => {
  const folder = await folderWith({ 'notes.txt': NOTES });
  const { code, out, err } = await folder.run('fix', '--from', 'notes.txt');
  expect(code).toBe(1);
  expect(out).toContain('species     Acer macrophyllum  # bigleaf maple\nsize 41 in\n');
  expect(err).toContain('dbh …');
});

test('a person answers what the notes leave open; the new file never replaces another', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'notes.txt': NOTES });
  const made = await folder.talk(['1', '1'], 'fix', '--from', 'notes.txt', '--output', 'march.wood');
  expect(made.code).toBe(0);
  expect(await readFile(folder.file('march.wood'), 'utf8')).toBe(`tree 14
  species     Acer macrophyllum  # bigleaf maple
  dbh         41 in
  inspection 2026-03-16 from ground
  defect A cavity
    on        trunk at 18 ft, facing SW
`);
  const again = await folder.talk(['1', '1'], 'fix', '--from', 'notes.txt', '--output', 'march.wood');
  expect(again.code).toBe(2);
  expect(again.err).toContain('march.wood already exists');
});

test('control characters of a file reach no terminal', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'a.wood': 'tree 14\n  DBH 41" # \u001b[31m\n' });
  const { out, err } = await folder.run('fix');
  expect(out + err).not.toContain('\u001b');
});
