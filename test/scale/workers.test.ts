/** Inventories checked in pieces and by several threads: whoever checks, the output is the same to the byte. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { parseDate } from '../../grammar/dates.ts';
import { generateTrees, printTree, SITE_TEXT } from '../../server/bench/inventory.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { type Folder, folderWith, ON } from '../cli/folder.ts';

const dist = mkdtempSync(join(tmpdir(), 'soundwood-dist-'));
afterAll(() => rmSync(dist, { recursive: true, force: true }));
beforeAll(() => {
  const build = fileURLToPath(new URL('../../server/build.mjs', import.meta.url));
  expect(spawnSync(process.execPath, [build, dist], { encoding: 'utf8' })).toMatchObject({ status: 0 });
});

const FORMS = ['text', 'json', 'sarif', 'junit', 'markdown'];

function check(cwd: string, ...args: string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(dist, 'soundwood.js'), 'check', '--on', ON, ...args],
    { cwd, encoding: 'utf8', maxBuffer: 2 ** 30 },
  );
  return { status, stdout, stderr };
}

const trees = (count: number, firstTag: number) => generateTrees(count, firstTag).map(printTree).join('\n');

/** Many files, one that is cut into pieces, tags that stand twice or stood formerly, names that nobody has. */
const generated = (): Promise<Folder> =>
  folderWith({
    'site.wood': `${SITE_TEXT}crew ROPE "Rope crew"\n  members RV, TL\n`,
    'large.wood': `${trees(900, 1)}\ntre 5000\n  formerly 7\n  inspection 2026-05-01 from ground\n    by RW\n`,
    'crlf.wood': `\uFEFF${trees(400, 2001)}`.replaceAll('\n', '\r\n'),
    'late.wood': `${trees(3, 890)}\nperson RW "Rolf Vance"\n\ntree 5001\n  formerly 5000\n`,
    'grove/site.wood':
      'site "Fernhollow Grove"\n  region GB\n\npractice "Grove"\n  limit strength-loss 30 %\n',
    ...Object.fromEntries(
      Array.from({ length: 60 }, (_, i) => [`grove/${i % 7}/t${i}.wood`, trees(12, i * 11 + 1)]),
    ),
    'broken.wood': new Uint8Array([0x74, 0xff, 0x0a]),
  });

test('of a generated inventory, in every form', async () => {
  const { path } = await generated();
  for (const form of FORMS) {
    const one = check(path, '--as', form, '--workers', '1');
    expect(one.status).toBe(2);
    expect(one.stdout).toMatch(/duplicate-tag/);
    for (const workers of form === 'text' ? ['2', '3', '5'] : ['2']) {
      expect(check(path, '--as', form, '--workers', workers)).toEqual(one);
    }
  }
}, 180_000);

test('of the samples, in every form', () => {
  const samples = fileURLToPath(new URL('../../samples', import.meta.url));
  for (const form of FORMS) {
    const one = check(samples, '--as', form, '--workers', '1');
    expect(one.status).toBe(1);
    expect(check(samples, '--as', form, '--workers', '2')).toEqual(one);
  }
});

test('as when the whole inventory is held at once', async () => {
  const { path } = await generated();
  const names = readdirSync(path, { recursive: true, encoding: 'utf8' });
  const files = names
    .filter(name => name.endsWith('.wood') && name !== 'broken.wood')
    .map(name => readFile(name, readFileSync(join(path, name), 'utf8').replace(/^\uFEFF/, '')));
  const place = ({ file, line, column, rule, message, related }: Record<string, unknown>) => ({
    file,
    line,
    column,
    rule,
    message,
    related,
  });
  const whole = checkWorkspace(buildWorkspace(files), parseDate(ON)!);
  const { findings } = JSON.parse(check(path, '--as', 'json').stdout);
  expect(findings.length).toBeGreaterThan(100);
  const sorted = (list: readonly object[]) =>
    list.map(one => JSON.stringify(place(one as Record<string, unknown>))).sort();
  expect(sorted(findings)).toEqual(sorted(whole));
});
