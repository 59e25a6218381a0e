/** Git with soundwood in it: diffs that name trees, the canonical print, merges fact by fact; and all of it undone. */

import { readFile, stat, writeFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { FILES, MAPLE, OAK } from './inventory.ts';
import { type Repository, repositoryWith } from './repository.ts';

const COMMAND = `'${process.execPath}' '${PROGRAM}'`;

const setUp = async (files: Readonly<Record<string, string>> = FILES): Promise<Repository> => {
  const repository = await repositoryWith(files);
  expect(await repository.run('git-setup', '--yes', '--program', COMMAND)).toMatchObject({
    code: 0,
    err: '',
  });
  await repository.commit('Attributes');
  return repository;
};

const configOf = (repository: Repository) => readFile(repository.file('.git/config'), 'utf8');

test('shows first what it would write, and writes nothing without a yes', async () => {
  const repository = await repositoryWith(FILES);
  const before = await configOf(repository);
  const alone = await repository.run('git-setup');
  expect(alone.code).toBe(2);
  expect(alone.out).toContain('.gitattributes: add the line *.wood diff=soundwood merge=soundwood\n');
  expect(alone.out).toContain('.git/config: merge.soundwood.driver = ');
  expect(alone.err).toContain('Use --yes to write without asking');
  for (const answer of ['', 'no', 'n', 'maybe']) {
    const asked = await repository.talk([answer], 'git-setup');
    expect(asked).toMatchObject({ code: 0, err: '' });
    expect(asked.out).toMatch(/\nNothing was written\.\n$/);
  }
  expect(await configOf(repository)).toBe(before);
  await expect(stat(repository.file('.gitattributes'))).rejects.toThrow('ENOENT');
  expect((await repository.talk(['yes'], 'git-setup')).out).toMatch(/\nDone\./);
  expect(await readFile(repository.file('.gitattributes'), 'utf8')).toBe(
    '*.wood diff=soundwood merge=soundwood\n',
  );
});

test.each([undefined, '*.jpg binary\n', '*.jpg binary'])(
  '--undo takes all of it back: attributes %j',
  async attributes => {
    const repository = await repositoryWith(FILES);
    await repository.write({ '.gitattributes': attributes ?? '' });
    if (attributes === undefined) await repository.write({ '.gitattributes': undefined });
    const before = await configOf(repository);
    for (const _ of [1, 2]) await repository.run('git-setup', '--yes', '--program', COMMAND);
    expect((await readFile(repository.file('.gitattributes'), 'utf8')).match(/soundwood/g)).toHaveLength(2);
    const undone = await repository.run('git-setup', '--undo', '--yes');
    expect(undone).toMatchObject({ code: 0, err: '' });
    expect(await configOf(repository)).toBe(before);
    const left = await readFile(repository.file('.gitattributes'), 'utf8').catch(() => undefined);
    expect(left?.trimEnd()).toBe(attributes?.trimEnd());
    expect((await repository.run('git-setup', '--undo')).out).toBe('There is nothing to undo.\n');
  },
);

test('outside of a repository it says so and exits with 2', async () => {
  const folder = await folderWith({});
  expect(await folder.run('git-setup', '--yes')).toMatchObject({ code: 2, out: '' });
});

test('hunk headers name the tree, and spacing is no difference', async () => {
  const repository = await setUp();
  await repository.write({
    'lawn.wood': `${OAK}\n${MAPLE.replace('dose      40 %', 'dose 18 %').replaceAll('  by        RV', '  by RV')}`,
  });
  const diff = await repository.git('diff', '--unified=1', '--', 'lawn.wood');
  expect(diff).toMatch(/^@@ .* @@ tree 14 "Lawn maple"$/m);
  expect(diff.match(/^[-+] .*$/gm)).toEqual(['-    dose      40 %', '+    dose      18 %']);
});

test('a file that is no text does not stop git diff', async () => {
  const repository = await setUp();
  await writeFile(repository.file('lawn.wood'), new Uint8Array([0x74, 0xff, 0x0a]));
  expect(await repository.git('diff', '--', 'lawn.wood')).toContain('+t\uFFFD\n');
});

/** Two branches from main, each with its own lawn.wood; merges the second into the first. */
async function mergeBranches(repository: Repository, ours: string, theirs: string) {
  await repository.git('switch', '--quiet', '--create', 'theirs');
  await repository.write({ 'lawn.wood': theirs });
  await repository.commit('Theirs');
  await repository.git('switch', '--quiet', 'main');
  await repository.write({ 'lawn.wood': ours });
  await repository.commit('Ours');
  const merged = await repository.git('merge', '--quiet', '--no-edit', 'theirs').then(
    () => true,
    () => false,
  );
  return { merged, text: await readFile(repository.file('lawn.wood'), 'utf8') };
}

test('git merges neighbouring lines of one tree without a conflict', async () => {
  const repository = await setUp();
  const base = FILES['lawn.wood'];
  const dbh = (text: string) => text.replace('dbh         41 in', 'dbh         42 in');
  const height = (text: string) => text.replace('height      52 ft', 'height      51 ft');
  expect(await mergeBranches(repository, dbh(base), height(base))).toEqual({
    merged: true,
    text: height(dbh(base)),
  });
});

test('of one fact, git stops with markers around it alone, and check names them', async () => {
  const repository = await setUp();
  const dose = (value: string) => FILES['lawn.wood'].replace('dose      40 %', `dose      ${value}`);
  const { merged, text } = await mergeBranches(repository, dose('10 %'), dose('12 %'));
  expect(merged).toBe(false);
  expect(text).toContain(
    '  prescription R1 reduce\n<<<<<<< ours\n    dose      10 %\n=======\n    dose      12 %\n>>>>>>> theirs\n    between ',
  );
  expect((await repository.git('ls-files', '--unmerged')).trim().split('\n')).toHaveLength(3);
  expect((await repository.run('check', 'lawn.wood')).out).toContain('[merge-conflict]');
});

test('what is no text is merged by lines, and neither side is lost', async () => {
  const folder = await folderWith({
    base: new Uint8Array([0xff, 0x0a]),
    ours: new Uint8Array([0xff, 0x0a, 0x61, 0x0a]),
    theirs: new Uint8Array([0xff, 0x0a, 0x62, 0x0a]),
  });
  const { code, err } = await folder.run('merge', 'base', 'ours', 'theirs');
  expect(code).toBe(1);
  expect(err).toMatch(/merged by lines instead/);
  expect(await readFile(folder.file('ours'), 'latin1')).toBe(
    '\xff\n<<<<<<< ours\na\n=======\nb\n>>>>>>> theirs\n',
  );
  expect((await folder.run('merge', 'base', 'gone', 'theirs')).code).toBe(2);
});

test('print shows the canonical print and changes nothing', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n dbh   12 in\n' });
  expect(await folder.run('print', 'a.wood')).toEqual({
    code: 0,
    out: 'tree 1\n  dbh         12 in\n',
    err: '',
  });
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe('tree 1\n dbh   12 in\n');
  expect((await folder.run('print', 'gone.wood')).code).toBe(2);
});

test.each(['/gone/soundwood', `'${process.execPath}' /gone/soundwood.js`])(
  'where the program is gone, git merges by lines with marks and shows differences: %s',
  async program => {
    const repository = await repositoryWith(FILES);
    await repository.run('git-setup', '--yes', '--program', program);
    await repository.commit('Attributes');
    const base = FILES['lawn.wood'];
    const dose = (value: string) => base.replace('dose      40 %', `dose      ${value}`);
    const { merged, text } = await mergeBranches(repository, dose('10 %'), dose('12 %'));
    expect(merged).toBe(false);
    expect(text).toContain('<<<<<<< ours\n    dose      10 %\n=======\n    dose      12 %\n>>>>>>> theirs\n');
    await repository.git('merge', '--abort');
    await repository.write({ 'lawn.wood': dose('9 %') });
    expect(await repository.git('diff', '--', 'lawn.wood')).toContain('+    dose      9 %\n');
  },
);

test('check at a terminal says where a clone was not told how to merge', async () => {
  const repository = await repositoryWith(FILES);
  const told = async () => (await repository.talk([], 'check')).err.includes('Run soundwood git-setup');
  expect(await told()).toBe(false);
  await repository.write({ '.gitattributes': '*.wood diff=soundwood merge=soundwood\n' });
  expect(await told()).toBe(true);
  await repository.run('git-setup', '--yes', '--program', COMMAND);
  expect(await told()).toBe(false);
});
