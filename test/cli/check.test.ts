import { mkdir, readFile, symlink } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { expect, test } from 'vitest';
import schema from '../../server/show/findings.schema.json';
import { folderWith, ON } from './folder.ts';

const ajv = addFormats.default(new Ajv({ allErrors: true }));
const validate = ajv.compile(schema);

const PEOPLE = 'person RV "Ruth Varga"\n  qualified consulting arborist\n';
const SITE = 'site "Fernhollow Court"\n  region US-OR\n';
const SOUND =
  'tree 1\n  species Quercus garryana\n  dbh 16 in\n  height 48 ft\n\n  inspection 2026-05-02 from ground\n    by RV\n    level basic\n';
const BARE = 'tree 2\n  dbh 41\n';

test('a sound inventory: a summary and exit code 0', async () => {
  const folder = await folderWith({ 'site.wood': SITE, 'people.wood': PEOPLE, 'trees.wood': SOUND });
  expect(await folder.run('check', '--on', ON, '--reject', 'note')).toEqual({
    code: 0,
    out: '1 tree in 3 files: 0 errors, 0 warnings, 0 notes. No sign that needs judging is on record.\nLocal orders, and the permits that they require, are checked only as far as they are recorded.\n',
    err: '',
  });
});

test('a finding: place, message, rule, the line with a marker, and what to do', async () => {
  const folder = await folderWith({ 'in/a.wood': BARE });
  const { code, out } = await folder.run('check', 'in', '--format', 'lines');
  expect(code).toBe(1);
  const lines = out.split('\n');
  expect(lines[0]).toMatch(/^in\/a\.wood:2:7: error: .+ \[missing-unit\]$/);
  expect(lines[1]).toBe('     2 |   dbh 41');
  expect(lines[2]).toBe('       |       ^^');
  expect(lines[3]).toMatch(/^ {2}\S.+\.$/);
  expect(out).toMatch(
    /\n1 tree in 1 file: 1 error, \d+ warnings?, \d+ notes?\.\nLocal orders, and the permits that they require, are checked only as far as they are recorded\.\n$/,
  );
});

test('--reject decides what exits with 1', async () => {
  const folder = await folderWith({ 'a.wood': BARE });
  expect((await folder.run('check', '--reject', 'error')).code).toBe(1);
  expect((await folder.run('check', '--reject', 'never')).code).toBe(0);
});

test('site and persons of the folders above apply, and are not checked themselves', async () => {
  const folder = await folderWith({
    'site.wood': SITE,
    'people.wood': PEOPLE,
    'broken.wood': BARE,
    'grove/trees.wood': SOUND,
  });
  for (const path of ['grove', 'grove/trees.wood']) {
    const { code, out } = await folder.run('check', path, '--on', ON, '--reject', 'note');
    expect(out).toBe(
      '1 tree in 1 file: 0 errors, 0 warnings, 0 notes. No sign that needs judging is on record.\nLocal orders, and the permits that they require, are checked only as far as they are recorded.\n',
    );
    expect(code).toBe(0);
  }
});

test('what is accepted is shown as accepted and rejects nothing', async () => {
  const target = '\n  target "Play lawn"\n    occupied frequent\n    kind people\n';
  const accept =
    '\n  accept target-without-distance\n    until 2026-12-31\n    by RV\n    because "measured next visit"\n';
  const folder = await folderWith({
    'people.wood': PEOPLE,
    'open.wood': SOUND + target,
    'kept.wood': SOUND.replace('tree 1', 'tree 2') + target + accept,
  });
  const open = await folder.run('check', 'open.wood', '--on', ON, '--reject', 'note');
  expect(open.code).toBe(1);
  expect(open.out).toContain('[target-without-distance]');
  const { code, out } = await folder.run(
    ...['check', 'kept.wood', '--on', ON, '--reject', 'note', '--format', 'lines'],
  );
  expect(out).toMatch(/^kept\.wood:10:\d+: note: accepted: .* \[target-without-distance\]$/m);
  expect(out).toContain('  Accepted by RV until 2026-12-31: measured next visit\n');
  expect(out).toContain('0 errors, 0 warnings, 0 notes; 1 accepted.');
  expect(code).toBe(0);
  const json = JSON.parse((await folder.run('check', 'kept.wood', '--on', ON, '--as', 'json')).out);
  expect(validate(json), JSON.stringify(validate.errors)).toBe(true);
  expect(json.findings[0].accepted).toEqual({
    by: 'RV',
    until: '2026-12-31',
    because: 'measured next visit',
  });
});

test('the sample inventory follows the schema, whatever it finds', async () => {
  const folder = await folderWith({});
  const sample = fileURLToPath(new URL('../../samples/fernhollow', import.meta.url));
  const { out } = await folder.run('check', sample, '--as', 'json', '--on', ON, '--reject', 'never');
  const json = JSON.parse(out);
  expect(validate(json), JSON.stringify(validate.errors)).toBe(true);
  expect(json.findings.length).toBeGreaterThan(20);
  expect(json.unread).toEqual([]);
});

test('--as json follows the published schema, with problems beside the findings', async () => {
  const folder = await folderWith({
    'a.wood': BARE,
    'b.wood': new Uint8Array([0xff, 0x0a]),
    'people.wood': PEOPLE,
  });
  const { code, out, err } = await folder.run('check', '--as', 'json', '--on', ON);
  expect(code).toBe(2);
  expect(err).toBe('soundwood: b.wood is not UTF-8 text (line 1); save it as UTF-8\n');
  const report = JSON.parse(out);
  expect(validate(report), JSON.stringify(validate.errors)).toBe(true);
  expect(report).toMatchObject({
    version: 1,
    on: ON,
    summary: { trees: 1, files: 2, errors: 1 },
    unread: [{ file: 'b.wood' }],
  });
  expect(report.findings[0]).toMatchObject({
    rule: 'missing-unit',
    level: 'error',
    grade: 'syntax',
    file: 'a.wood',
    line: 2,
    column: 7,
    endLine: 2,
    endColumn: 9,
  });
});

test('--to writes the findings to a file; the summary stays on the terminal', async () => {
  const folder = await folderWith({ 'a.wood': BARE });
  const { code, out } = await folder.run('check', '--as', 'json', '--to', 'findings.json');
  expect(code).toBe(1);
  expect(out).toMatch(
    /^1 tree in 1 file: .*\nLocal orders, and the permits that they require, are checked only as far as they are recorded\.\n$/,
  );
  expect(validate(JSON.parse(await readFile(folder.file('findings.json'), 'utf8')))).toBe(true);
  const elsewhere = await folder.run('check', '--to', 'no/such/folder.txt');
  expect(elsewhere.code).toBe(2);
  expect(elsewhere.err).toBe("soundwood: no/such/folder.txt can't be written: its folder does not exist.\n");
});

test('what could not be read exits with 2, and the rest is checked', async () => {
  const folder = await folderWith({ 'a.wood': BARE, 'b.wood': new Uint8Array([0xc3, 0x28]) });
  await mkdir(folder.file('empty'));
  const { code, out, err } = await folder.run('check', '.', 'gone.wood', 'empty', '--format', 'lines');
  expect(code).toBe(2);
  expect(out).toContain('a.wood:2:7: error:');
  expect(err).toBe(
    'soundwood: gone.wood does not exist\n' +
      'soundwood: empty contains no .wood files; soundwood init empty starts an inventory there\n' +
      'soundwood: b.wood is not UTF-8 text (line 1); save it as UTF-8\n',
  );
});

test('options and commands that there are none of exit with 2', async () => {
  const folder = await folderWith({ 'a.wood': SOUND });
  for (const args of [
    ['check', '--colour'],
    ['chekc'],
    ['check', '--reject', 'all'],
    ['check', '--on', '2026-02-30'],
    [],
  ]) {
    const { code, err } = await folder.run(...args);
    expect(code).toBe(2);
    expect(err).not.toBe('');
  }
  expect((await folder.run('chekc')).err).toContain('Did you mean check?');
  expect((await folder.run('--help')).code).toBe(0);
});

test('a byte order mark and CRLF shift no column', async () => {
  const folder = await folderWith({ 'a.wood': `\uFEFF${BARE.replaceAll('\n', '\r\n')}` });
  const { out } = await folder.run('check', '--format', 'lines');
  expect(out).toContain('a.wood:2:7: error:');
  expect(out).toContain('     2 |   dbh 41\n');
  expect(out).not.toContain('\r');
  expect(out).not.toContain('\uFEFF');
});

test('NUL and escape characters are found, and never reach the terminal', async () => {
  const folder = await folderWith({ 'a.wood': 'tree 1\n  note "a\0b"\n  note "\x1b[2Jgone"\n' });
  const { code, out } = await folder.run('check', '--format', 'lines');
  expect(code).toBe(1);
  expect(out).toMatch(/a\.wood:2:10: error: .*\[not-text\]/);
  expect(out).toMatch(/a\.wood:3:9: error: .*\[not-text\]/);
  expect(out).not.toMatch(/[\0\x1b]/);
});

test('a line of 50 MB is one finding with a short excerpt', async () => {
  const folder = await folderWith({ 'a.wood': `tree 1\n${'x'.repeat(50_000_000)}\n  dbh 41\n` });
  const { code, out, err } = await folder.run('check', '--format', 'lines');
  expect({ code, err }).toEqual({ code: 1, err: '' });
  expect(out).toContain('[line-too-long]');
  expect(out).toContain('a.wood:3:7: error:');
  expect(out.length).toBeLessThan(4000);
});

test('folders that link to each other are checked once', async () => {
  const folder = await folderWith({ 'in/a.wood': BARE });
  await symlink('..', folder.file('in/up'));
  const { code, out } = await folder.run('check');
  expect(code).toBe(1);
  expect(out).toContain('1 tree in 1 file');
});

test('an empty file is an inventory without trees', async () => {
  const folder = await folderWith({ 'a.wood': '' });
  expect(await folder.run('check')).toEqual({
    code: 0,
    out: '0 trees in 1 file: 0 errors, 0 warnings, 0 notes.\n',
    err: '',
  });
});
