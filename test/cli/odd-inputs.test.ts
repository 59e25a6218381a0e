/** What no inventory is, named on a command line or found in a folder: one line, exit code 2, and no waiting. */

import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { PROGRAM } from '../built.ts';
import { type Folder, folderWith } from './folder.ts';

const TREE = 'tree 1\n  dbh         14 in\n';

const start = (cwd: string, args: readonly string[], input = '') =>
  spawnSync(process.execPath, [PROGRAM, ...args], { cwd, encoding: 'utf8', input });

/** With a pipe that nobody writes to, a socket and a link to a device that never ends. */
async function oddFolder(): Promise<Folder> {
  const folder = await folderWith({ 'a.wood': TREE, 't.csv': 'tag,dbh (in)\n7,12\n', 'sub/b.wood': TREE });
  expect(spawnSync('mkfifo', [folder.file('pipe.wood'), folder.file('pipe.csv')]).status).toBe(0);
  const server = createServer().listen(folder.file('socket.wood'));
  await once(server, 'listening');
  onTestFinished(() => void server.close());
  return folder;
}

const READING = [
  ['check'],
  ['check', '--as', 'json'],
  ['weigh'],
  ['report'],
  ['export', '--as', 'csv'],
  ['calendar'],
  ['tidy'],
  ['tidy', '--check'],
  ['explain', '--here'],
  ['print'],
  ['gather'],
  ['merge', 'a.wood', 'a.wood'],
  ['import', 't.csv', '--mapping'],
  ['begin', 'new', '--from', 't.csv', '--mapping'],
];

test.each(READING)('%s reads no pipe, no socket and no device', async (...command) => {
  const folder = await oddFolder();
  for (const [path, kind] of [
    ['pipe.wood', 'pipe'],
    ['socket.wood', 'socket'],
    ['/dev/zero', 'device'],
  ] as const) {
    const { status, stderr } = start(folder.path, [...command, path]);
    expect(stderr).toMatch(new RegExp(`^soundwood: \\S+ is a ${kind}, not a file, and was not read.*\\n$`));
    expect(status).toBe(2);
  }
});

test('import and begin read no pipe and no device, and say how to read from one', async () => {
  const folder = await oddFolder();
  for (const command of [['import'], ['begin', 'new', '--from']]) {
    expect(start(folder.path, [...command, 'pipe.csv'])).toMatchObject({
      status: 2,
      stderr: 'soundwood: pipe.csv is a pipe, not a file, and was not read: give - to read from a pipe.\n',
    });
    expect(start(folder.path, [...command, '/dev/zero']).stderr).toContain('/dev/zero is a device');
  }
});

test('in a folder they are named, and the inventories beside them are read', async () => {
  const folder = await oddFolder();
  await rm(folder.file('sub/b.wood'));
  for (const args of [['check'], ['compare', '.', '.'], ['export', '--as', 'csv']]) {
    const { status, stdout, stderr } = start(folder.path, args);
    expect(stderr).toContain('soundwood: pipe.wood is a pipe, not a file, and was not read\n');
    expect(stderr).toContain('soundwood: socket.wood is a socket, not a file, and was not read\n');
    expect(stdout).not.toBe('');
    expect(status).toBe(2);
  }
});

test('standard input is read where the path is -', async () => {
  const folder = await folderWith({ 'site.wood': 'site "Fernhollow Court"\n  region US-OR\n' });
  const from = (input: string, ...args: string[]) => start(folder.path, args, input);
  const wrong = from('tree 1\n  dbh 41\n', 'check', '-', '--format', 'lines');
  expect(wrong.stdout).toContain('-:2:7: error:');
  expect(wrong.stdout).toContain('1 tree in 1 file');
  expect(from(TREE, 'check', '-', '--workers', '3').status).toBe(0);
  expect(from(TREE, 'weigh', '1', '-').stdout).toContain('Tree 1 (-)');
  expect(from(TREE, 'export', '-', '--as', 'csv').stdout).toContain('\r\n1,');
  expect(from('tree 1\n dbh 14 in\n', 'print', '-').stdout).toBe(TREE);
  expect(from('tree 1\n dbh 14 in\n', 'tidy', '--check', '-').status).toBe(1);
  const tidied = from(TREE, 'tidy', '-');
  expect(tidied).toMatchObject({ status: 2, stdout: '' });
  expect(tidied.stderr).toContain('soundwood print -');
  const imported = from('tag,dbh (in)\n7,12\n', 'import', '-');
  expect(imported.stdout).toContain('# From standard input.\n');
  expect(imported.stdout).toContain('tree 7\n');
});

test.each([['check'], ['weigh'], ['print'], ['import']])(
  '%s ends where standard input does not',
  async command => {
    const folder = await folderWith({});
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', `"$0" "$1" ${command} - < /dev/zero`, process.execPath, PROGRAM],
      {
        cwd: folder.path,
        encoding: 'utf8',
      },
    );
    expect(stderr).toMatch(/^soundwood: -.*\n$/);
    expect(status).toBe(2);
  },
);

test('a folder as standard input is no empty inventory', async () => {
  const folder = await folderWith({});
  const { status, stderr } = spawnSync('sh', ['-c', '"$0" "$1" check - < .', process.execPath, PROGRAM], {
    cwd: folder.path,
    encoding: 'utf8',
  });
  expect(stderr).toBe('soundwood: - (standard input) is a folder\n');
  expect(status).toBe(2);
});

test('empty, binary and misnamed files end in one line each', async () => {
  const folder = await folderWith({
    'zero.wood': '',
    'zero.csv': '',
    'binary.wood': Buffer.from([0xff, 0x00, 0x80, 0x0a, 0xfe]),
    'binary.csv': Buffer.from([0xff, 0x00, 0x80, 0x0a, 0xfe]),
    'in/a.wood/b.txt': '',
  });
  const said = (...args: string[]) => start(folder.path, args);
  expect(said('check', 'zero.wood').stdout).toBe('0 trees in 1 file: 0 errors, 0 warnings, 0 notes.\n');
  for (const args of [
    ['check', 'in/a.wood'],
    ['weigh', 'binary.wood'],
    ['check', 'zero.wood/x'],
    ['import', 'zero.csv'],
    ['import', 'binary.csv'],
    ['import', 'in'],
    ['import', 'zero.csv', '--mapping', 'in'],
    ['export', '--as', 'csv', 'in'],
    ['export', '--as', 'parquet', 'zero.wood', '--to', 'in'],
    ['report', 'in', '--to', 'in'],
    ['calendar', 'gone.wood'],
    ['gather', 'binary.csv'],
  ]) {
    const { status, stderr } = said(...args);
    expect(stderr, args.join(' ')).toMatch(/^(soundwood: .*\n)+$/);
    expect(stderr).not.toMatch(/ {4}at |\.js:|mistake in the program/);
    expect(status, args.join(' ')).toBe(2);
  }
  // Where nothing could be read, that nothing is weighed is no answer.
  expect(said('weigh', 'binary.wood').stdout).toBe('');
});

test('a working folder that is gone ends in one line', async () => {
  const folder = await folderWith({});
  await mkdir(folder.file('gone'));
  const { status, stdout, stderr } = spawnSync(
    'sh',
    ['-c', 'rmdir "$PWD"; "$0" "$1" check', process.execPath, PROGRAM],
    { cwd: folder.file('gone'), encoding: 'utf8' },
  );
  expect({ status, stdout, stderr }).toEqual({
    status: 2,
    stdout: '',
    stderr: 'soundwood: the working folder no longer exists: change to another one.\n',
  });
});

test('standard output that takes nothing more ends in one line; a reader that has seen enough is no mistake', async () => {
  const trees = Array.from({ length: 3000 }, (_, i) => `tree ${i}\n  dbh 41 in\n`).join('');
  const folder = await folderWith({ 'few/a.wood': 'tree 1\n  dbh 41 in\n'.repeat(100) });
  await writeFile(folder.file('many.wood'), trees);
  for (const args of ['check', 'report few', 'export --as csv', 'calendar']) {
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', `"$0" "$1" ${args} > /dev/full`, process.execPath, PROGRAM],
      {
        cwd: folder.path,
        encoding: 'utf8',
      },
    );
    expect(stderr).toMatch(/^soundwood: standard output can't be written: ENOSPC.*\n$/);
    expect(status).toBe(2);
  }
  const reader = spawn('sh', ['-c', '"$0" "$1" check | head -1; exit 0', process.execPath, PROGRAM], {
    cwd: folder.path,
  });
  let err = '';
  reader.stderr.on('data', (text: Buffer) => {
    err += text;
  });
  reader.stdout.resume();
  await once(reader, 'close');
  expect(err).toBe('');
});
