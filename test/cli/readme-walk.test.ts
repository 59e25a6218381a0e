/** The way from a table to a report, by exactly the commands of the README, in a folder where nothing else is. */

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { chmod, mkdir, readFile, symlink, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { PROGRAM } from '../built.ts';
import { folderWith } from './folder.ts';

const commands = /### From a table to a report[\s\S]*?```sh\n([\s\S]*?)```/.exec(
  readFileSync('README.md', 'utf8'),
)![1]!;

test('the commands of the README lead from a table to a report', async () => {
  const folder = await folderWith({});
  await symlink(resolve('samples'), folder.file('samples'));
  await mkdir(folder.file('bin'));
  // On the day of the README, with the code of each command kept.
  await writeFile(
    folder.file('bin/soundwood'),
    `#!/bin/sh
case "$1" in check | report | calendar) day="--on 2026-04-01" ;; *) day= ;; esac
"${process.execPath}" "${PROGRAM}" "$@" $day
code=$?
echo "$1 $code" >> "${folder.file('codes')}"
exit $code
`,
  );
  await chmod(folder.file('bin/soundwood'), 0o755);
  const { stdout, stderr } = spawnSync('bash', ['-c', commands], {
    cwd: folder.path,
    encoding: 'utf8',
    env: { ...process.env, PATH: `${folder.file('bin')}:${process.env.PATH}` },
  });
  const codes = await readFile(folder.file('codes'), 'utf8');
  expect(codes).toBe('init 0\ncheck 0\nreport 0\ncalendar 0\nexport 0\n');
  expect(stdout).toContain('Trunk circumference (cm)  girth cm   327\n');
  expect(stdout).toContain('9 trees in 3 files: 0 errors');
  expect(stderr).toContain('9 trees from 10 rows; 4 cells kept as comments.');

  // Days within a text stand in elements of their own.
  const page = (await readFile(folder.file('court.html'), 'utf8')).replace(/<\/?(?:span|wbr)\b[^>]*>/g, '');
  expect(page).toContain('9 trees as of');
  expect(page).toContain('Crown above 12 m: ivy');
  expect(page).toContain('The depth of cavity A.');
  const calendar = new ICAL.Component(ICAL.parse(await readFile(folder.file('court.ics'), 'utf8')));
  const days = calendar
    .getAllSubcomponents('vevent')
    .map(event => String(event.getFirstPropertyValue('dtstart')));
  expect(days).toContain('2026-05-15');
  const table = await readFile(folder.file('court.csv'), 'utf8');
  expect(table.trimEnd().split('\r\n')).toHaveLength(10);
});
