/**
 * What people read is in the terms of the trade, in short sentences, and spelled right: findings of all examples, what
 * is said of rules, limits, fields and mistakes, the help of all commands, and a sample weighed, with its history.
 */

import { readFileSync } from 'node:fs';
import { Command } from 'commander';
import dictionary from 'dictionary-en';
import nspell from 'nspell';
import { expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { HABITS } from '../../grammar/habits.ts';
import { parseDate } from '../../server/base/dates.ts';
import { UNITS, unitWords } from '../../server/base/quantity.ts';
import { COMMANDS } from '../../server/cli/commands.ts';
import { OVERVIEW } from '../../server/cli/help.ts';
import { MISTAKES } from '../../server/cli/mistakes.ts';
import { buildWorkspace, readFile, withPhotos } from '../../server/facts/workspace.ts';
import { sources } from '../../server/practice/citation.ts';
import { lawRows } from '../../server/practice/law/laws-of.ts';
import { REGION_NAMES } from '../../server/practice/law/region-names.ts';
import { limits } from '../../server/practice/limits.ts';
import { speciesNames } from '../../server/practice/species.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { RULES } from '../../server/rules/registry.ts';
import { HISTORY_CAUTION, historySections } from '../../server/show/history.ts';
import { histories, treesIn, weighedTrees } from '../../server/show/papers.ts';
import { describeWeighed, WEIGH_CAUTION } from '../../server/show/weigh.ts';
import { sampleFiles } from '../samples/sample-files.ts';
import { DROPPED } from './dropped-terms.ts';

interface Said {
  /** Where it is from. */
  readonly where: string;
  /** The inventory that it is about, whose names it may repeat. */
  readonly about: string;
}

/** What people read. */
const said = new Map<string, Said>();
const add = (where: string, ...texts: readonly (string | undefined)[]) => addAbout('', where, ...texts);
const addAbout = (about: string, where: string, ...texts: readonly (string | undefined)[]) => {
  for (const text of texts) if (text && !said.has(text)) said.set(text, { where, about });
};

for (const rule of RULES) {
  add(rule.name, rule.summary, rule.explanation, rule.limitations, rule.caution);
  for (const example of rule.examples) {
    const read = buildWorkspace([readFile('example.wood', example.text)]);
    const photos = examplePhotos(example);
    const workspace = photos ? withPhotos(read, photos) : read;
    for (const found of checkWorkspace(workspace, parseDate(example.on ?? '2026-06-01')!))
      addAbout(
        example.text,
        found.rule,
        found.message,
        found.remedy,
        found.caution,
        ...(found.related ?? []).map(one => one.message),
      );
  }
}
for (const limit of limits) add(`limit ${limit.name}`, limit.summary, limit.note);
for (const head of HEADS.values()) {
  add(head.word, head.summary);
  for (const field of head.fields.values()) add(`${head.word} ${field.word}`, field.summary);
}
for (const [code, text] of Object.entries(MISTAKES)) add(code, text);
for (const { name, examples } of HABITS)
  for (const { below = 'tree 14', written } of examples) {
    const head = /^(?:tree|site|person|crew|practice) /.test(below) ? below : `tree 14\n${below}`;
    const mistake = parseBlock(`${head}\n${written}`).lines.at(-1)!.mistake;
    addAbout(`${below} ${written}`, `habit: ${name}`, mistake?.message, mistake?.remedy);
  }
const today = parseDate('2026-06-01')!;
const workspace = buildWorkspace(sampleFiles('fernhollow').map(({ path, text }) => readFile(path, text)));
const asked = treesIn([...workspace.files.values()], today);
const same = (path: string) => path;
for (const { of } of weighedTrees({ workspace, today }, asked, same, true).items)
  for (const { heading, lines = [] } of describeWeighed(of).sections) add('weigh', heading, ...lines);
for (const { of } of histories({ workspace, today }, asked, same).items)
  for (const { heading, lines } of historySections(of)) add('history', heading, ...lines);
add('weigh', WEIGH_CAUTION);
add('history', HISTORY_CAUTION);

const nowhere = { out: () => {}, err: () => {} };
for (const { name, define } of COMMANDS) {
  const command = new Command(name);
  define(command, { io: nowhere as never, done: () => {} });
  add(`--help of ${name}`, command.summary(), command.description());
  for (const option of command.options) add(`--help of ${name}`, option.description);
  for (const argument of command.registeredArguments) add(`--help of ${name}`, argument.description);
}
add('--help', OVERVIEW);

/** As read aloud: without what the writer of a record quoted, without code, and without sources in parentheses. */
function prose(text: string): string {
  let left = text.replace(/"[^"]*"/g, '"…"').replace(/`[^`]*`/g, '`…`');
  for (let before = ''; before !== left; ) {
    before = left;
    left = left.replace(/ ?\([^()]*\)/g, '');
  }
  return left;
}

const LONGEST = 30;

/** Parts that are read in one breath. */
const sentences = (text: string): readonly string[] =>
  prose(text)
    .split(/\n\s*\n|\n {2}/)
    .flatMap(paragraph =>
      paragraph
        .replace(/\s+/g, ' ')
        .trim()
        .split(/(?<=[.?!:;])\s+/),
    );

const wordsIn = (sentence: string): number =>
  sentence.split(' ').filter(word => /[\p{L}\d]/u.test(word)).length;

test('no term that was dropped', () => {
  const found = [...said].flatMap(([text, { where }]) =>
    DROPPED.filter(({ dropped }) => dropped.test(prose(text))).map(
      ({ dropped, use }) => `${where}: ${dropped.exec(prose(text))![0]} (use: ${use}): ${text.slice(0, 120)}`,
    ),
  );
  expect(found).toEqual([]);
});

test(`no sentence of more than ${LONGEST} words`, () => {
  const found = [...said].flatMap(([text, { where }]) =>
    sentences(text)
      .filter(sentence => wordsIn(sentence) > LONGEST)
      .map(sentence => `${where}: ${wordsIn(sentence)}: ${sentence}`),
  );
  expect(found).toEqual([]);
});

const lettersOf = (text: string): readonly string[] =>
  [...text.matchAll(/\p{L}[\p{L}'’-]*/gu)].flatMap(([word]) =>
    word.split('-').map(part => part.replaceAll('’', "'").replace(/'s?$/, '')),
  );

/** Words that the program has by itself: of the notation, of names of rules and limits, of units, species and sources. */
const OWN: ReadonlySet<string> = new Set(
  [
    ...RULES.map(({ name }) => name),
    ...limits.map(({ name }) => name),
    ...[...HEADS.values()].flatMap(head => [
      head.word,
      ...[...head.fields.values()].map(({ word, example }) => `${word} ${example}`),
    ]),
    ...COMMANDS.flatMap(({ name, earlierName = '' }) => [name, earlierName]),
    ...UNITS.flatMap(unit => [unit.symbol, ...unitWords(unit)]),
    ...sources.map(({ short, full }) => `${short} ${full}`),
    ...lawRows.map(({ source, act = '' }) => `${source} ${act}`),
    ...Object.values(REGION_NAMES),
    ...speciesNames,
  ].flatMap(lettersOf),
);

const TRADE: ReadonlySet<string> = new Set(
  readFileSync(new URL('trade-words.txt', import.meta.url), 'utf8')
    .trim()
    .split('\n'),
);

test('all words are spelled right', () => {
  const spelling = nspell({ aff: Buffer.from(dictionary.aff), dic: Buffer.from(dictionary.dic) });
  const seen = new Map<string, string>();
  for (const [text, { where, about }] of said) {
    const names = new Set(lettersOf(about));
    for (const word of lettersOf(text.replace(/"[^"]*"|`[^`]*`/g, '')))
      if (word.length > 1 && word !== word.toUpperCase() && !seen.has(word) && !names.has(word))
        seen.set(word, where);
  }
  const wrong = [...seen].filter(
    ([word]) =>
      !OWN.has(word) &&
      !TRADE.has(word.toLowerCase()) &&
      !spelling.correct(word) &&
      !spelling.correct(word.toLowerCase()),
  );
  expect(wrong.map(([word, where]) => `${where}: ${word}`)).toEqual([]);
});

test('the words of the trade are sorted, each once, and none that the dictionary has', () => {
  const spelling = nspell({ aff: Buffer.from(dictionary.aff), dic: Buffer.from(dictionary.dic) });
  expect([...TRADE]).toEqual([...TRADE].sort());
  expect([...TRADE].filter(word => spelling.correct(word))).toEqual([]);
});

test('what is said to be within its limit is so over its whole range', () => {
  const texts = [...said.keys()];
  for (const sample of ['fernhollow', 'quillbrook', 'aldermere'])
    for (const { message, related = [] } of checkWorkspace(
      buildWorkspace(sampleFiles(sample).map(({ path, text }) => readFile(path, text))),
      today,
    ))
      texts.push(message, ...related.map(one => one.message));
  const WITHIN = /([\d.]+?)(?:(?:\.\.|–)([\d.]+))? (times the|%)[^,;]*, within the limit of ([\d.]+)/g;
  const found = texts.flatMap(text =>
    [...text.matchAll(WITHIN)].map(([words, low, high = low, unit, limit]) => ({
      words,
      isWithin: unit === '%' ? Number(high) <= Number(limit) : Number(low) >= Number(limit),
    })),
  );
  expect(found.length).toBeGreaterThan(3);
  expect(found.filter(({ isWithin }) => !isWithin)).toEqual([]);
});
