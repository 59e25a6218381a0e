/** A mistake in the program at one tree: that tree is told as not computed, all others come out, and the exit code is 2. */

import { spawnSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { expect, onTestFinished, test, vi } from 'vitest';
import type * as Appointments from '../../server/assess/appointments.ts';
import { showSound } from '../../server/assess/not-computed.ts';
import { faultText } from '../../server/cli/io.ts';
import type * as Reading from '../../server/facts/interval.ts';
import { PROGRAM } from '../built.ts';
import { folderWith } from './folder.ts';

/** Readings of 13 in can't be computed with, and days of tree 13 can't be found: whatever rests on them fails. */
const UNLUCKY = 13 * 0.0254;
const unlucky = () => new RangeError('not an\n  interval: 0.5..0.3');

vi.mock('../../server/facts/interval.ts', async original => {
  const real = await original<typeof Reading>();
  const valuesOf: typeof real.valuesOf = (quantity, settings) => {
    if (Math.abs(quantity.low - UNLUCKY) < 1e-9) throw unlucky();
    return real.valuesOf(quantity, settings);
  };
  return { ...real, valuesOf };
});
vi.mock('../../server/assess/appointments.ts', async original => {
  const real = await original<typeof Appointments>();
  const appointmentsOf: typeof real.appointmentsOf = context => {
    if (context.tree.tag.value === '13') throw unlucky();
    return real.appointmentsOf(context);
  };
  return { ...real, appointmentsOf };
});

const tree = (tag: number, inches: number) => `tree ${tag}
  species     Quercus robur
  dbh         ${inches} in
  height      50 ft
  crown       from 12 ft, 40 ft wide

  inspection 2026-03-14 from ground

  defect A cavity
    on        trunk at 4 ft, facing S
    diameter  ${inches} in
    opening   2 in wide
    wall      2 in at S

  prescription R1 reduce
    height    50 ft to 45 ft
    between   2026-09-01..2026-10-31

`;
const SITE = 'site "Fernhollow Court"\n  region US-OR\n\n';
const FILES = { 'lawn.wood': SITE + tree(12, 30) + tree(13, 13) + tree(14, 30) };
const LINE = FILES['lawn.wood'].slice(0, FILES['lawn.wood'].indexOf('tree 13')).split('\n').length;
const TOLD = `soundwood: lawn.wood line ${LINE}: tree 13 was not computed: not an interval: 0.5..0.3 (a mistake in the program, not in the record)\n`;

const STACK = /^ {4}at .*[jt]s:|\.[jt]s:\d/m;

test('weigh: the others are weighed, and the tree is told', async () => {
  const folder = await folderWith(FILES);
  const { code, out, err } = await folder.run('weigh');
  expect(code).toBe(2);
  expect(err).toBe(TOLD);
  expect(out).toMatch(/^Tree 12,.*\n(.*\n)*Tree 14,/);
  expect(out).toContain('Tree 13 (lawn.wood)\n  Not computed: not an interval: 0.5..0.3.\n');
  expect(out).not.toMatch(STACK);

  const alone = await folder.run('weigh', '13');
  expect(alone).toMatchObject({ code: 2, err: TOLD });
  // Not "no tree here has anything to weigh".
  expect(alone.out).toBe('Tree 13 (lawn.wood)\n  Not computed: not an interval: 0.5..0.3.\n');

  const json = await folder.run('weigh', '--as', 'json');
  const report = JSON.parse(json.out);
  expect(json.code).toBe(2);
  expect(report.trees.map(({ tag }: { tag: string }) => tag)).toEqual(['12', '14']);
  expect(report.unread).toEqual([
    { file: 'lawn.wood', message: expect.stringContaining('tree 13 was not computed: not an interval') },
  ]);
});

test('report: the page says which tree it is without', async () => {
  const folder = await folderWith(FILES);
  const { code, out, err } = await folder.run('report', '--to', 'report.html');
  expect({ code, out, err }).toEqual({
    code: 2,
    out: 'report.html: 2 trees; open it in a browser.\n16 errors are not resolved: run soundwood check before the report leaves the office.\n',
    err: TOLD,
  });
  const page = await readFile(folder.file('report.html'), 'utf8');
  expect(page).toContain('Tree 12');
  expect(page).toContain('Tree 14');
  expect(page).toMatch(
    /Not everything could be read or computed<\/strong>: lawn\.wood line \d+: tree 13 was not/,
  );
  expect(page).not.toMatch(STACK);
});

test('export: rows of the others in every form', async () => {
  const folder = await folderWith(FILES);
  for (const form of ['csv', 'geojson']) {
    const { code, out, err } = await folder.run('export', '--as', form);
    expect({ code, err }).toEqual({ code: 2, err: TOLD });
    expect(out).toContain('30 in');
    expect(out).not.toContain('13 in');
  }
  const parquet = await folder.run('export', '--as', 'parquet', '--to', 'trees.parquet');
  expect(parquet).toEqual({ code: 2, out: 'trees.parquet: 2 trees.\n', err: TOLD });
  expect((await folder.run('export', '--as', 'jsonl')).code).toBe(2);
});

test('calendar: the days of the others, and one that says that days are missing', async () => {
  const folder = await folderWith(FILES);
  const { code, out, err } = await folder.run('calendar');
  expect({ code, err }).toEqual({ code: 2, err: TOLD });
  expect(out).toContain('SUMMARY:12: reduce R1');
  expect(out).toContain('SUMMARY:14: reduce R1');
  expect(out).toContain('SUMMARY:13: the days to keep were not computed');
});

test('compare: changes and findings of all, figures of the others', async () => {
  const folder = await folderWith({
    'old/a.wood': FILES['lawn.wood'],
    'new/a.wood': FILES['lawn.wood'].replaceAll('wall      2 in', 'wall      4 in'),
  });
  const { code, out, err } = await folder.run('compare', 'old', 'new');
  expect(code).toBe(2);
  expect(err).toContain('tree 13 was not computed: not an interval');
  expect(out).toMatch(/\ntree 13 .*\n {2}defect A: wall 2 in at S → 4 in at S\n/);
  expect(out).toMatch(/\ntree 14 .*\n {2}defect A: wall 2 in at S → 4 in at S\n/);
});

test('check: a rule that fails leaves something unjudged, whatever level is rejected', async () => {
  const folder = await folderWith(FILES);
  const { code, out } = await folder.run('check', '--reject', 'never');
  expect(code).toBe(2);
  expect(out).toContain('[internal-error]');
  expect(out).not.toMatch(STACK);
  await folder.run('check', '--part', '1/1', '--to', 'part.json');
  expect((await folder.run('gather', 'part.json', '--reject', 'never')).code).toBe(2);
});

test('a mistake that no tree is the reason of: one line, and where it happened only for who asks', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n' });
  vi.doMock('../../server/cli/print.ts', () => ({
    print: async () => {
      throw new TypeError("Cannot read properties of undefined\n  (reading 'x')");
    },
  }));
  onTestFinished(() => vi.doUnmock('../../server/cli/print.ts'));
  expect(await folder.run('print', 'a.wood')).toEqual({
    code: 2,
    out: '',
    err: "soundwood: Cannot read properties of undefined (reading 'x'); this is a mistake in the program, not in a record: please report it with the command and its input (--debug shows where it happened).\n",
  });
  expect(faultText(new TypeError('x'), true)).toMatch(/^TypeError: x\n {4}at /);
});

test('the program as it is shipped: neither a stack nor its own code is shown, also of what nobody waits for', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n' });
  const later = `const write = process.stdout.write;
process.stdout.write = function (...given) {
  setImmediate(() => { throw new TypeError('boom'); });
  return write.apply(this, given);
};`;
  const run = (...args: string[]) =>
    spawnSync(
      process.execPath,
      ['--import', `data:text/javascript,${encodeURIComponent(later)}`, PROGRAM, 'check', ...args],
      { cwd: folder.path, encoding: 'utf8' },
    );
  const { status, stderr } = run();
  expect(status).toBe(2);
  expect(stderr).toMatch(/^soundwood: boom; this is a mistake in the program.*\n$/);
  expect(run('--debug').stderr).toMatch(/^soundwood: TypeError: boom\n {4}at /);
});

test('a mistake that shows only while the figures are written costs that tree, too', async () => {
  const place = (what: string) => ({ file: 'a.wood', line: 1, what });
  const trees = ['a', 'bad', 'b'].map(of => ({ place: place(`tree ${of}`), of }));
  const shown = await showSound(trees, some => {
    if (some.includes('bad')) throw unlucky();
    return some.join(' ');
  });
  expect(shown.shown).toBe('a b');
  expect(shown.left.map(({ what }) => what)).toEqual(['tree bad']);
  // What fails without any of them is no tree's.
  await expect(
    showSound(trees, some => {
      if (some.length > 1) throw unlucky();
    }),
  ).rejects.toThrow('not an');
});
