/** Every feature answers at any place of any text, with stretches that lie in it. */

import { expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { folds } from '../../server/language/ranges.ts';
import { sampleFiles } from '../samples/sample-files.ts';
import { everything, type Stretch, wholeFile } from './everything.ts';

/** What happens to texts: cut off, a stretch gone, lines twice, strange marks, other line ends. */
const DAMAGES: readonly (readonly [string, (text: string) => string])[] = [
  ['as it is', text => text],
  ['cut off', text => text.slice(0, Math.floor(text.length * 0.61))],
  ['without its beginning', text => text.slice(37)],
  ['letters gone', text => text.replace(/e(?=[a-z] )/g, '')],
  ['numbers gone', text => text.replace(/\d/g, '')],
  ['marks between', text => text.replace(/ {2}/g, ' @"')],
  ['CRLF', text => text.replaceAll('\n', '\r\n')],
  ['CR and strange characters', text => text.replaceAll('\n', '\r').replaceAll('o', '🌳\u2028')],
];

test.each(DAMAGES)('%s', (_, damage) => {
  const files = sampleFiles('fernhollow').map(({ path, text }) => readFile(path, damage(text)));
  const snapshot = { workspace: buildWorkspace(files), today: parseDate('2026-06-01')! };
  let asked = 0;
  for (const file of files) {
    const inFile = ({ start, end }: Stretch) => start >= 0 && start <= end && end <= file.text.length;
    expect(wholeFile(file).filter(stretch => !inFile(stretch))).toEqual([]);
    for (const fold of folds(file)) expect(fold.first).toBeLessThan(fold.last);
    for (let offset = 0; offset <= file.text.length; offset += 397) {
      expect(everything(snapshot, file, offset).filter(stretch => !inFile(stretch))).toEqual([]);
      asked++;
    }
  }
  expect(asked).toBeGreaterThan(20);
});

test('texts without any head', () => {
  for (const text of ['', '\n', ' ', '#', '"', '\uFEFF', '  dbh 41 in', 'nest', 'nest check', '{}', '\0']) {
    const file = readFile('a.wood', text);
    const snapshot = { workspace: buildWorkspace([file]), today: 0 };
    for (let offset = 0; offset <= text.length; offset++) {
      const found = everything(snapshot, file, offset);
      expect(
        found.every(({ start, end }) => start >= 0 && end <= text.length),
        text,
      ).toBe(true);
    }
    expect(wholeFile(file).every(({ end }) => end <= text.length)).toBe(true);
  }
});
