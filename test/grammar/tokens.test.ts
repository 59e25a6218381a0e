/** The lexer against Chevrotain's own, made of the same tokens. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Lexer } from 'chevrotain';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Comment, lex, Space, TOKENS } from '../../grammar/tokens.ts';
import { EXTREME } from './damage-extremes.ts';
import { DAMAGED } from './damage-shapes.ts';

const lexer = new Lexer([...TOKENS], { positionTracking: 'onlyOffset' });

function theirs(text: string) {
  const { tokens, errors } = lexer.tokenize(text);
  expect(errors).toEqual([]);
  return {
    tokens: tokens.filter(({ tokenType }) => tokenType !== Space && tokenType !== Comment),
    comment: tokens.find(({ tokenType }) => tokenType === Comment),
  };
}

const linesOf = (text: string): readonly string[] =>
  text.split(/\r\n|\r|\n/).filter(line => line.length < 5000);

function expectSame(text: string): void {
  for (const line of new Set(linesOf(text))) expect(lex(line), line).toEqual(theirs(line));
}

test('the tokens are sound by the checks of Chevrotain', () => {
  expect(lexer.lexerDefinitionErrors).toEqual([]);
});

test('of the samples', () => {
  for (const name of readdirSync('samples', { recursive: true, encoding: 'utf8' }))
    if (name.endsWith('.wood')) expectSame(readFileSync(join('samples', name), 'utf8'));
});

test('of what is no inventory', () => {
  for (const [, shapes] of [...DAMAGED, ...EXTREME])
    for (const { write } of shapes) expectSame(write(20_000, 1));
});

/** What begins, ends or joins tokens. */
const FRAGMENTS = [
  'in',
  'ft',
  'm/s',
  'kg',
  'in/h',
  '%',
  '%x',
  '×',
  '..',
  '.',
  ',',
  '~',
  '<',
  '>',
  '"',
  '""',
  "'",
  '#',
];
const MORE = [
  '-',
  '+',
  '/',
  '\\',
  '(',
  ')',
  '1/2',
  '3.5',
  '7.2.1',
  '14-a',
  '2026-03-14',
  '02-30',
  'a.jpg',
  'b.JPG.',
  '🌳',
];

test('of lines of fragments', () => {
  const fragment = fc.oneof(
    fc.constantFrom(...FRAGMENTS, ...MORE, ' ', '\t', '\u00A0'),
    fc.string({ unit: 'grapheme', maxLength: 3 }),
    fc.string({ unit: 'binary', maxLength: 2 }),
    fc.constantFrom('tree', 'Acer', 'é', '木', 'x-1', 'n', '0', '12'),
  );
  fc.assert(
    fc.property(fc.array(fragment, { maxLength: 12 }), parts => expectSame(parts.join(''))),
    { numRuns: 5000 },
  );
});
