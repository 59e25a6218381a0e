/** What the program rests on, and what it starts: few packages, each with its reason, and no shell. */

import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { extensionFile, PROGRAM } from '../built.ts';
import { bytesByPackage, extension, page, program } from './bundled.ts';
import { sources } from './sources.ts';

const { dependencies, devDependencies, scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
  dependencies?: Record<string, string>;
  devDependencies: Record<string, string>;
  scripts: Record<string, string>;
};

interface Package {
  readonly name: string;
  readonly why: string;
  readonly licence: string;
  /** Kilobytes as installed, without what it brings along. */
  readonly installed: number;
  /** Kilobytes in what is shipped, with what it brings along; 0 where it is not in it. */
  readonly inProgram: number;
  readonly inExtension: number;
}

const kB = (cell: string | undefined): number => (cell === '–' ? 0 : Number(/^(\d+) kB$/.exec(cell!)?.[1]));

const sectionOf = (title: string): string =>
  readFileSync('DEVELOPERS.md', 'utf8').split(`# ${title}\n`)[1]!.split('\n##')[0]!;
const section = sectionOf('Packages that are bundled');

const cellsOf = (text: string): readonly (readonly string[])[] =>
  text
    .split('\n')
    .filter(line => line.startsWith('| ') && !/^\| (package|---)/.test(line))
    .map(line =>
      line
        .split('|')
        .slice(1, -1)
        .map(cell => cell.trim()),
    );

const rows: readonly Package[] = cellsOf(section).map(
  ([name, why, licence, installed, inProgram, inExtension]) => ({
    name: name!,
    why: why!,
    licence: licence!,
    installed: kB(installed),
    inProgram: kB(inProgram),
    inExtension: kB(inExtension),
  }),
);

const rowsOfPage = cellsOf(sectionOf('Packages of the page')).map(([name, why, licence, inPage]) => ({
  name: name!,
  why: why!,
  licence: licence!,
  inPage: kB(inPage),
}));

const manifestOf = (name: string) =>
  JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8')) as {
    readonly license: string;
    readonly version: string;
    readonly dependencies?: Readonly<Record<string, string>>;
  };

/** A package and all that it brings along, without what stands in a row of its own. */
function broughtBy(name: string, known: ReadonlySet<string>, found = new Set<string>()): Set<string> {
  found.add(name);
  for (const other of Object.keys(manifestOf(name).dependencies ?? {}))
    if (!found.has(other) && !known.has(other) && existsSync(`node_modules/${other}`))
      broughtBy(other, known, found);
  return found;
}

function kilobytes(folder: string): number {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map(name =>
    statSync(join(folder, name)),
  );
  return files.reduce((sum, file) => sum + (file.isFile() ? file.size : 0), 0) / 1000;
}

test('whoever installs the program installs no other package: what it needs is bundled', () => {
  expect(dependencies).toBeUndefined();
  for (const { name, why, inProgram, inExtension } of rows) {
    expect(devDependencies, name).toHaveProperty([name]);
    expect(why.length, name).toBeGreaterThan(10);
    expect(inProgram + inExtension, name).toBeGreaterThan(0);
  }
});

test.each([
  ['program', () => join(dirname(PROGRAM), 'LICENSES.txt'), program],
  ['extension', () => extensionFile('LICENSES.txt'), extension],
] as const)('the license of every package in the %s goes along', (_, path, build) => {
  const text = readFileSync(path(), 'utf8');
  const names = [...bytesByPackage(build()).keys()].filter(name => name !== '');
  expect(names.length).toBeGreaterThan(10);
  for (const name of names) {
    const { version, license } = manifestOf(name);
    expect(text).toContain(`${name} ${version}, ${license}\n`);
  }
});

const isNear = (stated: number, bytes: number) =>
  Math.abs(stated - bytes / 1000) <= 1 + (0.15 * bytes) / 1000;

test.each(rows)('$name: licence and size are as stated', ({ name, licence, installed }) => {
  expect(manifestOf(name).license).toBe(licence);
  const size = kilobytes(`node_modules/${name}`);
  expect(installed).toBeGreaterThan(size * 0.8 - 5);
  expect(installed).toBeLessThan(size * 1.2 + 5);
});

describe.each([
  ['program', program, 'inProgram', /`soundwood` loads, ([\d.]+) MB/],
  ['extension', extension, 'inExtension', /two hosts, ([\d.]+) MB/],
] as const)('the %s', (_, build, column, whole) => {
  const known = new Set(rows.map(({ name }) => name));

  test('holds of each package what is stated, and of no others', () => {
    const outputs = build();
    const stated = Number(whole.exec(section)![1]) * 1000;
    expect(
      isNear(
        stated,
        outputs.reduce((sum, { bytes }) => sum + bytes, 0),
      ),
    ).toBe(true);
    const left = new Map(bytesByPackage(outputs));
    left.delete('');
    for (const row of rows) {
      const names = broughtBy(row.name, known);
      const bytes = [...names].reduce((sum, name) => sum + (left.get(name) ?? 0), 0);
      expect(isNear(row[column], bytes), `${row.name}: ${Math.round(bytes / 1000)} kB`).toBe(true);
      for (const name of names) left.delete(name);
    }
    expect([...left.keys()]).toEqual([]);
  });
});

describe('the page', () => {
  test.each(rowsOfPage)('$name has its reason and its licence', ({ name, why, licence }) => {
    expect(why.length).toBeGreaterThan(10);
    expect(manifestOf(name).license).toBe(licence);
    expect(devDependencies).toHaveProperty([name]);
  });

  test('holds of each what is stated, and besides only what its server shares with the program', () => {
    const left = new Map(bytesByPackage(page()));
    left.delete('');
    const known = new Set([...rowsOfPage, ...rows].map(({ name }) => name));
    for (const { name } of rows) for (const one of broughtBy(name, known)) left.delete(one);
    for (const { name, inPage } of rowsOfPage) {
      const names = broughtBy(name, known);
      const bytes = [...names].reduce((sum, one) => sum + (left.get(one) ?? 0), 0);
      expect(isNear(inPage, bytes), `${name}: ${Math.round(bytes / 1000)} kB`).toBe(true);
      for (const one of names) left.delete(one);
    }
    expect([...left.keys()]).toEqual([]);
  });
});

test('every package of the lock is held to its content by a hash', () => {
  const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
    packages: Record<string, { integrity?: string; hasInstallScript?: boolean }>;
  };
  const entries = Object.entries(packages).filter(([path]) => path !== '');
  expect(entries.length).toBeGreaterThan(50);
  for (const [path, { integrity }] of entries) expect(integrity, path).toMatch(/^sha512-/);
  // Only what bundles the program: it puts its own binary in place.
  expect(entries.filter(([, entry]) => entry.hasInstallScript).map(([path]) => path)).toEqual([
    'node_modules/esbuild',
  ]);
});

test('programs are started in three places, and never by a shell', () => {
  const starting = sources.filter(path => /child_process/.test(readFileSync(path, 'utf8')));
  expect(starting).toEqual(['server/host/git.ts', 'server/host/print-pdf.ts', 'client/program.ts']);
  for (const path of starting)
    expect(readFileSync(path, 'utf8')).not.toMatch(/shell:|(?<!\.)\bexec\(|execSync/);
});

test('nothing runs when the package is installed', () => {
  expect(Object.keys(scripts).filter(name => /^(pre|post)?install$|^prepare/.test(name))).toEqual([]);
});
