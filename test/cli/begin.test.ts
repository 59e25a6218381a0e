import { readFile } from 'node:fs/promises';
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
    out: '1 tree in 3 files: 0 errors, 0 warnings, 0 notes.\n',
    err: '',
  });
  expect((await folder.run('tidy', '--check')).out).toBe('3 files, 0 to tidy.\n');
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

test('never overwrites: where one of the files exists nothing is written', async () => {
  const folder = await folderWith({ 'people.wood': 'person RV "Ruth Varga"\n' });
  const { code, err } = await folder.run('begin', ...FLAGS);
  expect(code).toBe(2);
  expect(err).toBe('soundwood: people.wood exists already, and nothing is overwritten.\n');
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
