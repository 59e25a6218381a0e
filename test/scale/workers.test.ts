/** Inventories checked in pieces and by several threads: whoever checks, the output is the same to the byte. */

import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { PROGRAM } from '../built.ts';
import { ON } from '../cli/folder.ts';
import { FORMS, generated } from './inventory.ts';

function check(cwd: string, ...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, 'check', '--on', ON, ...args], {
    cwd,
    encoding: 'utf8',
    maxBuffer: 2 ** 30,
  });
  return { status, stdout, stderr };
}

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
});

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
