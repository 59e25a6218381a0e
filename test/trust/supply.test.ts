/** What the program rests on, and what it starts: few packages, each with its reason, and no shell. */

import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sources } from './sources.ts';

const { dependencies, scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
  dependencies: Record<string, string>;
  scripts: Record<string, string>;
};

interface Package {
  readonly name: string;
  readonly why: string;
  readonly licence: string;
  /** Kilobytes as installed. */
  readonly installed: number;
}

const rows: readonly Package[] = readFileSync('DEVELOPERS.md', 'utf8')
  .split('## Runtime dependencies')[1]!
  .split('\n## ')[0]!
  .split('\n')
  .filter(line => line.startsWith('| ') && !/^\| (package|---)/.test(line))
  .map(line => {
    const [name, why, licence, installed] = line
      .split('|')
      .slice(1, -1)
      .map(cell => cell.trim());
    return {
      name: name!,
      why: why!,
      licence: licence!,
      installed: Number(/^(\d+) kB$/.exec(installed!)?.[1]),
    };
  });

function kilobytes(folder: string): number {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map(name =>
    statSync(join(folder, name)),
  );
  return files.reduce((sum, file) => sum + (file.isFile() ? file.size : 0), 0) / 1000;
}

test('every runtime dependency stands in the guide with its reason, and no other', () => {
  expect(rows.map(({ name }) => name).sort()).toEqual(Object.keys(dependencies).sort());
  for (const { name, why } of rows) expect(why.length, name).toBeGreaterThan(10);
});

test.each(rows)('$name: licence and size are as stated', ({ name, licence, installed }) => {
  const stated = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8')) as { license: string };
  expect(stated.license).toBe(licence);
  const size = kilobytes(`node_modules/${name}`);
  expect(installed).toBeGreaterThan(size * 0.8 - 5);
  expect(installed).toBeLessThan(size * 1.2 + 5);
});

test('programs are started in one place, and never by a shell', () => {
  const starting = sources.filter(path => /child_process/.test(readFileSync(path, 'utf8')));
  expect(starting).toEqual(['server/cli/git.ts']);
  expect(readFileSync('server/cli/git.ts', 'utf8')).not.toMatch(/shell:|(?<!\.)\bexec\(|execSync/);
});

test('nothing runs when the package is installed', () => {
  expect(Object.keys(scripts).filter(name => /^(pre|post)?install$|^prepare/.test(name))).toEqual([]);
});
