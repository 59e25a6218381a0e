/** Work orders in the language of the crew: nothing of danger is left untranslated, and nothing English unmarked. */

import dictionary from 'dictionary-es';
import { IntlMessageFormat } from 'intl-messageformat';
import nspell from 'nspell';
import { expect, test } from 'vitest';
import { EN, type MessageKey } from '../../server/report/languages/en.ts';
import { ES_TERMS } from '../../server/report/languages/es-terms.ts';
import { LANGUAGES, speechIn } from '../../server/report/languages/language.ts';
import type { LanguageCode } from '../../server/report/languages/translation.ts';
import { RULES } from '../../server/rules/registry.ts';
import { folderWith } from '../cli/folder.ts';

const TRANSLATED = (Object.keys(LANGUAGES) as LanguageCode[]).flatMap(code => {
  const { translation } = LANGUAGES[code];
  return translation ? [{ code, translation, messages: LANGUAGES[code].messages }] : [];
});

/** Groups of rules whose findings can endanger a crew or its work. */
const TOLD = [
  'evidence',
  'structure',
  'mitigation',
  'pruning',
  'felling',
  'wildlife',
  'people',
  'electricity',
  'permits',
];

const argumentsOf = (message: string): readonly string[] => {
  const names = new Set<string>();
  JSON.stringify(
    new IntlMessageFormat(message, 'en', undefined, { ignoreTag: true }).getAst(),
    (_, value) => {
      // Everything but the number of a plural and text is an argument by its name.
      if (value && typeof value === 'object' && [1, 2, 3, 4, 5, 6].includes(value.type))
        names.add(value.value);
      return value;
    },
  );
  return [...names].sort();
};

test.each(TRANSLATED)('$code says each message with the values of the English one', ({ messages }) => {
  for (const key of Object.keys(EN) as MessageKey[])
    expect(argumentsOf(messages[key]), key).toEqual(argumentsOf(EN[key]));
});

test.each(TRANSLATED)('$code says what each finding that can endanger a crew means', ({ code }) => {
  const told = Object.keys(LANGUAGES[code].findings);
  const rules = RULES.filter(({ group }) => TOLD.includes(group)).map(({ name }) => name);
  expect(told.toSorted()).toEqual(rules.toSorted());
});

/** Words of the trade and of places that the dictionary lacks. */
const TRADE =
  /^(Soundwood|desenergizad[ao]|desmóntelo|trasmoche|trasmochar|nornoreste|nornoroeste|estenoreste|estesureste|sursureste|sursuroeste|oestesuroeste|oestenoroeste|cancro|acuérdenlo|ciérrela|examínelo|inspecciónelo)$/i;

test('the Spanish is spelled right', () => {
  const { messages, findings, translation } = LANGUAGES.es;
  const { words, points, original } = translation!;
  const { note, otherFinding, closures, asks, signs, missing } = original;
  const all = [messages, words, points, findings, closures, asks, signs, missing].flatMap(one =>
    Object.values(one),
  );
  const spelling = nspell(dictionary);
  const wrong = [...all, note, otherFinding, ...ES_TERMS.map(({ term }) => term)]
    .flatMap(
      text =>
        text.replaceAll(/\{\w+(, plural, )?|\b(one|other) \{/g, ' ').match(/(?<!\p{L})\p{L}{2,}/gu) ?? [],
    )
    .filter(word => !spelling.correct(word) && !TRADE.test(word));
  expect([...new Set(wrong)]).toEqual([]);
});

/** Texts of the elements of a page that are not marked as another language. */
function textsIn(page: string): readonly string[] {
  const section = /<section id="crew".*?<\/section>/s.exec(page)![0];
  let left = section;
  // Innermost first.
  for (;;) {
    const next = left.replace(/<(span|small) lang="en">(?:(?!<\1\b).)*?<\/\1>/gs, '');
    if (next === left) break;
    left = next;
  }
  return left
    .split(/<[^>]*>/)
    .map(text => text.trim())
    .filter(text => text !== '');
}

test('a Spanish work order has no English but what is marked', async () => {
  const sample = await folderWith({});
  const { code, out } = await sample.run(
    'report',
    `${process.cwd()}/samples/fernhollow`,
    '--for',
    'crew',
    '--crew-language',
    'es',
    '--date',
    '2026-06-01',
  );
  expect(code).toBe(0);
  const texts = textsIn(out);
  expect(texts.length).toBeGreaterThan(1000);
  const spanish = new Set([
    ...Object.values(LANGUAGES.es.messages),
    ...Object.values(LANGUAGES.es.translation!.words),
  ]);
  const english = new Set(
    [...Object.values(EN), ...Object.keys(LANGUAGES.es.translation!.words)].filter(
      text => !spanish.has(text) && !text.includes('{'),
    ),
  );
  expect(texts.filter(text => english.has(text))).toEqual([]);
  // The beginnings of longer messages.
  const begun = Object.values(EN).flatMap(text => /^[^{]{12,}(?=\{)/.exec(text)?.[0] ?? []);
  expect(texts.filter(text => begun.some(start => text.includes(start)))).toEqual([]);
  for (const english of ['No nest check is on record', 'has a mistake'])
    expect(texts.join('\n')).not.toContain(english);
  expect(out).toContain('No nest check is on record');
});

const ORDERS = `crew ES "Cuadrilla"
  language es

tree 1
  height 10.5 m
  prescription R1 thin
    dose 10 %
    between 2026-10-01..2026-10-12
    because "light for the lawn"
    with ES
  prescription R2 clean
    between 2026-10-01..2026-10-12
`;

const orders = (page: string) =>
  [...page.matchAll(/<article id="order-\d+" class="order[^"]*" lang="(\w+)">(.*?)<\/article>/gs)].map(
    ([, language, text]) => ({ language, text: text! }),
  );

test('each order is in the language of its crew, unless all are to be in one', async () => {
  const folder = await folderWith({ 'a.wood': `site "Court"\n  region US-CA\n\n${ORDERS}` });
  const own = orders((await folder.run('report', '--for', 'crew')).out);
  expect(own.map(({ language }) => language)).toEqual(['es', 'en']);
  expect(own[0]!.text).toContain('Aclarar la copa, aproximadamente 10 % del follaje');
  expect(own[0]!.text).toContain('Light for the lawn.');
  expect(own[0]!.text).toMatch(/1–12 de octubre de 2026/);
  const english = orders((await folder.run('report', '--for', 'crew', '--crew-language', 'en')).out);
  expect(english.map(({ language }) => language)).toEqual(['en', 'en']);
});

test('decimal marks are those of the region, units those of the writer', async () => {
  for (const [region, height] of [
    ['US-CA', '10.5 m'],
    ['MX', '10.5 m'],
    ['ES', '10,5 m'],
  ]) {
    const folder = await folderWith({ 'a.wood': `site "Court"\n  region ${region}\n\n${ORDERS}` });
    const [order] = orders((await folder.run('report', '--for', 'crew')).out);
    expect(order!.text).toContain(`altura ${height}`);
  }
  expect(speechIn('es', { code: '' }).date(0)).toBe('1 de enero de 1970');
});

test('a language that does not exist is a mistake that names those that do', async () => {
  const folder = await folderWith({ 'a.wood': ORDERS.replace('language es', 'language fr') });
  const { out } = await folder.run('check');
  expect(out).toMatch(/\ben\b.*\bes\b/);
  expect(orders((await folder.run('report', '--for', 'crew')).out)[0]!.language).toBe('en');
});
