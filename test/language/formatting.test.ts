import { expect, test } from 'vitest';
import { tidy } from '../../grammar/tidy.ts';
import { meets } from '../../server/language/cursor.ts';
import { formatted, formattedOnLineEnd, formattedWithin } from '../../server/language/formatting.ts';
import { sampleFiles } from '../samples/sample-files.ts';
import { edited, fixture } from './fixture.ts';

const UNTIDY = 'tree 1\ndbh  41in # wide\n\n\n\n   defect A cavity\n on trunk   at 3 m\ntree 2\nvigor god\n';

test('the edits give the canonical print and touch only what differs', () => {
  const { file } = fixture(UNTIDY);
  const edits = formatted(file);
  expect(edited(file.text, edits)).toBe(tidy(file.text).text);
  for (const { start, end, text } of edits) expect(file.text.slice(start, end)).not.toBe(text);
  expect(formatted(fixture(tidy(UNTIDY).text).file)).toEqual([]);
});

test('line ends are kept', () => {
  const { file } = fixture(UNTIDY.replaceAll('\n', '\r\n'));
  const after = edited(file.text, formatted(file));
  expect(after).toBe(tidy(file.text).text);
  expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
});

test('samples in disorder', () => {
  expect(sampleFiles('fernhollow').length).toBeGreaterThan(5);
  for (const { text } of sampleFiles('fernhollow')) {
    const untidy = text.replace(/^ +/gm, '\t').replace(/ {2,}/g, ' ').replace(/\n\n/g, '\n\n\n\n');
    const { file } = fixture(untidy);
    expect(edited(file.text, formatted(file))).toBe(tidy(file.text).text);
  }
});

test('a stretch has the edits that the whole file has there', () => {
  for (const { text } of sampleFiles('fernhollow')) {
    const untidy = `${text
      .replace(/^ +/gm, '\t')
      .replace(/\n\n/g, '\n\n\n# a comment\n\n')
      .replace(/^tree (\d*[05])$/gm, 'tre $1')}\n\n`;
    const { file } = fixture(untidy);
    const all = formatted(file);
    for (let start = 0; start < untidy.length; start += 211) {
      const within = { start, end: start + (start % 500) };
      expect(formattedWithin(file, within)).toEqual(all.filter(edit => meets(edit, within)));
    }
  }
});

test('a stretch: only its lines', () => {
  const { file } = fixture(UNTIDY);
  const at = file.text.indexOf('on trunk');
  const after = edited(file.text, formattedWithin(file, { start: at, end: at + 4 }));
  expect(after).toContain('dbh  41in # wide\n\n\n\n');
  expect(after).toContain('    on        trunk at 3 m\n');
});

test.each([
  ['below a field', 'tree 1\ndbh 41 in\n‸', 'tree 1\n  dbh         41 in\n  '],
  ['below an inner head', 'tree 1\n  defect A cavity\n‸', 'tree 1\n  defect A cavity\n    '],
  ['within a file', 'tree 1\n‸\ntree 2\n', 'tree 1\n  \ntree 2\n'],
  ['after a blank line in a tree', 'tree 1\n  stem A\n    \n‸\ntree 2\n', 'tree 1\n  stem A\n\n  \ntree 2\n'],
  ['after a blank line below a person', 'person RV "R"\n  \n  ‸\n', 'person RV "R"\n\n\n'],
  [
    'lines of which the edits were dropped',
    'tree 1\n  dbh         41 in\n  age mature\n\n\tdefect A cavity\n on trunk at 3 m\n  \n‸',
    'tree 1\n  dbh         41 in\n  age         mature\n\n  defect A cavity\n    on        trunk at 3 m\n\n  ',
  ],
  [
    'not above a line in its place',
    'tree 1\n age mature\n  dbh         41 in\n  vigor fair\n‸',
    'tree 1\n age mature\n  dbh         41 in\n  vigor       fair\n  ',
  ],
  ['with another line end', 'tree 1\r\n\tdbh 41 in\r\n‸', 'tree 1\r\n  dbh         41 in\r\n  '],
  ['a line with a mistake stays', 'tree 1\n dbh  41\n‸', 'tree 1\n dbh  41\n  '],
])('after a line end: %s', (_, source, expected) => {
  const { file, offset } = fixture(source);
  expect(edited(file.text, formattedOnLineEnd(file, offset))).toBe(expected);
});
