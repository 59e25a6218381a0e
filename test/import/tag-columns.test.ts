/** The tags of a table: who goes to the wrong tree cuts the wrong tree, so that no number is given without a word. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { guessMapping, readMapping } from '../../server/import/index.ts';
import { importText, readTable } from './table.ts';

const cell = (text: string) => `"${text.replaceAll('"', '""')}"`;
const tableOf = (heads: readonly string[], rows: readonly (readonly string[])[]) =>
  [heads, ...rows].map(row => `${row.map(cell).join(',')}\n`).join('');
const NUMBERS = [['101'], ['102'], ['107']];
const tagsOf = async (heads: readonly string[], rows: readonly (readonly string[])[]) => {
  const { mapping, tags } = guessMapping(await readTable(tableOf(heads, rows)));
  const taken = [...mapping].find(([, { kind }]) => kind === 'tag')?.[0];
  expect(tags.taken).toBe(taken);
  return tags;
};

describe('headings of the tag, over numbers that stand once', () => {
  test.each([
    ...['Tree #', '#', 'Tree', 'Num', 'No.', 'Tree No', 'ID', 'Tag', 'Baum-Nr', 'N°', 'Tree_ID', 'OBJECTID'],
    ...[
      'TREENO',
      'treeid',
      'TreeNumber',
      'Tree Num.',
      'Tree nbr',
      'Tag No.',
      'tag#',
      'T#',
      'Label',
      'Tree label',
    ],
    ...[
      'Baumnummer',
      'Baumnr.',
      'Baum Nr',
      'Plakettennummer',
      'Numéro',
      'N° arbre',
      'Nº',
      '№',
      'Etiqueta',
      'Årbol n°',
    ],
    ...[
      'Boom nr',
      'Träd nr',
      'Asset ID',
      'AssetID',
      'Inventory No',
      'Item',
      'Ref',
      'Tree ref.',
      'Unique ID',
      'FID',
    ],
    ...[
      'GlobalID',
      'ObjectID *',
      'TREE_NUM_1',
      'S.No',
      'Parks tree no',
      'Tree tag number',
      'New tag',
      'id_tree',
    ],
  ])('%s', async heading => {
    expect((await tagsOf([heading, 'Species'], NUMBERS)).taken).toBe(heading);
  });

  test.each([
    ...[
      'No. of stems',
      'Number of trees',
      'No trees',
      'Stem no',
      'House No',
      'Plot no',
      'Site ID',
      'Planting year',
    ],
    ...['Phone number', 'Tag colour', 'Species', 'Tree name', 'Tree height (m)', 'X', 'Price'],
  ])('%s is none', async heading => {
    expect((await tagsOf([heading, 'Species'], NUMBERS)).taken).toBeUndefined();
  });
});

test.each(['Old tag', 'Previous tree no.', 'formerly', 'Former number', 'Alte Nummer'])(
  '%s has tags of before: the tree is found by them, and new ones are not like them',
  async heading => {
    const { text } = await importText(
      tableOf(
        [heading, 'dbh (in)'],
        [
          ['101', '12'],
          ['T-7, T-8', '9'],
          ['', '8'],
        ],
      ),
    );
    expect(text).toContain('tree row-2\n  dbh         12 in\n  formerly    101\n');
    expect(text).toContain('  formerly    T-7\n  formerly    T-8\n');
    const both = await importText(tableOf([heading, 'Tag'], [['101', '1']]));
    expect(both.text).toContain('tree 1\n  formerly    101\n');
  },
);

test('the label on the tree counts before its number, a number before a bare one, that before a key', async () => {
  const heads = ['OBJECTID', '#', 'Tree no', 'Label'];
  const rows = [1, 2, 3].map(n => [`${n + 900}`, `${n}`, `${n + 70}`, `A${n}`]);
  for (const left of [4, 3, 2, 1]) {
    const { taken, others, doubtful } = await tagsOf(
      heads.slice(0, left),
      rows.map(row => row.slice(0, left)),
    );
    expect(taken).toBe(heads[left - 1]);
    // A key of the database is no rival.
    expect(others).toEqual(heads.slice(1, Math.max(1, left - 1)).reverse());
    expect(doubtful).toBe(others.length > 0);
  }
});

test('what speaks against a column is said, and what to pass', async () => {
  const slip = await tagsOf(['Num'], [['7'], ['8'], ['8'], ['9']]);
  expect(slip).toMatchObject({ taken: 'Num', doubtful: true });
  expect(slip.warning).toBe(
    'Column "Num" is read as the tag, though 1 of 4 rows repeat another. Pass --no-tag if it is something else, to assign new tags.',
  );
  // Hardly the tags: most rows repeat one.
  const stems = await tagsOf(['No'], [['1'], ['1'], ['1'], ['2']]);
  expect(stems).toMatchObject({ taken: undefined, others: ['No'], doubtful: true });
  expect(stems.warning).toBe(
    'No column is read as the tag; "No" (2 of 4 rows repeat another) may be it. Pass --tag "No" if those are the tags, --no-tag if there are none.',
  );
  // A kind of tree, not its number.
  const kinds = guessMapping(await readTable(tableOf(['Tree'], [['Oak'], ['Ash'], ['Elm']])));
  expect(kinds.tags).toMatchObject({ taken: undefined, others: [] });
  expect(kinds.questions).toMatchObject([
    { column: 'Tree', choices: [{ kind: 'common-name' }, { kind: 'note' }] },
  ]);
  // Few trees have a label: the key is taken, and the label may be what they are known by.
  const few = await tagsOf(
    ['OBJECTID', 'Tag'],
    [
      ['901', ''],
      ['902', ''],
      ['903', 'A7'],
    ],
  );
  expect(few).toMatchObject({ taken: 'OBJECTID', others: ['Tag'], doubtful: true });
  // Under a heading that nobody knows: asked about, not taken.
  expect(await tagsOf(['Zusatz', 'Species'], NUMBERS)).toMatchObject({
    taken: undefined,
    others: ['Zusatz'],
    doubtful: true,
  });
  expect(await tagsOf(['Volume'], [['10.3'], ['10.4'], ['9.9']])).toMatchObject({
    taken: undefined,
    others: [],
  });
});

test('new tags are not like those that a column may hold', async () => {
  const kinds = await importText(
    tableOf(
      ['No', 'dbh (in)'],
      [
        ['1', '9'],
        ['1', '8'],
        ['1', '7'],
      ],
    ),
  );
  expect(kinds.text.match(/^tree .*/gm)).toEqual(['tree row-2', 'tree row-3', 'tree row-4']);
  expect(kinds.text).toContain('# The tags are new, because no column is read as the tag.\n');
  expect(kinds.text).toContain('note        "No: 1"');
  const none = await importText(tableOf(['dbh (in)'], [['9'], ['8']]));
  expect(none.text.match(/^tree .*/gm)).toEqual(['tree 1', 'tree 2']);
});

test('tags are kept as near to the table as the notation has them', async () => {
  const { text } = await importText(
    tableOf(['Tag'], [['A 9'], ['#12'], ['12?'], ['A 9'], ['A-9'], ['–'], ['7/2']]),
  );
  expect(
    text
      .split('\n\n')
      .slice(1)
      .map(tree =>
        tree
          .trimEnd()
          .split('\n')
          .map(line => line.trim().replace(/ +/g, ' ')),
      ),
  ).toEqual([
    ['tree A-9', 'note "Tag: A 9"'],
    ['tree 12', 'note "Tag: #12"'],
    // Whoever wrote the mark was not sure.
    ['tree row-4', '# Tag "12?" left out: it is not a valid tag'],
    ['tree row-5', '# Tag "A 9" left out: the table has this tag several times', 'formerly A-9'],
    ['tree row-6', '# Tag "A-9" left out: the table has this tag several times', 'formerly A-9'],
    ['tree row-7', '# Tag "–" left out: it is not a valid tag'],
    ['tree 7/2'],
  ]);
});

const AS_TAG = readMapping('{"Tag": "tag", "dbh (in)": "dbh in"}');

test('whatever the cells of a tag hold: every tree has its own, and what the table had is in its text', async () => {
  const tag = fc.oneof(
    fc.stringMatching(/^[A-Z]{0,2}[- #.]?[0-9]{1,3}[a-z?]?$/),
    fc.constantFrom('', '7', '7', '-', 'none', 'x y', '№ 4', '1/2', 'row-3', '"'),
  );
  await fc.assert(
    fc.asyncProperty(fc.array(tag, { minLength: 1, maxLength: 9 }), async cells => {
      const { text } = await importText(
        tableOf(
          ['Tag', 'dbh (in)'],
          cells.map(one => [one, '9']),
        ),
        AS_TAG,
      );
      const trees = text.split(/^(?=tree )/m).slice(1);
      expect(trees).toHaveLength(cells.length);
      const tags = trees.map(tree => /^tree (\S+)/.exec(tree)![1]!);
      expect(new Set(tags).size).toBe(tags.length);
      for (const [i, one] of cells.entries())
        expect(trees[i]).toContain(one === '' ? 'Empty in the table: Tag' : one.trim().replaceAll('"', '""'));
    }),
    { numRuns: 200 },
  );
});
