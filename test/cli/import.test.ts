import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { folderWith, ON } from './folder.ts';

const sample = (name: string) => fileURLToPath(new URL(`../../samples/import/${name}`, import.meta.url));

test('the black cherry trees, from the table to a checked inventory', async () => {
  const folder = await folderWith({});
  const done = await folder.run(
    'import',
    sample('black-cherry.csv'),
    '--mapping',
    sample('black-cherry.json'),
    '--to',
    'cherries.wood',
  );
  expect(done.code).toBe(0);
  expect(done.err.replace(/^.*black-cherry/, 'black-cherry')).toBe(
    'black-cherry.csv: warning: 31 trees got a new tag (1 to 31): no column is read as the tag; name one with --tag COLUMN.\n' +
      '31 trees from 31 rows; 0 cells kept as comments.\n',
  );
  const { code, out } = await folder.run('check', '--as', 'json', '--on', ON);
  const { findings, summary } = JSON.parse(out);
  expect(code).toBe(0);
  expect(summary).toMatchObject({ trees: 31, files: 1, errors: 0 });
  expect(findings.filter((finding: { grade: string }) => finding.grade === 'syntax')).toEqual([]);
  expect((await folder.run('tidy', '--check')).code).toBe(0);
});

test('without the mapping it asks whether the girth is a diameter, and takes nothing', async () => {
  const folder = await folderWith({});
  const shown = await folder.run('import', sample('black-cherry.csv'), '--show-mapping');
  expect(shown.code).toBe(1);
  expect(JSON.parse(shown.out)).toEqual({ Girth: 'dbh in ?', Height: 'height ft', Volume: 'note' });
  expect(shown.err).toContain('open: Column "Girth"');
  await writeFile(folder.file('m.json'), shown.out);
  const open = await folder.run('import', sample('black-cherry.csv'), '--mapping', 'm.json');
  expect(open.code).toBe(2);
  expect(open.err).toContain(
    'm.json: "Girth": "dbh in ?" is undecided. Remove the question mark if it is right',
  );
  const refused = await folder.run('import', sample('black-cherry.csv'), '--no-tag', '--to', 'a.wood');
  expect(refused).toMatchObject({ code: 2, out: '' });
  expect(refused.err).toContain('"Girth": "dbh in ?"');
  await expect(readFile(folder.file('a.wood'))).rejects.toThrow('ENOENT');
});

test('cells that are left out are named with their line, up to ten', async () => {
  const rows = Array.from({ length: 12 }, (_, index) => `${index + 1},0`).join('\n');
  const folder = await folderWith({ 'a.csv': `tag,dbh (in)\n${rows}\n` });
  const { code, out, err } = await folder.run('import', 'a.csv');
  expect(code).toBe(0);
  expect(out.match(/^tree /gm)).toHaveLength(12);
  expect(err).toContain('a.csv:2: note: dbh (in) "0" left out: no tree has the size 0');
  expect(err.match(/left out/g)).toHaveLength(10);
  expect(err).toContain('and 2 more');
});

test('what is no table is told by its name', async () => {
  const folder = await folderWith({ 'trees.wood': 'tree 1\n', 'trees.xlsx': 'PK' });
  expect((await folder.run('import', 'trees.wood')).err).toBe(
    'soundwood: trees.wood is already an inventory; a table to import ends in .csv.\n',
  );
  expect((await folder.run('import', 'trees.xlsx')).err).toContain('save the sheet with the trees as CSV');
});

test('never overwrites, and says what it could not read', async () => {
  const folder = await folderWith({
    'a.csv': 'tag\n1\n',
    'a.wood': 'tree 1\n',
    'bad.json': '{"tag": "tga"}',
  });
  expect((await folder.run('import', 'a.csv', '--to', 'a.wood')).err).toContain('a.wood already exists');
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe('tree 1\n');
  expect(await folder.run('import', 'gone.csv')).toEqual({
    code: 2,
    out: '',
    err: 'soundwood: gone.csv does not exist.\n',
  });
  const bad = await folder.run('import', 'a.csv', '--mapping', 'bad.json');
  expect(bad.code).toBe(2);
  expect(bad.err).toContain('bad.json: "tag": "tga" is not a meaning of a column. Did you mean tag?');
});

const TREES =
  'Tree #,Species,dbh (in)\n101,Acer rubrum,12\n102,Acer rubrum,13\n102,Acer rubrum,9\n,Acer rubrum,8\nA 7,Acer rubrum,8\n';

test('numbers of the table stay; new ones are told with their reason, and the old one is kept', async () => {
  const folder = await folderWith({ 'a.csv': TREES, 'site.wood': 'site "Court"\n  region US-OR\n' });
  const { code, out, err } = await folder.run('import', 'a.csv', '--to', 'a.wood');
  expect({ code, out }).toEqual({ code: 0, out: '' });
  expect(err).toBe(
    [
      'a.csv: note: Column "Tree #" is read as the tag.',
      'a.csv:4: note: Tree # "102" left out: the table has this tag several times.',
      'a.csv: warning: 1 tree got a new tag (row-4): the table has this tag several times.',
      'a.csv: warning: 1 tree got a new tag (row-5): the table has none.',
      `a.csv: note: 1 tag respelled for the notation (A-7); the original is kept as a note of the tree.`,
      '5 trees from 5 rows; 1 cell kept as comments.',
      '',
    ].join('\n'),
  );
  const text = await readFile(folder.file('a.wood'), 'utf8');
  expect(text.match(/^tree .*/gm)).toEqual(['tree 101', 'tree 102', 'tree row-4', 'tree row-5', 'tree A-7']);
  // Papers that say 102 may mean either tree, which a check says from now on.
  expect((await folder.run('check', '--on', ON, '--format', 'lines')).out).toContain(
    'was formerly 102, and another tree now has the tag 102',
  );
  expect((await folder.run('weigh', 'A-7')).code).toBe(0);
});

const TWO = 'Tree_ID,Tree no,dbh (in)\n14,1,12\n15,2,13\n17,3,9\n';

test('of two columns one is taken, told without a terminal, and asked for at one', async () => {
  const folder = await folderWith({ 'a.csv': TWO });
  const alone = await folder.run('import', 'a.csv');
  expect(alone).toMatchObject({ code: 2, out: '' });
  expect(alone.err).toContain(
    'a.csv: open: Column "Tree_ID" is read as the tag; "Tree no" may also be it, and becomes a note. Pass --tag "Tree no" if those are the tags.\n',
  );
  const tags = (text: string) => text.match(/^tree .*/gm);

  const told = await folder.run('import', 'a.csv', '--tag', 'tree NO');
  expect(tags(told.out)).toEqual(['tree 1', 'tree 2', 'tree 3']);
  expect(told.out).toContain('note        "Tree_ID: 14"');
  expect(told.err).toBe('3 trees from 3 rows; 0 cells kept as comments.\n');
  const none = await folder.run('import', 'a.csv', '--no-tag');
  expect(tags(none.out)).toEqual(['tree row-2', 'tree row-3', 'tree row-4']);
  expect(none.err).toContain(
    'warning: 3 trees got a new tag (row-2, row-3, row-4): no column is read as the tag',
  );
  expect(await folder.run('import', 'a.csv', '--tag', 'Tagg')).toMatchObject({
    code: 2,
    err: 'soundwood: --tag: The table has no column "Tagg"; it has "Tree_ID", "Tree no", "dbh (in)".\n',
  });

  const asked = await folder.talk(['Tagg', 'Tree no'], 'import', 'a.csv');
  expect(asked.out).toContain('The table has no column "Tagg"');
  expect(tags(asked.out)).toEqual(['tree 1', 'tree 2', 'tree 3']);
  expect(tags((await folder.talk([''], 'import', 'a.csv')).out)).toEqual(['tree 14', 'tree 15', 'tree 17']);
  expect(tags((await folder.talk(['none'], 'import', 'a.csv')).out)![0]).toBe('tree row-2');
  // Nothing is asked where the mapping is only shown, or where there is one column.
  expect((await folder.talk(['none'], 'import', 'a.csv', '--show-mapping')).out).toContain(
    '"Tree_ID": "tag ?"',
  );
  await writeFile(folder.file('one.csv'), 'Tree #,dbh (in)\n5,12\n');
  expect(tags((await folder.talk(['none'], 'import', 'one.csv')).out)).toEqual(['tree 5']);
});

test('begin asks for the column of the tags, and keeps the answer in the mapping', async () => {
  const folder = await folderWith({ 'a.csv': TWO });
  const answers = ['Tree no', 'yes', 'Fernhollow Court', 'US-OR', 'Ruth Varga'];
  expect((await folder.talk(answers, 'begin', 'new', '--from', 'a.csv')).code).toBe(0);
  expect(await readFile(folder.file('new/trees.wood'), 'utf8')).toMatch(/^tree 1$/m);
  expect(JSON.parse(await readFile(folder.file('new/mapping.json'), 'utf8'))).toEqual({
    Tree_ID: 'note',
    'Tree no': 'tag',
    'dbh (in)': 'dbh in',
  });
  const flags = ['--name', 'x', '--region', 'US-OR', '--person', 'Ruth Varga', '--tag', 'Tree_ID'];
  expect((await folder.run('begin', 'other', '--from', 'a.csv', ...flags)).code).toBe(0);
  expect(await readFile(folder.file('other/trees.wood'), 'utf8')).toMatch(/^tree 14$/m);
});

test('a mapping of a file decides; one without a tag numbers the trees and says so', async () => {
  const folder = await folderWith({ 'a.csv': TWO, 'm.json': '{"Tree no": "note", "dbh (in)": "dbh in"}' });
  const { out, err } = await folder.run('import', 'a.csv', '--mapping', 'm.json');
  expect(out).toContain('tree row-2\n');
  expect(err).toContain(
    'warning: 3 trees got a new tag (row-2, row-3, row-4): no column is read as the tag; name one with --tag COLUMN.\n',
  );
  expect((await folder.run('import', 'a.csv', '--mapping', 'm.json', '--tag', 'Tree_ID')).out).toContain(
    'tree 17\n',
  );
});

const OPEN = 'Tree no,Species,DIAMETER,Stump\n1,Sycamore,14,x\n2,Acer rubrum,22,y\n3,stump,30,z\n';

test('at a terminal what is doubtful is asked, and the answers replay without a question', async () => {
  const folder = await folderWith({ 'a.csv': OPEN });
  const alone = await folder.run('import', 'a.csv', '--to', 'a.wood');
  expect(alone.code).toBe(2);
  expect(alone.err).toContain('open: Column "DIAMETER"');
  const asked = await folder.talk(['dbh in', '1'], 'import', 'a.csv', '--to', 'a.wood');
  expect(asked.code).toBe(0);
  expect(asked.out).toContain('"Sycamore" in "Species"');
  expect(asked.err).toContain('The first rows:');
  expect(asked.err).toContain(
    'a.csv: warning: 1 row is not a tree and was kept as comments at the end (a stump: 1).',
  );
  const text = await readFile(folder.file('a.wood'), 'utf8');
  expect(text.match(/^(?:tree| {2}dbh| {2}species) .*/gm)).toEqual([
    'tree 1',
    '  species     Acer pseudoplatanus  # Sycamore',
    '  dbh         14 in',
    'tree 2',
    '  species     Acer rubrum',
    '  dbh         22 in',
  ]);
  expect(text).toContain('# Rows of the table that are not trees:\n# Line 4, Species "stump": a stump.');
  const mapping = await readFile(folder.file('a.mapping.json'), 'utf8');
  expect(JSON.parse(mapping)).toMatchObject({
    DIAMETER: 'dbh in',
    Species: { means: 'species', values: { Sycamore: 'Acer pseudoplatanus' } },
  });
  const again = await folder.talk([], 'import', 'a.csv', '--mapping', 'a.mapping.json', '--to', 'b.wood');
  expect(again.code).toBe(0);
  expect(await readFile(folder.file('b.wood'), 'utf8')).toBe(text);
});

test('other encodings, and grids that the command names', async () => {
  const folder = await folderWith({
    'a.csv': Buffer.from(
      'Nr;Baumart;x;y\n1;Tilia cordata;391521,4;5820110,2\n2;H\u00e4nge-Birke;391530;5820118\n',
      'latin1',
    ),
  });
  const faulty = await folder.run('import', 'a.csv');
  expect(faulty.err).toContain('or name its encoding: --encoding windows-1252');
  const { code, out, err } = await folder.run('import', 'a.csv', '--encoding', 'latin1', '--crs', '25833');
  expect({ code, err }).toMatchObject({ code: 0 });
  expect(out).toContain('  position    52.5202906, 13.4011888\n');
  expect(out).toContain('Baumart "H\u00e4nge-Birke" left out');
  expect((await folder.run('import', 'a.csv', '--encoding', 'klingon')).err).toContain(
    'unknown encoding klingon',
  );
  expect((await folder.run('import', 'a.csv', '--encoding', 'latin1', '--crs', '99999')).err).toContain(
    '--crs: 99999 is not',
  );
});
