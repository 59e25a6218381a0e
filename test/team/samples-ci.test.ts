/** The hook and the job of samples/ci, run by git and by a shell in repositories made on the spot. */

import { spawnSync } from 'node:child_process';
import { chmod, copyFile, mkdir, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { PROGRAM } from '../built.ts';
import { FILES, MAPLE, OAK } from './inventory.ts';
import { type Repository, repositoryWith } from './repository.ts';

const samples = fileURLToPath(new URL('../../samples/ci/', import.meta.url));

interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

const run = (repository: Repository, program: string, ...args: string[]): Ran =>
  spawnSync(program, args, {
    cwd: repository.path,
    encoding: 'utf8',
    env: {
      ...process.env,
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_NOSYSTEM: '1',
      SOUNDWOOD: `${process.execPath} ${PROGRAM}`,
    },
  });

const SAFE = { ...FILES, 'lawn.wood': `${OAK}\n${MAPLE.replace('40 %', '5 %')}` };
const UNSAFE = FILES['lawn.wood'];

async function withHook(files: Readonly<Record<string, string>>): Promise<Repository> {
  const repository = await repositoryWith(files);
  await mkdir(repository.file('.git/hooks'), { recursive: true });
  await copyFile(join(samples, 'pre-commit'), repository.file('.git/hooks/pre-commit'));
  await chmod(repository.file('.git/hooks/pre-commit'), 0o755);
  return repository;
}

const commit = (repository: Repository) => run(repository, 'git', 'commit', '--message', 'A change');
const head = async (repository: Repository) => (await repository.git('rev-parse', 'HEAD')).trim();

test('the hook stops an unsafe prescription that is staged, whatever the working tree holds', async () => {
  const repository = await withHook(SAFE);
  const before = await head(repository);
  await repository.write({ 'lawn.wood': UNSAFE });
  await repository.git('add', '--', 'lawn.wood');
  await repository.write({ 'lawn.wood': SAFE['lawn.wood'] });
  const stopped = commit(repository);
  expect(stopped.status).toBe(1);
  expect(stopped.stdout + stopped.stderr).toMatch(/lawn\.wood:\d+:\d+: error: .* \[season-dose\]/);
  expect(await head(repository)).toBe(before);
});

test('the hook says what to do: of a finding, and of a program that is not there', async () => {
  const repository = await withHook(SAFE);
  await repository.write({ 'lawn.wood': UNSAFE });
  await repository.git('add', '--', 'lawn.wood');
  expect(commit(repository).stderr).toContain('make an exception with an accept record');
  const hook = spawnSync('.git/hooks/pre-commit', {
    cwd: repository.path,
    encoding: 'utf8',
    env: { ...process.env, SOUNDWOOD: 'no-such-program' },
  });
  expect(hook).toMatchObject({ status: 2, stdout: '' });
  expect(hook.stderr).toContain('no-such-program is not on the path. Set SOUNDWOOD');
});

test('the hook lets through what is staged and safe, whatever the working tree holds', async () => {
  const repository = await withHook(SAFE);
  const before = await head(repository);
  await repository.write({
    'lawn.wood': SAFE['lawn.wood'].replace('height      52 ft', 'height      51 ft'),
  });
  await repository.git('add', '--', 'lawn.wood');
  await repository.write({ 'lawn.wood': UNSAFE });
  expect(commit(repository)).toMatchObject({ status: 0 });
  expect(await head(repository)).not.toBe(before);
  expect(await readFile(repository.file('lawn.wood'), 'utf8')).toBe(UNSAFE);
});

test('the hook is silent about findings that were there, and about commits without inventories', async () => {
  const repository = await withHook(FILES);
  await repository.write({ 'lawn.wood': `# moved down\n\n${UNSAFE}` });
  await repository.git('add', '--', 'lawn.wood');
  expect(commit(repository)).toMatchObject({ status: 0 });
  await repository.write({ 'notes.txt': 'a note\n' });
  await repository.git('add', '--', 'notes.txt');
  const other = commit(repository);
  expect(other.status).toBe(0);
  expect(other.stdout).not.toContain('trees in');
});

test('the hook checks all of a first commit, from a folder below, and a commit that takes all inventories away', async () => {
  const repository = await withHook(FILES);
  await repository.git('switch', '--quiet', '--orphan', 'fresh');
  await repository.write({ ...FILES, 'grove/notes.txt': 'a note\n' });
  await repository.git('add', '--all');
  const first = run(repository, 'git', '-C', 'grove', 'commit', '--message', 'First');
  expect(first.status).toBe(1);
  expect(first.stdout + first.stderr).toContain('[season-dose]');
  await repository.write(SAFE);
  await repository.git('add', '--all');
  expect(run(repository, 'git', '-C', 'grove', 'commit', '--message', 'First')).toMatchObject({ status: 0 });
  await repository.write({ 'lawn.wood': undefined, 'site.wood': undefined, 'people.wood': undefined });
  await repository.git('add', '--all');
  expect(commit(repository)).toMatchObject({ status: 0 });
});

const job = (repository: Repository, ...args: string[]) =>
  run(repository, 'sh', join(samples, 'job.sh'), ...args);

test('the job rejects what a change brings and writes its reports', async () => {
  const repository = await repositoryWith(SAFE);
  await repository.git('switch', '--quiet', '--create', 'change');
  await repository.write({ 'lawn.wood': UNSAFE });
  await repository.commit('Unsafe');
  const rejected = job(repository, 'main');
  expect(rejected.status).toBe(1);
  expect(rejected.stderr).toBe('');
  expect(rejected.stdout).toContain('[season-dose]');
  expect((await readdir(repository.file('reports'))).sort()).toEqual([
    'findings.sarif',
    'findings.xml',
    'review.md',
  ]);
  const review = await readFile(repository.file('reports/review.md'), 'utf8');
  expect(review).toContain('new since main');
  expect(review).toContain('- prescription R1: dose 5 % → 40 %\n');
  expect(await readFile(repository.file('reports/findings.xml'), 'utf8')).toContain(
    '<failure type="season-dose"',
  );
});

test('the job passes a change that brings nothing, and says when it could not run', async () => {
  const repository = await repositoryWith(FILES);
  await repository.write({ 'lawn.wood': undefined, 'gardens/lawn.wood': `# renamed\n\n${UNSAFE}` });
  await repository.commit('Renamed');
  expect(job(repository, 'HEAD~1', 'out')).toMatchObject({ status: 0, stderr: '' });
  const missing = job(repository, 'gone', 'out');
  expect(missing.status).toBe(2);
  expect(missing.stderr).toContain('gone names no commit here');
  expect(job(repository)).toMatchObject({ status: 2, stderr: expect.stringContaining('usage:') });
});
