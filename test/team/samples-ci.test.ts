/** The hook and the job of samples/ci, run by git and by a shell in repositories made on the spot. */

import { spawnSync } from 'node:child_process';
import { chmod, copyFile, mkdir, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { load } from 'js-yaml';
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
  expect(missing.stderr).toContain('gone is not the name of exactly one commit here');
  expect(job(repository)).toMatchObject({ status: 2, stderr: expect.stringContaining('usage:') });
});

test('without a base the job reports everything, of the paths that it is given', async () => {
  const repository = await repositoryWith({ ...FILES, 'grove/oak.wood': OAK.replace('tree 11', 'tree 12') });
  const whole = job(repository, '', 'out');
  expect(whole).toMatchObject({ status: 1, stderr: '' });
  expect(whole.stdout).toContain('[season-dose]');
  expect(await readdir(repository.file('out'))).not.toContain('changes.md');
  const grove = run(repository, 'env', 'SOUNDWOOD_PATHS=grove', 'sh', join(samples, 'job.sh'), '');
  expect(grove).toMatchObject({ status: 0, stderr: '' });
  expect(grove.stdout).toContain('1 tree in 1 file');
});

interface Workflow {
  readonly runs: {
    readonly steps: readonly { readonly run: string; readonly env?: Readonly<Record<string, string>> }[];
  };
  readonly inputs: Readonly<Record<string, { readonly default: string }>>;
}

const yaml = async <T>(path: string): Promise<T> => load(await readFile(path, 'utf8')) as T;

test('the action runs the job with its inputs', async () => {
  const action = await yaml<Workflow>('.github/actions/check/action.yml');
  const step = action.runs.steps.at(-1)!;
  const inputs: Record<string, string> = {
    ...Object.fromEntries(Object.entries(action.inputs).map(([name, input]) => [name, input.default])),
    since: 'main',
    date: '2026-11-02',
  };
  const environment = Object.entries(step.env!).map(
    ([name, value]) =>
      `${name}=${value
        .replace(/\$\{\{ inputs\.([\w-]+) \}\}/g, (_, input: string) => inputs[input]!)
        .replace(/\$\{\{ github\.action_path \}\}.*/, PROGRAM)}`,
  );
  expect(environment.join()).not.toMatch(/\$\{/);
  const repository = await repositoryWith(SAFE);
  await repository.git('switch', '--quiet', '--create', 'change');
  await repository.write({ 'lawn.wood': UNSAFE });
  await repository.commit('Unsafe');
  const path = fileURLToPath(new URL('../../.github/actions/check', import.meta.url));
  const ran = run(repository, 'env', `GITHUB_ACTION_PATH=${path}`, ...environment, 'sh', '-c', step.run);
  expect(ran).toMatchObject({ status: 1, stderr: '' });
  expect(ran.stdout).toContain('[season-dose]');
  expect(await readdir(repository.file('reports'))).toEqual(
    expect.arrayContaining(['findings.sarif', 'review.md']),
  );
});

test.each([
  ['a merge request', 'HEAD~1', 0],
  ['the main branch', '', 1],
])('the job of the other host checks %s', async (_, base, status) => {
  const { inventory } = await yaml<{ inventory: { script: readonly string[] } }>(join(samples, 'gitlab.yml'));
  const repository = await repositoryWith(FILES);
  await mkdir(repository.file('ci'));
  await copyFile(join(samples, 'job.sh'), repository.file('ci/job.sh'));
  await repository.write({ 'lawn.wood': `# moved\n${UNSAFE}` });
  await repository.commit('Moved');
  const ran = run(
    repository,
    'env',
    `CI_MERGE_REQUEST_DIFF_BASE_SHA=${base}`,
    'sh',
    '-c',
    inventory.script.at(-1)!,
  );
  expect(ran).toMatchObject({ status, stderr: '' });
});

test('the hooks of the framework block what is new, also before the first commit, and format', async () => {
  const hooks = await yaml<readonly { id: string; entry: string }[]>('.pre-commit-hooks.yaml');
  const entry = (id: string) =>
    hooks.find(hook => hook.id === id)!.entry.replace(/^\.ci\/program/, `'${process.execPath}' '${PROGRAM}'`);
  const repository = await repositoryWith(FILES);
  expect(run(repository, 'sh', '-c', entry('soundwood')).status).toBe(0);
  await repository.git('switch', '--quiet', '--orphan', 'fresh');
  await repository.write(FILES);
  const first = run(repository, 'sh', '-c', entry('soundwood'));
  expect(first.status).toBe(1);
  expect(first.stdout).toContain('[season-dose]');
  await repository.write({ 'lawn.wood': UNSAFE.replace('  dbh         41 in', '  dbh 41 in') });
  expect(run(repository, 'sh', '-c', `${entry('soundwood-fmt')} lawn.wood`).status).toBe(0);
  expect(await readFile(repository.file('lawn.wood'), 'utf8')).toBe(UNSAFE);
});

const container = ['docker', 'podman'].find(
  program => spawnSync(program, ['info'], { stdio: 'ignore', timeout: 60_000 }).status === 0,
);

test.skipIf(container === undefined)('the container checks the folder that it is given', async () => {
  const repository = await repositoryWith(FILES);
  const source = fileURLToPath(new URL('../..', import.meta.url));
  const folder = repository.file('image');
  await mkdir(folder);
  expect(spawnSync('npm', ['pack', '--silent', '--pack-destination', folder], { cwd: source }).status).toBe(
    0,
  );
  const image = 'soundwood-of-a-test';
  const built = run(
    repository,
    container!,
    'build',
    '--file',
    join(samples, 'Containerfile'),
    '--tag',
    image,
    folder,
  );
  expect(built.status, built.stderr).toBe(0);
  const ran = run(repository, container!, 'run', '--rm', '--volume', `${repository.path}:/inventory`, image);
  expect(ran.status).toBe(1);
  expect(ran.stdout).toContain('[season-dose]');
});
