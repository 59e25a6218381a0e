/** The package as npm installs it: without a network, and run by each Node that NODES names. */

import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PROGRAM } from '../built.ts';

const folder = mkdtempSync(join(tmpdir(), 'soundwood-package-'));
const installed = join(folder, 'lib', 'node_modules', 'soundwood');
const program = join(installed, 'server', 'dist', 'soundwood.js');

beforeAll(() => {
  // The folders that the package is made of, with the program of this run: server/dist may be in use meanwhile.
  const source = join(folder, 'source');
  for (const name of ['package.json', 'README.md', 'LICENSE', 'CHANGELOG.md', 'grammar', 'samples'])
    cpSync(name, join(source, name), { recursive: true });
  for (const name of ['rules', 'practice'])
    cpSync(join('server', name), join(source, 'server', name), { recursive: true });
  cpSync(dirname(PROGRAM), join(source, 'server', 'dist'), { recursive: true });
  const npm = (...args: string[]) => execFileSync('npm', args, { cwd: source, encoding: 'utf8' });
  const packed = npm('pack', '--ignore-scripts', '--silent', '--pack-destination', folder).trim();
  npm('install', '--global', '--offline', '--silent', '--prefix', folder, join(folder, packed));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('it brings the program, the page, the pages of the rules and the licenses, and nothing for those who work on it', () => {
  const names = readdirSync(installed, { recursive: true, encoding: 'utf8' });
  for (const name of [
    'LICENSE',
    'CHANGELOG.md',
    'grammar/NOTATION.md',
    'samples/ci/job.sh',
    'server/dist/LICENSES.txt',
    'server/dist/findings.schema.json',
    'server/dist/page/index.html',
    'server/practice/LIMITS.md',
    'server/rules/pages/season-dose.md',
  ])
    expect(names).toContain(name);
  expect(names.filter(name => /\.(ts|map|cache)$|bench|generate|node_modules/.test(name))).toEqual([]);
  expect(readdirSync(join(folder, 'lib', 'node_modules')).filter(name => !name.startsWith('.'))).toEqual([
    'soundwood',
  ]);
});

describe.each((process.env.NODES ?? process.execPath).split(':'))('with %s', node => {
  const run = (...args: string[]) =>
    spawnSync(node, [program, ...args], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, NO_COLOR: '1' },
    });

  test('it checks an inventory as the program does that was packed', () => {
    const args = ['check', resolve('samples/fernhollow'), '--date', '2026-06-01', '--format', 'json'];
    const expected = spawnSync(process.execPath, [PROGRAM, ...args], { cwd: folder, encoding: 'utf8' });
    const ran = run(...args);
    expect(ran).toMatchObject({ status: 1, stderr: expected.stderr });
    expect(JSON.parse(ran.stdout)).toEqual(JSON.parse(expected.stdout));
  });

  test('it says how to use it', () => {
    const { status, stdout, stderr } = run('--help');
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    for (const command of ['check', 'report', 'import', 'serve']) expect(stdout).toContain(`\n  ${command} `);
  });

  test('it reads a table and writes a report and a calendar', () => {
    const table = 'Tag;Species;DBH (in);Height (ft)\n101;Quercus robur;20;60\n';
    const imported = spawnSync(node, [program, 'import', '-'], {
      input: table,
      cwd: folder,
      encoding: 'utf8',
    });
    expect(imported).toMatchObject({ status: 0 });
    expect(imported.stdout).toMatch(/dbh +20 in/);
    const sample = resolve('samples/fernhollow');
    expect(run('report', sample, '--date', '2026-06-01').stdout).toMatch(/^<!doctype html>/i);
    expect(run('calendar', sample, '--date', '2026-06-01').stdout).toMatch(/^BEGIN:VCALENDAR/);
  });

  test('it serves the page', async () => {
    const server = spawn(node, [program, 'serve', '--page'], { cwd: folder });
    try {
      // An address, or why there is none.
      const [address] = await Promise.race([once(server.stdout, 'data'), once(server.stderr, 'data')]);
      const answer = await fetch(String(address).trim());
      expect(await answer.text()).toBe(readFileSync(join(installed, 'server/dist/page/index.html'), 'utf8'));
    } finally {
      server.kill();
    }
  });
});
