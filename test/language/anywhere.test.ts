/** Every feature answers at any place of any text, with stretches that lie in it. */

import { expect, test } from 'vitest';
import { parseDate } from '../../grammar/dates.ts';
import { buildWorkspace, type FileSnapshot, readFile } from '../../server/facts/workspace.ts';
import { coloured } from '../../server/language/colours.ts';
import { completions } from '../../server/language/completion.ts';
import { fixes } from '../../server/language/fixes.ts';
import { formatted, formattedOnLineEnd } from '../../server/language/formatting.ts';
import { hints } from '../../server/language/hints.ts';
import { hover } from '../../server/language/hover.ts';
import { lenses } from '../../server/language/lenses.ts';
import { definitions, highlights, references } from '../../server/language/names.ts';
import { photoLinks } from '../../server/language/photos.ts';
import { folds, selections } from '../../server/language/ranges.ts';
import { renamable, rename } from '../../server/language/rename.ts';
import type { Snapshot } from '../../server/language/snapshot.ts';
import { outline } from '../../server/language/symbols.ts';
import { sampleFiles } from '../samples/sample-files.ts';

interface Stretch {
  readonly start: number;
  readonly end: number;
}

function everything(snapshot: Snapshot, file: FileSnapshot, offset: number): readonly Stretch[] {
  const { workspace } = snapshot;
  const at = { start: offset, end: offset };
  const found = hover(snapshot, file, offset);
  const name = renamable(workspace, file, offset);
  const renaming = rename(workspace, file, offset, 'Z9');
  return [
    ...(found ? [found] : []),
    ...(name ? [name] : []),
    ...('edits' in renaming ? renaming.edits.filter(({ path }) => path === file.path) : []),
    ...completions(snapshot, file, offset),
    ...fixes(snapshot, file, at).flatMap(({ edits }) => edits),
    ...highlights(workspace, file, offset),
    ...definitions(workspace, file, offset).filter(({ path }) => path === file.path),
    ...references(workspace, file, offset, true).filter(({ path }) => path === file.path),
    ...selections(file, offset),
    ...formattedOnLineEnd(file, offset),
    ...hints(snapshot, file, { start: offset, end: offset + 200 }).map(hint => ({
      start: hint.at,
      end: hint.at,
    })),
  ];
}

const wholeFile = (snapshot: Snapshot, file: FileSnapshot): readonly Stretch[] => [
  ...coloured(file, { start: 0, end: file.text.length }),
  ...formatted(file),
  ...lenses(snapshot, file),
  ...photoLinks(file),
  ...outline(file).flatMap(symbol => [symbol, symbol.head, ...symbol.children]),
];

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
    expect(wholeFile(snapshot, file).filter(stretch => !inFile(stretch))).toEqual([]);
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
    expect(wholeFile(snapshot, file).every(({ end }) => end <= text.length)).toBe(true);
  }
});
