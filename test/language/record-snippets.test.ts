/** Whole records as snippets: what they write before anybody fills them in. */

import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS, type HeadSpec } from '../../grammar/fields.ts';
import { parseDate } from '../../server/base/dates.ts';
import { recordContent, recordSnippet } from '../../server/language/record-snippets.ts';

/** What stands in the text when nobody has written anything at the stops yet. */
const unfilled = (snippet: string): string =>
  snippet
    .replace(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '');

const recordOf = (head: HeadSpec): string => unfilled(recordSnippet(head, parseDate('2026-06-01')!));

describe.each([...HEADS.values()].map(head => [head.word, head] as const))('%s', (word, head) => {
  const parent = head.under ? [HEADS.get(head.under)!.example] : [];
  const { lines } = parseBlock([...parent, recordOf(head)].join('\n'));
  const own = lines.slice(parent.length);

  test('opens its head and its fields', () => {
    expect(own[0]!.syntax.items.length).toBeGreaterThan(0);
    expect(recordOf(head).startsWith(`${word} `)).toBe(true);
    expect(own.map(line => line.word ?? line.syntax.text.trim().split(' ')[0])).toEqual([
      word,
      ...recordOf(head)
        .split('\n')
        .slice(1)
        .map(line => line.trim().split(' ')[0]),
    ]);
    for (const field of recordContent(head).split(', '))
      expect(head.fields.has(field) || HEADS.has(field), field).toBe(true);
  });

  test('brings no measurement, no choice and no reason of its own', () => {
    const given = own
      .flatMap(line => line.values)
      .filter(
        value =>
          (value.type === 'quantity' && value.quantity.form !== 'unseen') ||
          (value.type === 'text' && /^(text|because|notes)$/.test(value.name) && value.text !== ''),
      );
    expect(given).toEqual([]);
  });
});

test('the default of a choice is no choice', () => {
  for (const head of HEADS.values())
    for (const { values } of [head, ...head.fields.values()])
      for (const [name, value] of values)
        if (value.kind === 'choice' && value.words.length > 1) expect(value.words).not.toContain(name);
});

test('a tree comes with an inspection', () => {
  expect(recordOf(HEADS.get('tree')!)).toMatch(
    /^tree tag ".*"\n {2}species species\n[\s\S]*\n {2}inspection 2026-06-01 from from\n {4}by by\n/,
  );
});
