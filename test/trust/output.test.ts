/** Hostile names of files and texts in what is put out for people and programs: nothing hidden, nothing run. */

import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { expect, test } from 'vitest';
import { parseLine } from '../../grammar/parser.ts';
import { inertCell, textOfCell } from '../../server/import/inert.ts';
import { escapeMarkdown, table } from '../../server/language/markdown.ts';
import { jsonText, sanitize, sanitizeForLog, sanitizeLine, sanitizeXml } from '../../server/show/sanitize.ts';
import { folderWith } from '../cli/folder.ts';
import { HIDDEN, HOSTILE_MARKS, HOSTILE_TEXTS } from './hostile.ts';

const NAME = 'a\u001B[2Jb\u202Ec\u009B31m\nd.wood';
const TEXT = '"=1+1 [x](https://example.org) <b> & | `"" @team ]](0)"';
const INVENTORY = `site ${TEXT}\n  region US-OR\ntree 1 ${TEXT}\n  dbh 41\n  note "a\u202Eb"\n  \u001B]0;x\u0007\n  prescription R1 ${TEXT}\n`;

const hostile = () => folderWith({ [NAME]: INVENTORY });

test.each([
  [['check']],
  [['check', 'gone\u001B[2J']],
  [['check', '--since', 'HEAD\u009B']],
  [['weigh']],
  [['tidy', '--check']],
  [['explain', '--here', '.']],
  [['explain', 'nothing\u001B[2J']],
  [['check', '--as', 'markdown']],
  [['report']],
  [['calendar']],
])('%j shows nothing hidden', async args => {
  const folder = await hostile();
  const { out, err } = await folder.run(...args);
  // The word joiners of reviews are ours.
  expect(out.replaceAll('\r\n', '\n').replaceAll('\u2060', '')).not.toMatch(HIDDEN);
  expect(err).not.toMatch(HIDDEN);
});

test.each([
  '\u0000',
  '\u001B',
  '\u007F',
  '\u0085',
  '\u009B',
  '\u2028',
  '\u202E',
  '\u2066',
  '\u2069',
  '\uFFFD',
])('the notation refuses %j in a text', mark => {
  expect(parseLine(`note "a${mark}b"`).mistake?.code).toBe('not-text');
});

test('marks that writers of Arabic and Hebrew need, and emoji of several parts, are text', () => {
  expect(parseLine('note "\u200Fا\u200Eא 👩\u200D🌾"').mistake).toBeUndefined();
});

test('for programs: JSON, SARIF and JUnit are whole and name the file as it is, without links', async () => {
  const folder = await hostile();
  const as = async (form: string) => (await folder.run('check', '--as', form, '--reject', 'never')).out;
  const { findings } = JSON.parse(await as('json')) as { findings: { file: string }[] };
  expect(new Set(findings.map(({ file }) => file))).toEqual(new Set([NAME]));
  const sarif = JSON.parse(await as('sarif')) as { runs: { results: { message: { text: string } }[] }[] };
  const texts = sarif.runs[0]!.results.map(({ message }) => message.text);
  expect(texts.length).toBeGreaterThan(2);
  expect(texts.filter(text => /(?<!\\)\[[^[\]]*(?<!\\)\]\(/.test(text))).toEqual([]);
  const names: string[] = [];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name }) => void names.push(name));
  parser.write(await as('junit')).close();
  expect(names).toContain('testcase');
});

test.each([
  ['emoji of several parts, in colour', '👩\u200D🌾 ❤\uFE0F 1\uFE0F\u20E3'],
  ['the flag of Scotland', '🏴\u{E0067}\u{E0062}\u{E0073}\u{E0063}\u{E0074}\u{E007F}'],
  ['Persian, with a joiner that joins nothing', 'می\u200Cخواهم'],
  ['Hindi and Arabic, with joiners and marks of direction', 'क्\u200Dष \u200Fא\u200E \u061C؟'],
  ['Khmer, with breaks between words', 'ដើម\u200Bឈើ'],
  ['Mongolian, with a variant of a letter', 'ᠠ\u180B'],
  ['a name with a variant of its character', '葛\u{E0100}'],
])('%s stays as it is', (_, text) => {
  expect(sanitize(text)).toBe(text);
});

const MARK = '\uFFFD';

test('what no eye sees is seen, and says the same in JSON and XML', () => {
  expect(sanitize('1\u200D4 a\u200Bb \u2060 \uFEFF \u00AD \u3164 \u{E0041} \u180E')).toBe(
    `1${MARK}4 a${MARK}b ${MARK} ${MARK} ${MARK} ${MARK} ${MARK} ${MARK}`,
  );
  for (const text of [...HOSTILE_MARKS, ...HOSTILE_TEXTS]) {
    expect(sanitize(text)).not.toMatch(HIDDEN);
    const json = jsonText({ text }, 2);
    expect(json).not.toMatch(HIDDEN);
    expect(JSON.parse(json)).toEqual({ text });
    expect(sanitizeXml(text.replace(/[\0-\x08\x0B\x0C\x0E-\x1F\x7F-\x9F]/g, ''))).not.toMatch(HIDDEN);
  }
  expect(sanitizeXml('a\u202Eb\u{E0041}')).toBe('a&#8238;b&#917569;');
});

test('orders to build servers are torn apart, and names stay what they are', () => {
  expect(sanitizeForLog('a ##vso[b] ##[c] ## d #1')).toBe('a # #vso[b] # #[c] ## d #1');
  expect(sanitizeLine('::error::a.wood')).toBe('./::error::a.wood');
  expect(sanitizeLine('a::b.wood\nc\td')).toBe(`a::b.wood${MARK}c${MARK}d`);
});

test('a cell comes back as it was, and begins a formula for no spreadsheet', () => {
  const piece = fc.constantFrom(
    ';',
    '\n',
    "'",
    '"',
    ' ',
    '=',
    '+',
    '-',
    '@',
    '1',
    '.5',
    'none',
    'a',
    ',',
    '\uFF1D',
  );
  const text = fc.array(piece, { maxLength: 8 }).map(pieces => pieces.join(''));
  fc.assert(
    fc.property(text, said => {
      const cell = inertCell(said);
      expect(textOfCell(cell)).toBe(said);
      if (!/^-\d+(\.\d+)?$/.test(cell)) expect(cell).not.toMatch(/^[=+@\-\uFF1D]/);
      // As it stands in the table, parted at semicolons and line ends by whoever does not know its quotation marks.
      for (const part of cell.replaceAll('"', '""').split(/[;\n]/).slice(1))
        expect(part).not.toMatch(/^[\s"]*[=+@\-\uFF1D]/);
    }),
    { numRuns: 2000 },
  );
});

test('hovers: words of files are on one line, their marks are escaped, nothing is hidden', () => {
  const shown = escapeMarkdown('a\n# b\u202E\u009B <img src=x> [x](y) `c` |');
  expect(shown).not.toMatch(/[\n<>]|(?<!\\)[[\]`|#]/);
  expect(shown).not.toMatch(HIDDEN);
  expect(table(['x\u202E'], [['a|b\u202E']])).not.toMatch(HIDDEN);
  expect(table(['', 'x'], [['a|b\n|c']])).toBe('|  | x |\n| --- | --- |\n| a\\|b \\|c |  |');
});
