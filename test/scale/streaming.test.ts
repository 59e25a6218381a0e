/** Inventories that are not kept in memory: files are read in stretches, twice, and the findings are the same. */

import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { generateTrees, printTree } from '../../server/bench/inventory.ts';
import { findingsIn } from '../../server/cli/checking/find.ts';
import { loadInventory, placedBlocks } from '../../server/cli/inventory.ts';
import type { Io } from '../../server/cli/io.ts';
import { stretchesOf } from '../../server/cli/read-stretches.ts';
import { readFile } from '../../server/facts/workspace.ts';
import type { Folder } from '../cli/folder.ts';
import { ON } from '../cli/folder.ts';
import { damagesOf } from '../grammar/damage.ts';
import { SAMPLES, sampleFiles } from '../samples/sample-files.ts';
import { generated } from './inventory.ts';

const TODAY = parseDate(ON)!;
const TEXTS = ['fernhollow', 'errors'].flatMap(folder => sampleFiles(folder).map(({ text }) => text));

const folder = mkdtempSync(join(tmpdir(), 'soundwood-stretches-'));
const file = join(folder, 'a.wood');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The file read in stretches of about so many bytes has the blocks that it has as a whole. */
function compare(text: string, length: number): void {
  writeFileSync(file, text);
  const stretches = [...stretchesOf(file, { length })];
  expect(stretches.join('')).toBe(text);
  const shape = ({ start, firstLine, node: { text: own, fact } }: (typeof whole)[number]) => [
    start,
    firstLine,
    own,
    fact,
  ];
  const whole = readFile('a.wood', text).blocks;
  expect([...placedBlocks('a.wood', stretches)].flat().map(shape)).toEqual(whole.map(shape));
}

describe('stretches', () => {
  const lengths = fc.constantFrom(1, 7, 40, 200, 1000, 10_000);

  test('of the samples, with every kind of line end', () => {
    for (const text of TEXTS)
      for (const end of ['\n', '\r\n', '\r', '\n\n# between\n']) compare(text.replaceAll('\n', end), 300);
  });

  test('with any line damaged', () => {
    const damaged = fc.constantFrom(...TEXTS).chain(text => {
      const lines = text.split('\n');
      return fc.nat(lines.length - 1).chain(at => {
        const damages = damagesOf(lines[at]!);
        if (damages.length === 0) return fc.constant(text);
        return fc.constantFrom(...damages).map(({ line }) => lines.with(at, line).join('\n'));
      });
    });
    fc.assert(fc.property(damaged, lengths, compare), { numRuns: 300 });
  });

  test('of lines in any order, in any script', () => {
    const line = fc.oneof(
      fc.constantFrom(...TEXTS.flatMap(text => text.split('\n'))),
      fc.constantFrom('', ' ', 'tree 14', 'tre 3', '\u00A0tree 2', '\uFEFFtree 3', 'trees', '# 🌳 ä'),
    );
    const text = fc
      .array(line, { maxLength: 30 })
      .chain(lines => fc.constantFrom('\n', '\r\n').map(end => lines.join(end)))
      // A mark at the very beginning is no part of the text.
      .filter(joined => !joined.startsWith('\uFEFF'));
    fc.assert(fc.property(text, lengths, compare), { numRuns: 500 });
  });

  test.each([
    [
      'UTF-8 up to a line far below',
      `${'tree 1\n'.repeat(100)}\u00FF`,
      'latin1',
      /not UTF-8 text \(line 101\)/,
    ],
    ['UTF-16', 'tree 1\n', 'utf16le', /is UTF-16/],
  ] as const)('%s is no text', (_, text, encoding, message) => {
    writeFileSync(file, Buffer.from(text, encoding));
    expect(() => [...stretchesOf(file, { length: 50 })]).toThrow(message);
  });
});

const ioOf = (cwd: string) => ({ cwd, today: TODAY, progress: false }) as Io;

async function found(cwd: string, keep: boolean) {
  const inventory = await loadInventory([], { keep, digest: true }, ioOf(cwd));
  const files = [];
  for (const one of inventory.files) {
    const parts = [];
    for await (const part of findingsIn(inventory, one, TODAY)) parts.push(part);
    const { path, tags } = one;
    files.push({ path, tags, found: parts.flatMap(part => part.found), judged: sum(parts) });
  }
  return { files, problems: inventory.problems, digests: inventory.digests };
}

const sum = (parts: readonly { readonly signs: { readonly judged: number } }[]): number =>
  parts.reduce((judged, { signs }) => judged + signs.judged, 0);

test('kept and not kept: of a generated inventory', async () => {
  const { path } = await generated();
  const whole = await found(path, true);
  expect(whole.problems).toHaveLength(1);
  const rules = whole.files.flatMap(one => one.found.map(({ finding }) => finding.rule));
  for (const rule of ['duplicate-tag', 'tag-reuse', 'unknown-reference']) expect(rules).toContain(rule);
  expect(await found(path, false)).toEqual(whole);
}, 60_000);

test('kept and not kept: of the samples', async () => {
  const whole = await found(SAMPLES, true);
  expect(whole.files.length).toBeGreaterThan(100);
  expect(await found(SAMPLES, false)).toEqual(whole);
}, 60_000);

/** Larger than what is kept in memory. */
async function large(): Promise<Folder> {
  const inventory = await generated();
  const trees = generateTrees(8000, 10_001).map(printTree).join('\n');
  writeFileSync(inventory.file('huge.wood'), `${trees}\ntree 10001\n`);
  return inventory;
}

test('a large inventory has the findings that its parts have, and those of its files', async () => {
  const inventory = await large();
  const { code, out } = await inventory.run('check', '--as', 'json', '--workers', '2');
  expect(code).toBe(2);
  const { findings } = JSON.parse(out) as { findings: readonly { readonly file: string }[] };
  const whole = await found(inventory.path, true);
  expect(findings.map(({ file: name }) => name)).toEqual(
    whole.files.flatMap(one => one.found.map(({ finding }) => finding.file)),
  );
  await inventory.run('check', '--part', '1/1', '--to', 'part.json');
  expect((await inventory.run('gather', 'part.json', '--as', 'json')).out).toBe(out);
}, 120_000);

test('a file that changes between the readings', async () => {
  const inventory = await large();
  const loaded = await loadInventory([], {}, ioOf(inventory.path));
  appendFileSync(inventory.file('huge.wood'), 'tree 2\n');
  const huge = loaded.files.find(({ path }) => path === 'huge.wood')!;
  expect(() => [...huge.blocks()]).toThrow('huge.wood changed while it was being read; run the check again.');
}, 60_000);
