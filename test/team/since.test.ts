/** check --since: only what is new against a commit, in repositories made on the spot. */

import { mkdtemp, realpath, rm, symlink } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { expect, onTestFinished, test } from 'vitest';
import schema from '../../server/show/findings.schema.json';
import { folderWith, ON } from '../cli/folder.ts';
import { FILES, MAPLE, OAK, PEOPLE, SITE } from './inventory.ts';
import { gitIn, type Repository, repositoryWith } from './repository.ts';

const validate = addFormats.default(new Ajv({ allErrors: true })).compile(schema);

interface Found {
  readonly rule: string;
  readonly tree?: string;
  readonly subject: string;
}

/** What is new, as `tree rule subject`. */
async function news(repository: Repository, ...args: string[]): Promise<readonly string[]> {
  const { out, err } = await repository.run(
    'check',
    '--as',
    'json',
    '--on',
    ON,
    '--reject',
    'never',
    ...args,
  );
  expect(err).toBe('');
  const report = JSON.parse(out);
  expect(validate(report), JSON.stringify(validate.errors)).toBe(true);
  return report.findings.map(({ tree, rule, subject }: Found) => `${tree ?? '-'} ${rule} ${subject}`);
}

const since = (repository: Repository, ...args: string[]) => news(repository, '--since', 'main', ...args);

test('nothing is new where nothing changed, though there are findings', async () => {
  const repository = await repositoryWith(FILES);
  expect((await news(repository)).length).toBeGreaterThan(0);
  expect(await since(repository)).toEqual([]);
  const { code, out } = await repository.run('check', '--since', 'main', '--on', ON, '--reject', 'note');
  expect(out).toBe(
    '2 trees in 3 files: 0 errors, 0 warnings, 0 notes, new since main.\nLocal orders, and the permits that they require, are checked only as far as they are recorded.\n',
  );
  expect(code).toBe(0);
});

test('lines that move, files that are renamed, trees in another folder and new tags are not new', async () => {
  const repository = await repositoryWith({ ...FILES, 'old/bad.wood': 'tree 20\n  dbh 41\n  widht 3 ft\n' });
  const all = await news(repository);
  await repository.write({ 'lawn.wood': `# the lawn\n\n${MAPLE}\n${OAK}` });
  expect(await since(repository)).toEqual([]);
  await repository.write({ 'lawn.wood': undefined, 'gardens/trees.wood': `${MAPLE}\n${OAK}` });
  expect(await since(repository)).toEqual([]);
  expect(await since(repository, 'gardens')).toEqual([]);
  await repository.write({
    'old/bad.wood': undefined,
    'gardens/bad.wood': 'tree 20\n  widht 3 ft\n  dbh 41\n',
    'gardens/trees.wood': `${MAPLE.replace('tree 14 "Lawn maple"', 'tree 114 "Lawn maple"\n  formerly 14')}\n${OAK}`,
  });
  expect(await since(repository)).toEqual([]);
  expect((await news(repository)).length).toBe(all.length);
});

test('a tree that moves to another site is the same tree; another tree with its tag is not', async () => {
  const two = {
    'people.wood': PEOPLE,
    'a/site.wood': SITE,
    'a/trees.wood': MAPLE,
    'b/site.wood': SITE.replace('Fernhollow Court', 'Wren Park'),
    'b/trees.wood': OAK,
  };
  const repository = await repositoryWith(two);
  await repository.write({ 'a/trees.wood': undefined, 'b/trees.wood': `${OAK}\n${MAPLE}` });
  expect(await since(repository)).toEqual([]);
  await repository.write({
    'b/trees.wood': `${OAK}\n${MAPLE.replace('Acer macrophyllum', 'Acer platanoides')}`,
  });
  expect((await since(repository)).every(found => found.startsWith('14 '))).toBe(true);
  expect((await since(repository)).length).toBeGreaterThan(0);
});

test('an unsafe prescription is new, alone, and rejected', async () => {
  const repository = await repositoryWith({
    ...FILES,
    'lawn.wood': `${OAK}\n${MAPLE.replace('40 %', '5 %')}`,
  });
  expect(await since(repository)).toEqual([]);
  await repository.write({ 'lawn.wood': `${OAK}\n${MAPLE}` });
  const found = await since(repository);
  expect(found).toContain('14 season-dose R1');
  expect(found.every(one => one.startsWith('14 ') && one.endsWith(' R1'))).toBe(true);
  const { code, out } = await repository.run('check', '--since', 'main', '--on', ON, '--as', 'lines');
  expect(code).toBe(1);
  expect(out).toMatch(/lawn\.wood:\d+:\d+: error: .* \[season-dose\]/);
  const { out: sarif } = await repository.run('check', '--since', 'main', '--on', ON, '--as', 'sarif');
  expect(
    JSON.parse(sarif).runs[0].results.map((one: { baselineState: string }) => one.baselineState),
  ).toEqual(found.map(() => 'new'));
});

test('what was a warning and is an error is new; what becomes milder is not', async () => {
  const mild = MAPLE.replace('40 %', '5..40 %');
  const repository = await repositoryWith({ ...FILES, 'lawn.wood': mild });
  await repository.write({ 'lawn.wood': MAPLE });
  expect(await since(repository)).toContain('14 season-dose R1');
  await repository.commit('Surely too much');
  await repository.write({ 'lawn.wood': mild });
  expect(await since(repository)).toEqual([]);
});

test('an exception that is taken away leaves a new finding', async () => {
  const target = '\n  target "Play lawn"\n    occupied frequent\n    kind people\n';
  const accept =
    '\n  accept target-without-distance\n    until 2026-12-31\n    by RV\n    because "measured next visit"\n';
  const repository = await repositoryWith({ ...FILES, 'lawn.wood': OAK + target + accept });
  expect(await since(repository)).toEqual([]);
  await repository.write({ 'lawn.wood': OAK + target });
  expect(await since(repository)).toEqual(['11 target-without-distance Play lawn']);
});

test('a second mistake of the same kind is new', async () => {
  const repository = await repositoryWith({ 'a.wood': 'tree 1\n  dbh 41\n' });
  await repository.write({ 'a.wood': 'tree 1\n  height 41\n  dbh 41\n' });
  expect(await since(repository)).toEqual(['1 missing-unit missing-unit']);
});

test('from a folder below, and with a file as path', async () => {
  const repository = await repositoryWith({ ...FILES, 'grove/a.wood': MAPLE.replace('14', '15') });
  expect(await since(repository, 'grove')).toEqual([]);
  expect(await since(repository, 'grove/a.wood')).toEqual([]);
  await repository.write({ 'grove/a.wood': MAPLE.replace('14', '15').replaceAll('R1', 'R2') });
  expect(await since(repository, 'lawn.wood')).toEqual([]);
  expect((await since(repository, 'grove/a.wood')).every(found => found.endsWith(' R2'))).toBe(true);
});

test('repositories with SHA-256, names beyond ASCII, links and hidden folders', async () => {
  const repository = await repositoryWith(
    {
      'g\u00E4rten/b\u00E4ume \u{1F333}.wood': MAPLE,
      '.hidden/a.wood': 'tree 9\n  dbh 41\n',
      'people.wood': PEOPLE,
    },
    '--object-format=sha256',
  );
  await symlink('people.wood', repository.file('link.wood'));
  await repository.commit('A link');
  expect((await news(repository)).length).toBeGreaterThan(0);
  expect(await since(repository)).toEqual([]);
  // What is checked in a hidden folder today was not part of the inventory before.
  await repository.write({ '.hidden/a.wood': undefined, 'seen/a.wood': 'tree 9\n  dbh 41\n' });
  expect(await since(repository)).toContain('9 missing-unit missing-unit');
});

test('a path that does not exist is named as such', async () => {
  const repository = await repositoryWith(FILES);
  const { code, err } = await repository.run('check', 'gone/a.wood', '--since', 'main');
  expect(code).toBe(2);
  expect(err).toBe('soundwood: gone/a.wood does not exist\n');
});

test('what can not be compared exits with 2 and says what to do', async () => {
  const repository = await repositoryWith(FILES);
  for (const ref of ['gone', '--help', 'main\nmain', '']) {
    const { code, err } = await repository.run('check', `--since=${ref}`);
    expect(code).toBe(2);
    expect(err).toMatch(/^soundwood: .*is not the name of exactly one commit here|can't name a commit/);
  }
  const outside = await folderWith({ 'a.wood': OAK });
  const { code, err } = await outside.run('check', '--since', 'main');
  expect(code).toBe(2);
  expect(err).toMatch(/git repository .*run it inside one, or run git init first\.\n$/);
});

test('in a shallow clone the base that is there serves, and one that is not is asked for', async () => {
  const repository = await repositoryWith(FILES);
  await repository.write({ 'lawn.wood': OAK });
  await repository.commit('Second state');
  const clone = await realpath(await mkdtemp(join(tmpdir(), 'soundwood-')));
  onTestFinished(() => rm(clone, { recursive: true, force: true }));
  await gitIn(clone, 'clone', '--quiet', '--depth=1', '--', `file://${repository.path}`, 'work');
  const inClone = async (ref: string) =>
    repository.run('check', join(clone, 'work'), '--since', ref, '--on', ON);
  expect(await inClone('HEAD')).toMatchObject({ code: 0, err: '' });
  const { code, err } = await inClone('HEAD~1');
  expect(code).toBe(2);
  expect(err).toMatch(
    /is not in this shallow clone: fetch it with git fetch --depth=1 origin and its name, or git fetch --unshallow\.\n$/,
  );
});
