/** Inventories checked in parts, as by several machines: gathered, the output is that of one run, to the byte. */

import { cp, readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { expect, test } from 'vitest';
import { partOf } from '../../server/cli/checking/part.ts';
import findingsSchema from '../../server/show/findings.schema.json';
import schema from '../../server/show/part.schema.json';
import { type Folder, folderWith, ON } from '../cli/folder.ts';
import { FORMS, generated } from './inventory.ts';

const ajv = addFormats.default(new Ajv({ allErrors: true }));
const validate = ajv.addSchema(findingsSchema).compile(schema);

/** Checks every part of the folder; the names of the results, the last first. */
async function inParts(folder: Folder, of: number, ...paths: string[]): Promise<readonly string[]> {
  const names: string[] = [];
  for (let part = 1; part <= of; part++) {
    const name = `part-${part}-of-${of}.json`;
    const made = await folder.run('check', ...paths, '--part', `${part}/${of}`, '--to', name);
    expect(made.code).toBe(0);
    expect(made.out).toMatch(new RegExp(`^Part ${part} of ${of}: \\d+ trees? in \\d+ files?: `));
    expect(
      validate(JSON.parse(await readFile(folder.file(name), 'utf8'))),
      ajv.errorsText(validate.errors),
    ).toBe(true);
    names.unshift(name);
  }
  return names;
}

/** In every form, on standard output and into a file. */
async function expectSame(folder: Folder, counts: readonly number[], ...paths: string[]): Promise<void> {
  const whole = new Map<string, unknown>();
  for (const form of FORMS) whole.set(form, await folder.run('check', ...paths, '--as', form));
  const filed = await folder.run('check', ...paths, '--as', 'sarif', '--to', 'whole.sarif');
  const never = await folder.run('check', ...paths, '--reject', 'never');
  for (const of of counts) {
    const parts = await inParts(folder, of, ...paths);
    for (const form of FORMS)
      expect(await folder.run('gather', ...parts, '--as', form)).toEqual(whole.get(form));
    expect(await folder.run('gather', ...parts, '--as', 'sarif', '--to', 'parts.sarif')).toEqual(filed);
    expect(await readFile(folder.file('parts.sarif'), 'utf8')).toBe(
      await readFile(folder.file('whole.sarif'), 'utf8'),
    );
    expect(await folder.run('gather', ...parts, '--reject', 'never')).toEqual(never);
  }
}

test('a generated inventory, in more parts than it has files, too', async () => {
  const folder = await generated();
  const whole = await folder.run('check');
  expect(whole.code).toBe(2);
  expect(whole.err).toContain('broken.wood');
  expect(whole.out).toMatch(/duplicate-tag/);
  await expectSame(folder, [1, 2, 3, 8, 80]);
});

test('the samples', async () => {
  const folder = await folderWith({});
  await cp(fileURLToPath(new URL('../../samples', import.meta.url)), folder.path, { recursive: true });
  expect((await folder.run('check')).code).toBe(1);
  await expectSame(folder, [1, 2, 3, 8]);
});

const SITE =
  'site "Fernhollow Court"\n  region US-OR\n\nperson RV "Ruth Varga"\n  qualified consulting arborist\n';
const tree = (tag: number) =>
  `tree ${tag}\n  species Quercus garryana\n  dbh 16 in\n  height 48 ft\n\n  inspection 2026-05-02 from ground\n    by RV\n    level basic\n`;

test('a part of a folder, with what applies from above; nothing found; no file at all', async () => {
  const folder = await folderWith({
    'site.wood': SITE,
    'east/a.wood': tree(1),
    'east/b.wood': tree(2),
    'west/c.wood': `${tree(1)}  vigor fare\n`,
  });
  await expectSame(folder, [2], 'east');
  expect(await folder.run('gather', ...(await inParts(folder, 2, 'east')))).toMatchObject({
    code: 0,
    err: '',
  });
  await expectSame(folder, [2], 'west', 'gone');
  const gone = await folder.run('gather', ...(await inParts(folder, 2, 'gone')));
  expect(gone).toMatchObject({ code: 2, err: expect.stringContaining('gone does not exist') });
});

test('without --to a part goes to standard output', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'a.wood': tree(1) });
  const { code, out, err } = await folder.run('check', '--part', '1/1');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(JSON.parse(out)).toMatchObject({ on: ON, part: 1, of: 1, inventory: { files: 2 }, unread: [] });
});

test('whose a file is does not hang on the other files', async () => {
  const files = Object.fromEntries(
    Array.from({ length: 40 }, (_, i) => [`${i % 5}/t${i}.wood`, tree(i + 1)]),
  );
  const owners = async (folder: Folder) => {
    const found = new Map<string, number>();
    for (let part = 1; part <= 3; part++) {
      const { out } = await folder.run('check', '--part', `${part}/3`);
      for (const { file } of JSON.parse(out).files) {
        expect(found.has(file)).toBe(false);
        found.set(file, part);
        expect(partOf(file, 3)).toBe(part);
      }
    }
    return found;
  };
  const before = await owners(await folderWith(files));
  const after = await owners(await folderWith({ ...files, '0/more.wood': tree(99), 'site.wood': SITE }));
  expect(before.size).toBe(40);
  expect(new Set(before.values())).toEqual(new Set([1, 2, 3]));
  expect(after.size).toBe(42);
  for (const [file, part] of before) expect(after.get(file)).toBe(part);
});

interface Refused {
  readonly folder: Folder;
  readonly parts: readonly string[];
  /** Changes a part result as somebody might. */
  readonly change: (name: string, members: object) => Promise<void>;
}

async function twoParts(): Promise<Refused> {
  const folder = await folderWith({ 'site.wood': SITE, 'a.wood': tree(1), 'b.wood': 'tree 2\n  dbh 41\n' });
  return {
    folder,
    parts: [...(await inParts(folder, 2))].reverse(),
    change: async (name, members) =>
      writeFile(
        folder.file(name),
        JSON.stringify({ ...JSON.parse(await readFile(folder.file(name), 'utf8')), ...members }),
      ),
  };
}

const refused = async ({ folder }: Refused, ...parts: readonly string[]): Promise<string> => {
  const { code, out, err } = await folder.run('gather', ...parts);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  return err;
};

test('parts that are missing or doubled', async () => {
  const two = await twoParts();
  const [first, second] = two.parts as [string, string];
  expect(await refused(two, second)).toBe(
    `soundwood: part 1 of 2 is missing: make it with soundwood check --shard 1/2 --date ${ON}, and give all 2.\n`,
  );
  expect(await refused(two, first, second, first)).toBe(
    `soundwood: ${first} was given twice: give each part once.\n`,
  );
  await cp(two.folder.file(first), two.folder.file('copy.json'));
  expect(await refused(two, first, 'copy.json')).toBe(
    `soundwood: ${first} and copy.json are both part 1 of 2: give each part once.\n` +
      `soundwood: part 2 of 2 is missing: make it with soundwood check --shard 2/2 --date ${ON}, and give all 2.\n`,
  );
  const [eighth] = await inParts(two.folder, 8);
  expect(await refused(two, eighth!)).toContain('parts 1, 2, 3, 4, 5, 6, 7 of 8 are missing: make each with');
  await two.change(second, { of: 30 });
  expect(await refused(two, second)).toContain('20, 21 and 9 more of 30 are missing: make each with');
});

test('parts of another day, number of parts, inventory or program', async () => {
  const two = await twoParts();
  const [first, second] = two.parts as [string, string];
  const { folder } = two;
  await folder.run('check', '--part', '2/2', '--on', '2026-06-02', '--to', 'late.json');
  expect(await refused(two, first, 'late.json')).toBe(
    `soundwood: late.json was checked for 2026-06-02, but ${first} was checked for ${ON}: make all parts with the same --date DATE.\n`,
  );
  await folder.run('check', '--part', '2/3', '--to', 'third.json');
  expect(await refused(two, first, 'third.json')).toBe(
    `soundwood: third.json is part 2 of 3, but ${first} is part 1 of 2: make all parts with the same number of parts.\n`,
  );
  const inventory =
    /is of an inventory of 3 files with the digest [0-9a-f]{12}: make all parts from the same state/;
  await folder.run('check', 'a.wood', '--part', '2/2', '--to', 'less.json');
  expect(await refused(two, first, 'less.json')).toMatch(inventory);
  await folder.run('check', 'site.wood', 'a.wood', '--part', '1/2', '--to', 'a.json');
  await folder.run('check', 'site.wood', 'b.wood', '--part', '2/2', '--to', 'b.json');
  expect(await refused(two, 'a.json', 'b.json')).toContain('b.json is of an inventory of 2 files');
  await writeFile(folder.file('b.wood'), 'tree 2\n  dbh 42\n');
  await folder.run('check', '--part', '2/2', '--to', 'changed.json');
  expect(await refused(two, first, 'changed.json')).toMatch(inventory);
  await two.change(second, { program: '0.0.0' });
  expect(await refused(two, first, second)).toMatch(
    new RegExp(
      `^soundwood: ${second} was made by soundwood 0\\.0\\.0, but this is .+: make and gather all parts`,
    ),
  );
});

test('parts that do not hold each file once', async () => {
  const two = await twoParts();
  await two.change(two.parts[0]!, { files: [] });
  await two.change(two.parts[1]!, { files: [] });
  expect(await refused(two, ...two.parts)).toBe(
    'soundwood: the parts do not cover each of the 3 files exactly once: make all of them again.\n',
  );
});

test('files that are no part result: each is named, with what it is', async () => {
  const two = await twoParts();
  const [first, second] = two.parts as [string, string];
  const { folder } = two;
  await folder.run('check', '--as', 'json', '--to', 'findings.json');
  const half = (await readFile(folder.file(first), 'utf8')).slice(0, -20);
  await writeFile(folder.file('half.json'), half);
  await two.change(second, { version: 7 });
  expect(await refused(two, 'findings.json', 'half.json', 'a.wood', 'none.json', '.', second)).toBe(
    [
      'findings.json is no part result: soundwood check --shard writes one.',
      'half.json is no part result: it is no JSON, or was not written to its end.',
      'a.wood is no part result: it is no JSON, or was not written to its end.',
      'none.json does not exist.',
      '. is a folder.',
      `${second} is a part result of version 7, and this program reads version 4: make the parts and gather them with one version of soundwood.`,
    ]
      .map(line => `soundwood: ${line}\n`)
      .join(''),
  );
});

/** Every way to the members of a value. */
const paths = (value: unknown, way: readonly string[] = []): readonly (readonly string[])[] =>
  typeof value !== 'object' || value === null
    ? [way]
    : [way, ...Object.entries(value).flatMap(([name, member]) => paths(member, [...way, name]))];

const replaced = (value: unknown, [name, ...way]: readonly string[], by: unknown): unknown => {
  if (name === undefined) return by;
  const own = value as Record<string, unknown>;
  const member = replaced(own[name], way, by);
  return Array.isArray(value) ? value.with(Number(name), member) : { ...own, [name]: member };
};

test('a damaged part result is refused, or gathered as it stands, and nothing crashes', async () => {
  const folder = await folderWith({
    'a.wood': 'tree 2\n  dbh 41\n  accept dead-top until 2027-01-01 by RV because "seen"\n',
    'b.wood': 'tree 2\n  dbh 41 in\n',
  });
  const [part] = await inParts(folder, 1);
  const result = JSON.parse(await readFile(folder.file(part!), 'utf8'));
  expect(JSON.stringify(result)).toContain('"related":[{');
  let refusals = 0;
  for (const way of paths(result)) {
    for (const by of [null, -1, 1e15, 'x', 'x\ny', [], {}, [null], undefined]) {
      await writeFile(folder.file('damaged.json'), JSON.stringify(replaced(result, way, by)) ?? '');
      const { code, out, err } = await folder.run('gather', 'damaged.json', '--as', 'sarif');
      if (out === '') {
        expect(code).toBe(2);
        expect(err).toMatch(/^soundwood: .+\.\n$/);
        refusals++;
      } else expect(() => JSON.parse(out)).not.toThrow();
    }
  }
  expect(refusals).toBeGreaterThan(100);
});

test.each(['0/3', '4/3', '3', '1/0', '1.5/3', '-1/3', '1/99999'])('--part %s is none', async share => {
  const folder = await folderWith({ 'a.wood': tree(1) });
  const { code, err } = await folder.run('check', `--part=${share}`);
  expect(code).toBe(2);
  expect(err).toContain('Expected k/n, e.g. 3/8 (n at most 9999).');
});

test.each([
  ['--as', 'json'],
  ['--reject', 'note'],
  ['--since', 'main'],
])('--part does not go with %s', async (option, value) => {
  const folder = await folderWith({ 'a.wood': tree(1) });
  const { code, err } = await folder.run('check', '--part', '1/2', option, value);
  expect(code).toBe(2);
  expect(err).toMatch(new RegExp(`'--part <k/n>' cannot be used with option '${option}`));
});
