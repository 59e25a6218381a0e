/**
 * A search for texts that the notation can't bear: whatever stands in a file, reading it never fails, printing it
 * keeps what it says, and what is found in it does not hang on the way there. `npm run fuzz` searches for longer.
 */

import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { mergeInventories } from '../../grammar/merge.ts';
import { tidy } from '../../grammar/tidy.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { TableError } from '../../server/import/index.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { INTERNAL_ERROR } from '../../server/rules/raw-finding.ts';
import { folderWith } from '../cli/folder.ts';
import { importText } from '../import/table.ts';
import { everything, type Stretch, wholeFile } from '../language/everything.ts';
import { GROUPS, isLongRun, search, showTried } from './cases.ts';
import { folders } from './folders.ts';
import { factsOf, linesOf, substance } from './meaning.ts';
import { isFoundBlockByBlock, isFoundInParts } from './sharing.ts';
import { anyText, type Change, change, changed, fromBytes, mutated, soup } from './texts.ts';
import { isWholeInEveryForm } from './whole.ts';
import { anyKind, type WrittenLine, written } from './written.ts';

const LONG = { timeout: 0 };

afterAll(() => {
  if (isLongRun) console.info(showTried());
});

test('a long run tries as many cases as it was asked for', () => {
  expect(Object.values(GROUPS).reduce((sum, { share }) => sum + share, 0)).toBeGreaterThanOrEqual(1);
});

/** Reading, printing and reading again. */
function printed(text: string): void {
  const blocks = splitBlocks(text);
  expect(blocks.map(({ block }) => block.text).join('')).toBe(text);
  const once = tidy(text).text;
  expect(tidy(once).text).toBe(once);
  expect(substance(once)).toBe(substance(text));
  expect(linesOf(once)).toEqual(linesOf(text.replace(/^\uFEFF/, '')));
  expect(factsOf(once)).toEqual(factsOf(text.replace(/^\uFEFF/, '')));
}

describe('any text is read, and printed without a change of what it says', LONG, () => {
  test('bytes', () => search('bytes are printed', fromBytes, printed));
  test('words of the notation in any order', () => search('words in any order are printed', soup, printed));
  test('spoilt samples', () => search('spoilt samples are printed', mutated, printed));
});

test('what is written by the tables is read as it was meant, and printed canonically', LONG, () =>
  search('what the tables write is read', written, ({ text, lines }) => {
    const read = (from: string) => (linesOf(from) as WrittenLine[]).map(anyKind);
    const meant = lines.map(anyKind);
    expect(read(text)).toEqual(meant);
    const { text: once, left } = tidy(text);
    expect(left).toEqual([]);
    expect(read(once)).toEqual(meant);
    expect(tidy(once).text).toBe(once);
    expect(factsOf(once)).toEqual(factsOf(text));
  }),
);

test('a file that is edited is read like one that was so from the beginning', LONG, () => {
  const edited = fc.tuple(anyText, fc.array(change, { minLength: 1, maxLength: 5 }));
  return search('edited files are read', edited, ([start, changes]) => {
    let file = readFile('a.wood', start);
    for (const one of changes) {
      file = readFile('a.wood', changed(file.text, one), file);
      const afresh = readFile('a.wood', file.text);
      expect(file.blocks).toEqual(afresh.blocks);
      expect(file.facts).toEqual(afresh.facts);
    }
  });
});

const inventory = fc.array(
  fc.oneof(
    mutated,
    written.map(({ text }) => text),
    soup,
  ),
  { minLength: 1, maxLength: 4 },
);
const PATHS = ['a.wood', 'b/c.wood', 'b/d.wood', 'b/c/e.wood'];
const DAY = 20_605;

test('findings hang neither on the order of the files nor on what was there before', LONG, () =>
  search(
    'findings in any order',
    fc.tuple(inventory, change),
    ([texts, edit]: readonly [readonly string[], Change]) => {
      const files = texts.map((text, i) => readFile(PATHS[i]!, text));
      const found = checkWorkspace(buildWorkspace(files), DAY);
      expect(found.filter(({ rule }) => rule === INTERNAL_ERROR)).toEqual([]);
      for (const { file, start, end } of found) {
        const { length } = texts[PATHS.indexOf(file)]!;
        expect(start >= 0 && start <= end && end <= length).toBe(true);
      }
      expect(checkWorkspace(buildWorkspace(files.toReversed()), DAY)).toEqual(found);
      const before = readFile(PATHS[0]!, changed(texts[0]!, edit));
      const earlier = buildWorkspace([before, ...files.slice(1)]);
      checkWorkspace(earlier, DAY);
      const again = [readFile(PATHS[0]!, texts[0]!, before), ...files.slice(1)];
      expect(checkWorkspace(buildWorkspace(again, earlier), DAY)).toEqual(found);
    },
  ),
);

test('merges never fail, and what only one side changed is taken', LONG, () => {
  const changes = fc.array(change, { maxLength: 3 });
  return search('merges', fc.tuple(anyText, changes, changes), ([base, one, two]) => {
    const ours = one.reduce(changed, base);
    const theirs = two.reduce(changed, base);
    expect(mergeInventories(base, ours, base)).toEqual({ text: ours, conflicts: 0 });
    expect(mergeInventories(base, base, theirs)).toEqual({ text: theirs, conflicts: 0 });
    const merged = mergeInventories(base, ours, theirs);
    const turned = mergeInventories(base, theirs, ours);
    expect(turned.conflicts).toBe(merged.conflicts);
    expect(substance(turned.text).length).toBe(substance(merged.text).length);
  });
});

test('editors get an answer at any place, with stretches that lie in the text', LONG, () =>
  search('answers to editors', fc.tuple(anyText, fc.nat()), ([text, place]) => {
    const file = readFile(PATHS[0]!, text);
    const snapshot = { workspace: buildWorkspace([file]), today: DAY };
    const found = [...everything(snapshot, file, place % (text.length + 1)), ...wholeFile(file)];
    const isOutside = ({ start, end }: Stretch) => !(start >= 0 && start <= end && end <= text.length);
    expect(found.filter(isOutside)).toEqual([]);
  }),
);

const HEADINGS = [
  'tag',
  'id',
  'dbh (in)',
  'dbh (cm)',
  'height',
  'species',
  'notes',
  'vigor',
  'latitude',
  'longitude',
];
const cell = fc.oneof(
  fc.constantFrom('', '1', '12,5', '-3', '1e9', 'Acer rubrum', 'good', '44.3', '"', "'", '=1+1', 'n/a', '\t'),
  soup.map(text => text.slice(0, 30)),
  fc.string({ unit: 'binary', maxLength: 8 }),
);
const quotedCell = cell.map(text => (/[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text));
const table = fc
  .tuple(
    fc.uniqueArray(fc.oneof(fc.constantFrom(...HEADINGS), quotedCell), { minLength: 1, maxLength: 6 }),
    fc.array(fc.array(quotedCell, { maxLength: 7 }), { maxLength: 8 }),
    fc.constantFrom(',', ';', '\t'),
    fc.constantFrom('\n', '\r\n'),
  )
  .map(([heads, rows, comma, end]) => [heads, ...rows].map(row => row.join(comma)).join(end));

test('any table becomes an inventory without a mistake, or is refused', LONG, async () => {
  let taken = 0;
  await search('tables become inventories', table, async csv => {
    try {
      const { text } = await importText(csv);
      expect(
        splitBlocks(text).flatMap(({ block }) => block.lines.flatMap(line => line.mistake ?? [])),
      ).toEqual([]);
      taken++;
    } catch (error) {
      if (!(error instanceof TableError)) throw error;
    }
  });
  expect(taken).toBeGreaterThan(10);
});

test('findings hang neither on the parts of an inventory nor on who puts them together', LONG, async () => {
  const folder = await folderWith({});
  await search('inventories in parts', folders, files => isFoundInParts(folder, files));
});

test('whatever an inventory holds, every form that is put out is whole', LONG, async () => {
  const folder = await folderWith({});
  await search('inventories in every form', folders, files => isWholeInEveryForm(folder, files));
});

test('findings are the same where files are not kept in memory', LONG, async () => {
  const folder = await folderWith({});
  await search('inventories block by block', folders, files => isFoundBlockByBlock(folder, files));
});

/** Texts of a megabyte that ask for more than they hold where a step is taken too often. */
const MEGABYTE = 1 << 20;
const LARGE: readonly (readonly [string, string])[] = [
  ['one line', 'a'],
  ['one line of marks', '"'],
  ['line ends', '\n'],
  ['lone carriage returns', '\r'],
  ['blanks', ' '],
  ['byte order marks', '\uFEFF'],
  ['remarks', '# x\n'],
  ['trees without anything', 'tree 1\n'],
  ['trees that are all different', ''],
  ['damaged heads', 'teee 1\n'],
  ['lines that begin with no known word', 'zzz 1\n'],
  ['fields without a head', '  dbh 41 in\n'],
  ['stray marks', ';\n'],
  ['unclosed quotation marks', '"a\n'],
  ['ranges of nothing', '  dbh ......\n'],
  ['commas', `tree 1\n  dbh ${'1 in, '.repeat(3000)}\n`],
  ['names in a row', `tree 1\n  joined ${'A, '.repeat(5000)}suspected\n`],
  ['words in a row', `tree 1\n  species ${'Acer '.repeat(3500)}\n`],
  ['digits', `tree 1\n  dbh ${'9'.repeat(19_000)} in\n`],
  ['a tree with many defects', '  defect A cavity\n    on trunk at 3 m\n'],
  ['unfinished merges', '<<<<<<< ours\ntree 1\n=======\ntree 1\n>>>>>>> theirs\n'],
  ['sites', 'site "x"\n'],
  ['characters beyond the first plane', '\u{1F333}\n'],
];

const large = () => {
  test.each(LARGE)('%s', (kind, piece) => {
    const text =
      piece === ''
        ? Array.from({ length: MEGABYTE / 30 }, (_, i) => `tree ${i}\n  dbh ${i % 90} in\n`).join('')
        : (kind.startsWith('a tree') ? 'tree 1\n' : '') + piece.repeat(Math.ceil(MEGABYTE / piece.length));
    expect(() => tidy(text)).not.toThrow();
    expect(() => checkWorkspace(buildWorkspace([readFile('a.wood', text)]), DAY)).not.toThrow();
  });
};

if (isLongRun) describe('a megabyte is read, printed and checked, whatever it contains', LONG, large);
