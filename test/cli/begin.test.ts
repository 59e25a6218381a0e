import { readFile, rm, writeFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { folderWith, ON } from './folder.ts';

const FLAGS = [
  '--name',
  'Fernhollow "Court"',
  '--region',
  'us-or',
  '--units',
  'imperial',
  '--person',
  'Ruth Varga',
];

test.each(['imperial', 'metric'])('what it writes checks clean and is tidy: %s', async units => {
  const folder = await folderWith({});
  const begun = await folder.run('begin', 'new', ...FLAGS, '--units', units);
  expect(begun).toEqual({
    code: 0,
    out: 'new/site.wood\nnew/people.wood\nnew/trees.wood\nNext: fill in trees.wood, then run soundwood check new\n',
    err: '',
  });
  expect(await folder.run('check', '--on', ON, '--reject', 'note')).toEqual({
    code: 0,
    out: '1 tree in 3 files: 0 errors, 0 warnings, 0 notes. No sign that needs judging is on record.\nLocal orders, and the permits that they require, are checked only as far as they are recorded.\n',
    err: '',
  });
  expect((await folder.run('tidy', '--check')).out).toBe('3 files, 0 to format.\n');
  expect(await readFile(folder.file('new/site.wood'), 'utf8')).toContain('site "Fernhollow ""Court"""');
  expect(await readFile(folder.file('new/people.wood'), 'utf8')).toContain('person RV "Ruth Varga"');
  expect(await readFile(folder.file('new/trees.wood'), 'utf8')).toContain(
    units === 'metric' ? '41 cm' : '16 in',
  );
});

test('asks on a terminal; an empty answer takes what is proposed', async () => {
  const folder = await folderWith({});
  expect((await folder.talk(['Fernhollow Court', 'GB', '', 'Ruth Varga'], 'begin')).code).toBe(0);
  expect(await readFile(folder.file('site.wood'), 'utf8')).toMatch(/region +GB/);
  expect(await readFile(folder.file('trees.wood'), 'utf8')).toContain('41 cm');
});

test('asks again where an answer will not do', async () => {
  const folder = await folderWith({});
  const answers = ['', 'Fernhollow Court', 'Oregon', 'us-or', 'inches', 'Imperial', ' ', 'Ruth Varga'];
  const { code, out } = await folder.talk(answers, 'begin');
  expect(code).toBe(0);
  expect(out).toContain('The site needs a name.\n"OREGON" is not a region code. Write');
  expect(out).toContain('inches is neither imperial nor metric.\n');
  expect(await readFile(folder.file('site.wood'), 'utf8')).toMatch(/region +US-OR/);
});

test('never overwrites: where one of the files exists nothing is written', async () => {
  const folder = await folderWith({ 'people.wood': 'person RV "Ruth Varga"\n' });
  const { code, err } = await folder.run('begin', ...FLAGS);
  expect(code).toBe(2);
  expect(err).toBe('soundwood: people.wood already exists and will not be overwritten.\n');
  await expect(readFile(folder.file('site.wood'))).rejects.toThrow('ENOENT');
});

test('says what is missing or wrong', async () => {
  const folder = await folderWith({});
  expect((await folder.run('begin', '--name', 'x')).err).toBe(
    'soundwood: --region is missing, and there is no terminal to ask on.\n',
  );
  const oregon = await folder.run('begin', '--name', 'x', '--region', 'Oregon', '--person', 'y');
  expect(oregon.code).toBe(2);
  expect(oregon.err).toContain('is not a region code');
});

const TABLE =
  '\uFEFFTree no;Species;Girth (cm);Height;Remarks\r\n7;Quercus robur;210;18,5;near the gate\r\n8;Acer rubrum;0;12;\r\n';
const FROM = [
  '--name',
  'Fernhollow Court',
  '--region',
  'GB',
  '--person',
  'Ruth Varga',
  '--from',
  'trees.csv',
];

test('from a table: shows how it is understood, and writes the inventory with its mapping', async () => {
  const folder = await folderWith({ 'trees.csv': TABLE });
  const begun = await folder.run('begin', 'new', ...FROM);
  expect(begun.code).toBe(0);
  expect(begun.out).toBe(
    [
      'How trees.csv is read, with the first value of each column:',
      'Tree no     tag       7',
      'Species     species   Quercus robur',
      'Girth (cm)  girth cm  210',
      'Height      height m  18,5',
      'Remarks     note      near the gate',
      'new/trees.wood',
      'new/mapping.json',
      'new/site.wood',
      'new/people.wood',
      'If a column is misread: correct new/mapping.json, delete new/trees.wood, and run soundwood import trees.csv --mapping new/mapping.json --output new/trees.wood',
      'Next: soundwood check new',
      '',
    ].join('\n'),
  );
  expect(begun.err).toContain('Column "Height" states no unit; its middle value is 12, so it is read in m');
  expect(begun.err).toContain('trees.csv:3: note: Girth (cm) "0" left out');
  expect(begun.err).toContain('2 trees from 2 rows; 1 cell kept as comments.');
  expect(await readFile(folder.file('new/trees.wood'), 'utf8')).toContain('height      18.5 m');
  expect((await folder.run('tidy', 'new', '--check')).out).toBe('3 files, 0 to format.\n');
  expect((await folder.run('check', 'new', '--on', ON)).code).toBe(0);
  // What it says to do works.
  await rm(folder.file('new/trees.wood'));
  const again = ['trees.csv', '--mapping', 'new/mapping.json', '--to', 'new/trees.wood'];
  expect((await folder.run('import', ...again)).code).toBe(0);
});

test('from a table on a terminal: who does not agree gets the mapping to correct, and begins with it', async () => {
  const folder = await folderWith({ 'trees.csv': TABLE });
  const stopped = await folder.talk(['no'], 'begin', 'new', '--from', 'trees.csv');
  expect(stopped.code).toBe(0);
  expect(stopped.out).toContain(
    'Next: edit it, then run soundwood init new --from trees.csv --mapping new/mapping.json\n',
  );
  await expect(readFile(folder.file('new/trees.wood'))).rejects.toThrow('ENOENT');
  const mapping = await readFile(folder.file('new/mapping.json'), 'utf8');
  await writeFile(folder.file('new/mapping.json'), mapping.replace('girth cm', 'dbh cm'));
  const answers = ['Fernhollow Court', 'GB', 'Ruth Varga'];
  const begun = await folder.talk(
    answers,
    'begin',
    'new',
    '--from',
    'trees.csv',
    '--mapping',
    'new/mapping.json',
  );
  expect(begun.code).toBe(0);
  expect(await readFile(folder.file('new/trees.wood'), 'utf8')).toContain('dbh         210 cm');
  expect(await readFile(folder.file('new/site.wood'), 'utf8')).toContain('site "Fernhollow Court"');
});

test('from a table that fails nothing is there, and it can be begun again', async () => {
  const folder = await folderWith({
    'trees.csv': Buffer.concat([Buffer.from(TABLE.repeat(2000)), Buffer.of(0xff)]),
  });
  const { code, err } = await folder.run('begin', 'new', ...FROM);
  expect(code).toBe(2);
  expect(err).toMatch(/trees\.csv is not UTF-8 text \(line \d+\)/);
  await writeFile(folder.file('trees.csv'), TABLE);
  expect((await folder.run('begin', 'new', ...FROM)).code).toBe(0);
  expect(await folder.run('begin', '--mapping', 'a.json')).toMatchObject({ code: 2, out: '' });
});
