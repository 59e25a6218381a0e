/** Files: whatever ends the program or stands in its way, a file has its old content or its new one. */

import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chmod, chown, mkdir, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test, vi } from 'vitest';
import { tidy } from '../../grammar/tidy.ts';
import { PROGRAM } from '../built.ts';
import { folderWith } from '../cli/folder.ts';
import { HANG } from '../hang.ts';
import { startEditor } from '../lsp/client.ts';

const untidy = (trees: number) =>
  Array.from({ length: trees }, (_, i) => `tree ${i + 1}\n dbh   41 in\n\n\n height  9 m\n`).join('');
const UNTIDY = untidy(2000);
const TIDY = tidy(UNTIDY).text;

const leftIn = async (folder: string) => (await readdir(folder)).filter(name => name.endsWith('.unfinished'));

const started = (cwd: string, ...args: string[]): ChildProcess => {
  const child = spawn(process.execPath, [PROGRAM, ...args], { cwd, stdio: 'ignore' });
  onTestFinished(() => void child.kill('SIGKILL'));
  return child;
};

test('tidy killed in the middle, again and again: each file is old or new, and nothing piles up', async () => {
  const names = Array.from({ length: 4 }, (_, i) => `${i + 10}.wood`);
  const folder = await folderWith(Object.fromEntries(names.map(name => [name, UNTIDY])));
  const contents = () => Promise.all(names.map(name => readFile(folder.file(name), 'utf8')));
  const done = async () => (await contents()).filter(text => text === TIDY).length;
  const state = async () => `${await leftIn(folder.path)} ${await done()}`;
  while ((await done()) < names.length - 1) {
    const before = await state();
    const child = started(folder.path, 'tidy');
    // Somewhere between two files, or in the middle of one.
    await vi.waitFor(async () => expect(await state()).not.toBe(before), { timeout: HANG / 6, interval: 1 });
    child.kill('SIGKILL');
    await once(child, 'exit');
    for (const text of await contents()) expect(text === UNTIDY || text === TIDY).toBe(true);
    expect((await leftIn(folder.path)).length).toBeLessThanOrEqual(1);
  }
  expect((await folder.run('tidy')).code).toBe(0);
  expect(await contents()).toEqual(names.map(() => TIDY));
  expect(await readdir(folder.path)).toEqual(['.git', ...names]);
});

test('what a killed program left is taken away by the next one; what one at work holds is not', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n dbh 9 in\n' });
  const gone = spawnSync(process.execPath, ['-e', '']).pid;
  const atWork = started(folder.path, 'serve');
  const others = [`.a.wood.${atWork.pid}.unfinished`, `.b.wood.${gone}.unfinished`, '.a.wood.x.unfinished'];
  for (const name of [...others, `.a.wood.${gone}.unfinished`]) await writeFile(folder.file(name), 'half');
  // A link in the way is not followed.
  await symlink('target.txt', folder.file(`.a.wood.${process.pid}.unfinished`));
  await folder.run('tidy');
  expect(await readFile(folder.file('a.wood'), 'utf8')).toBe('tree 1\n  dbh         9 in\n');
  expect((await leftIn(folder.path)).sort()).toEqual(others.sort());
  expect(await readdir(folder.path)).not.toContain('target.txt');
});

/** A disk that holds 64 kB, where this may be mounted; else a limit on the size of files. */
async function onSmallDisk(files: Readonly<Record<string, string>>) {
  const folder = await folderWith({});
  const disk = folder.file('disk');
  await mkdir(disk);
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', disk]).status === 0;
  if (mounted) onTestFinished(() => void spawnSync('umount', [disk]));
  for (const [name, content] of Object.entries(files)) await writeFile(join(disk, name), content);
  // In blocks of 512 or 1024 bytes: either is too little.
  const limited = ['sh', '-c', 'trap "" XFSZ; ulimit -f 40; exec "$@"', 'sh'];
  const run = (...args: string[]) => {
    const [command, ...before] = [...(mounted ? [] : limited), process.execPath, PROGRAM];
    return spawnSync(command!, [...before, ...args], { cwd: disk, encoding: 'utf8' });
  };
  return { folder, disk, run };
}

describe('a full disk', () => {
  // What is tidied is longer than what was not.
  const SHORT = 'tree 1\n'.concat(' dbh 1 in\n'.repeat(4200));

  test('tidy leaves the file as it is, says so, and leaves nothing else', async () => {
    const { disk, run } = await onSmallDisk({ 'a.wood': SHORT });
    const { status, stderr } = run('tidy');
    expect(status).toBe(2);
    expect(stderr).toMatch(/a\.wood can't be written: (ENOSPC|EFBIG)/);
    expect(await readFile(join(disk, 'a.wood'), 'utf8')).toBe(SHORT);
    expect(await readdir(disk)).toEqual(['a.wood']);
  });

  test.each([
    ['import', '../a.csv', '--no-tag', '--to', 'new.wood'],
    ['report', '../few', '--to', 'new.html'],
    ['export', '../trees', '--as', 'csv', '--to', 'new.csv'],
    ['check', '../trees', '--as', 'json', '--to', 'new.json'],
  ])('%s leaves nothing', async (...args) => {
    const { folder, disk, run } = await onSmallDisk({});
    await mkdir(folder.file('trees'));
    await writeFile(folder.file('trees/a.wood'), untidy(3000).replaceAll('41 in', '41'));
    await mkdir(folder.file('few'));
    await writeFile(folder.file('few/a.wood'), untidy(400));
    await writeFile(
      folder.file('a.csv'),
      `id;species;notes\n${'1;Acer rubrum;north of the gate\n'.repeat(9000)}`,
    );
    const { status, stderr } = run(...args);
    expect(status).toBe(2);
    expect(stderr).toMatch(/can't be written: (ENOSPC|EFBIG)/);
    expect(await readdir(disk)).toEqual([]);
  });
});

describe('what may not be written', () => {
  /** Root may write everywhere; anybody else may not. */
  async function asNobody(work: () => Promise<void>): Promise<void> {
    const root = process.geteuid?.() === 0;
    if (root) process.seteuid!(65534);
    try {
      await work();
    } finally {
      if (root) process.seteuid!(0);
    }
  }

  test('files and folders that are read-only stay as they are', async () => {
    const folder = await folderWith({
      'open/a.wood': 'tree 1\n dbh 9 in\n',
      'shut/b.wood': 'tree 2\n dbh 9 in\n',
    });
    // What the commands need is loaded while it may be.
    await folder.run('tidy', '--check');
    await folder.run('report', '--to', 'open/first.html');
    for (const name of ['', 'open', 'shut', 'open/a.wood', 'shut/b.wood'])
      await chown(folder.file(name), 65534, 65534);
    await chmod(folder.path, 0o755);
    await chmod(folder.file('open/a.wood'), 0o444);
    await chmod(folder.file('shut'), 0o555);
    await asNobody(async () => {
      expect(await folder.run('tidy', 'open')).toMatchObject({
        code: 2,
        err: expect.stringContaining("open/a.wood can't be written: permission denied"),
      });
      expect(await folder.run('tidy', 'shut')).toMatchObject({
        code: 2,
        err: expect.stringContaining("shut/b.wood can't be written: permission denied"),
      });
      expect((await folder.run('report', 'open', '--to', 'shut/new.html')).code).toBe(2);
    });
    expect(await readFile(folder.file('open/a.wood'), 'utf8')).toBe('tree 1\n dbh 9 in\n');
    expect(await readFile(folder.file('shut/b.wood'), 'utf8')).toBe('tree 2\n dbh 9 in\n');
    expect(await readdir(folder.file('shut'))).toEqual(['b.wood']);
    expect((await readdir(folder.file('open'))).sort()).toEqual(['a.wood', 'first.html']);
  });

  test('mode and place of a file stay: through a link its target is written', async () => {
    const folder = await folderWith({ 'real/a.wood': 'tree 1\n dbh 9 in\n' });
    await chmod(folder.file('real/a.wood'), 0o640);
    await symlink('real/a.wood', folder.file('link.wood'));
    expect((await folder.run('tidy', 'link.wood')).code).toBe(0);
    expect(await readFile(folder.file('real/a.wood'), 'utf8')).toBe('tree 1\n  dbh         9 in\n');
    expect((await stat(folder.file('real/a.wood'))).mode & 0o777).toBe(0o640);
    expect(await readdir(folder.file('real'))).toEqual(['a.wood']);
  });
});

test('files that vanish or change while they are looked at: the others are judged, and a change is kept', async () => {
  const files = Object.fromEntries(Array.from({ length: 40 }, (_, i) => [`${i + 10}.wood`, untidy(500)]));
  const folder = await folderWith(files);
  const [check, tidied] = [folder.run('check', '--reject', 'never', '--format', 'lines'), folder.run('tidy')];
  const NEW = 'tree 9\n dbh 7 in\n';
  for (const name of Object.keys(files).slice(20, 30)) await rm(folder.file(name));
  for (const name of Object.keys(files).slice(30)) await writeFile(folder.file(name), NEW);
  for (const { err } of await Promise.all([check, tidied]))
    for (const line of err.split('\n').filter(Boolean))
      expect(line).toMatch(
        /^soundwood: \d\d\.wood (does not exist|was changed in the meantime and was left as it is)$/,
      );
  const left = (await readdir(folder.path)).filter(name => name !== '.git');
  expect(left.filter(name => !name.endsWith('.wood'))).toEqual([]);
  for (const name of Object.keys(files).slice(30))
    expect([NEW, tidy(NEW).text]).toContain(await readFile(folder.file(name), 'utf8'));
});

describe('nothing outside is looked at', () => {
  const SECRET = '\xff\xd8\xff secret of another folder';
  const PATHS = [
    '../secret.jpg',
    'photos/../../secret.jpg',
    '/etc/hostname',
    'link.jpg',
    'folder/secret.jpg',
    '..\\secret.jpg',
  ];

  test('photographs by path, by link and by pipe', async () => {
    const outer = await folderWith({ 'secret.jpg': Buffer.from(SECRET, 'latin1') });
    const inner = outer.file('trees');
    await mkdir(inner);
    await symlink('../secret.jpg', join(inner, 'link.jpg'));
    await symlink('..', join(inner, 'folder'));
    await symlink('round.jpg', join(inner, 'round.jpg'));
    expect(spawnSync('mkfifo', [join(inner, 'pipe.jpg')]).status).toBe(0);
    const photos = [...PATHS, 'round.jpg', 'pipe.jpg', 'file:///etc/hostname', 'https://example.org/a.jpg']
      .map(path => `  photo "${path}"\n`)
      .join('');
    await writeFile(
      join(inner, 'a.wood'),
      `site "Fernhollow Court"\n  region US-OR\ntree 1\n  dbh 9 in\n${photos}  prescription R1 thin\n`,
    );
    const { out, code } = await outer.run('report', 'trees');
    expect(code).toBe(0);
    expect(out).not.toContain(Buffer.from(SECRET, 'latin1').toString('base64').slice(0, 20));
    expect(out).not.toMatch(/src="(?!data:)/);
    expect(out.match(/is outside the folder of the site/g)?.length).toBeGreaterThanOrEqual(PATHS.length);
    const checked = await outer.run('check', 'trees', '--reject', 'never');
    expect(checked.out).not.toMatch(/secret of/);
  });

  test('links to inventories and folders elsewhere are not followed by a search, nor by the server', async () => {
    const outer = await folderWith({
      'secret/s.wood': 'tree 66\n  dbh 41\n',
      'trees/a.wood': 'tree 1\n  dbh 41\n',
    });
    await symlink('../secret', outer.file('trees/folder'));
    await symlink('../secret/s.wood', outer.file('trees/link.wood'));
    await symlink('.', outer.file('trees/loop'));
    const { out } = await outer.run('check', 'trees', '--as', 'json', '--reject', 'never');
    const { findings } = JSON.parse(out) as { findings: { tree?: string }[] };
    expect([...new Set(findings.map(({ tree }) => tree))]).toEqual(['1']);
    const editor = await startEditor({ program: PROGRAM, folder: outer.file('trees'), pulls: true });
    const { items } = await editor.request<{ items: { uri: string }[] }>('workspace/diagnostic', {
      previousResultIds: [],
    });
    expect(items.map(({ uri }) => uri)).toEqual([editor.uri('a.wood')]);
  });
});
