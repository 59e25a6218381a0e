/** A repository from a stranger, whose settings name programs: none of them is started. */

import { chmod, readdir, stat, writeFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { gitIn, type Repository, repositoryWith } from '../team/repository.ts';

const BEFORE = 'tree 1\n  dbh 41 in\n';
const AFTER = 'tree 1\n  dbh 41\n';

/** Does the file exist that every trap leaves? */
const sprung = ({ file }: Repository) =>
  stat(file('sprung')).then(
    () => true,
    () => false,
  );

/** Settings that make git start a program, at one occasion or another. */
const PROGRAMS = [
  ...['core.fsmonitor', 'core.sshCommand', 'core.pager', 'core.editor', 'core.askPass', 'core.gitProxy'],
  ...[
    'core.alternateRefsCommand',
    'diff.external',
    'diff.trap.textconv',
    'diff.trap.command',
    'diff.soundwood.textconv',
  ],
  ...[
    'merge.trap.driver',
    'merge.soundwood.driver',
    'filter.trap.clean',
    'filter.trap.smudge',
    'filter.trap.process',
  ],
  ...[
    'credential.helper',
    'gpg.program',
    'sequence.editor',
    'interactive.diffFilter',
    'pager.config',
    'pager.log',
  ],
  ...['remote.origin.uploadpack', 'alias.rev-parse', 'alias.cat-file', 'alias.config', 'alias.merge-file'],
];
const HOOKS = [
  'post-index-change',
  'reference-transaction',
  'post-checkout',
  'pre-commit',
  'fsmonitor-watchman',
];

async function trapped(): Promise<Repository> {
  const repository = await repositoryWith({
    'a.wood': BEFORE,
    '.gitattributes': '*.wood diff=trap merge=trap filter=trap\n',
  });
  const { file, git } = repository;
  const trap = `#!/bin/sh\ntouch '${file('sprung')}'\n`;
  await writeFile(file('trap.sh'), trap);
  await chmod(file('trap.sh'), 0o755);
  for (const hook of HOOKS) {
    await writeFile(file(`.git/hooks/${hook}`), trap);
    await chmod(file(`.git/hooks/${hook}`), 0o755);
  }
  for (const name of PROGRAMS)
    await git('config', name, name.startsWith('alias.') ? `!${file('trap.sh')}` : file('trap.sh'));
  await git('config', 'protocol.allow', 'always');
  await writeFile(file('a.wood'), AFTER);
  return repository;
}

test('the traps are armed: git itself springs them', async () => {
  const repository = await trapped();
  await repository.git('status').catch(() => '');
  expect(await sprung(repository)).toBe(true);
});

test.each([
  [['check', '--reject', 'never']],
  [['check', '--since', 'HEAD', '--reject', 'never']],
  [['compare', 'HEAD', '--reject', 'never']],
  [['compare', 'HEAD', 'main']],
  [['report']],
  [['tidy', '--check']],
  [['print', 'a.wood']],
  [['export', '--as', 'csv']],
  [['calendar']],
  [['git-setup', '--yes']],
  [['git-setup', '--yes', '--undo']],
])('%j starts nothing', async args => {
  const repository = await trapped();
  await repository.run(...args);
  expect(await sprung(repository)).toBe(false);
});

test('a merge of what is no text starts nothing', async () => {
  const repository = await trapped();
  for (const name of ['base', 'ours', 'theirs'])
    await writeFile(repository.file(name), Buffer.of(0xff, 10, name.length));
  await repository.run('merge', 'base', 'ours', 'theirs');
  expect(await sprung(repository)).toBe(false);
});

test('what a partial clone lacks is not fetched, and it is said how to fetch it', async () => {
  const origin = await repositoryWith({ 'a.wood': BEFORE });
  await origin.git('config', 'uploadpack.allowFilter', 'true');
  await origin.git('config', 'uploadpack.allowAnySHA1InWant', 'true');
  const repository = await repositoryWith({});
  await gitIn(
    repository.path,
    'clone',
    '--quiet',
    '--no-checkout',
    '--filter=blob:none',
    `file://${origin.path}`,
    'clone',
  );
  const trap = `#!/bin/sh\ntouch '${repository.file('sprung')}'\nexec git-upload-pack "$@"\n`;
  await writeFile(repository.file('trap.sh'), trap);
  await chmod(repository.file('trap.sh'), 0o755);
  const clone = (...args: string[]) => gitIn(repository.file('clone'), ...args);
  await clone('config', 'remote.origin.uploadpack', repository.file('trap.sh'));
  await writeFile(repository.file('clone/a.wood'), AFTER);
  const { code, err } = await repository.run('check', 'clone', '--since', 'main');
  expect(code).toBe(2);
  expect(err).toContain(
    'nothing is fetched automatically. To complete a partial clone, run git fetch --refetch --no-filter',
  );
  expect(await sprung(repository)).toBe(false);
  // The trap is armed: git itself springs it. And the advice is right.
  await clone('fetch', '--quiet', '--refetch', '--no-filter');
  expect(await sprung(repository)).toBe(true);
  expect(await repository.run('check', 'clone', '--since', 'main')).toMatchObject({ code: 1, err: '' });
});

test.each([
  '--help',
  '-c',
  '--upload-pack=touch sprung',
  '-',
  '--',
  '@{',
  'main:a.wood',
  ':/',
  '$(touch sprung)',
  '`touch sprung`',
  'main\ntouch',
])('a commit called %j is no option and no command', async ref => {
  const repository = await repositoryWith({ 'a.wood': BEFORE });
  const before = await readdir(repository.path);
  const { code, err } = await repository.run('check', `--since=${ref}`);
  expect(code).toBe(2);
  expect(err).toMatch(/is not the name of exactly one commit|can't name a commit|argument missing/);
  expect(await readdir(repository.path)).toEqual(before);
});

const NAMES = [
  '$(touch sprung).wood',
  '`touch sprung`.wood',
  ';touch sprung;.wood',
  '--help.wood',
  '-n.wood',
  '\'".wood',
  'a\nb.wood',
  ' .wood',
  '%2e%2e.wood',
  'ünï🌳.wood',
];

test('names of files are names, whatever a shell would make of them', async () => {
  const repository = await repositoryWith(
    Object.fromEntries(NAMES.map((name, i) => [name, `tree ${i}\n  dbh 41\n`])),
  );
  const before = await readdir(repository.path);
  for (const args of [
    ['check', '--as', 'json'],
    ['check', '--since', 'HEAD', '--as', 'json'],
    ['compare', 'HEAD'],
    ['report', '--for', 'crew'],
    ['tidy', '--check'],
    ['export', '--as', 'csv'],
  ]) {
    const { err } = await repository.run(...args);
    expect(err.split('\n').filter(line => line.startsWith('soundwood:'))).toEqual([]);
  }
  const { out } = await repository.run('check', '--as', 'json', '--reject', 'never');
  const { findings } = JSON.parse(out) as { findings: { file: string; rule: string }[] };
  const mistaken = findings.filter(({ rule }) => rule === 'missing-unit').map(({ file }) => file);
  expect(mistaken.sort()).toEqual([...NAMES].sort());
  expect(await readdir(repository.path)).toEqual(before);
});
