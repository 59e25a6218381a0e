/** Hostile names of files and texts in what is put out for people and programs: nothing hidden, nothing run. */

import { SaxesParser } from 'saxes';
import { expect, test } from 'vitest';
import { parseLine } from '../../grammar/parser.ts';
import { escapeMarkdown, table } from '../../server/language/markdown.ts';
import { folderWith } from '../cli/folder.ts';

/** Control characters but tabs and line ends, and marks that turn the direction of text. */
const HIDDEN = /[\0-\x08\x0B-\x1F\x7F-\x9F\u2028\u2029\u202A-\u202E\u2066-\u2069]/;
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
  expect(out.replaceAll('\r\n', '\n')).not.toMatch(HIDDEN);
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

test('hovers: words of files are on one line, their marks are escaped, nothing is hidden', () => {
  const shown = escapeMarkdown('a\n# b\u202E\u009B <img src=x> [x](y) `c` |');
  expect(shown).not.toMatch(/[\n<>]|(?<!\\)[[\]`|#]/);
  expect(shown).not.toMatch(HIDDEN);
  expect(table(['x\u202E'], [['a|b\u202E']])).not.toMatch(HIDDEN);
  expect(table(['', 'x'], [['a|b\n|c']])).toBe('|  | x |\n| --- | --- |\n| a\\|b \\|c |  |');
});
