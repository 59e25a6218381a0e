/** What people of a region read in place of the canonical text. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatDate } from '../../server/base/dates.ts';
import { BRITISH_WORDS } from '../../server/show/british-words.ts';
import { inRegion, readInRegion } from '../../server/show/in-region.ts';

const US = { code: 'US-OR' };
const ENGLAND = { code: 'GB-ENG' };
const GERMANY = { code: 'DE' };

describe('days', () => {
  test.each([
    ['It is due by 2026-09-09.', 'It is due by September 9, 2026.', 'It is due by 9 September 2026.'],
    ['from 2026-06-02..2026-06-12,', 'from June 2–12, 2026,', 'from 2–12 June 2026,'],
    ['2026-06-02..2026-07-12', 'June 2–July 12, 2026', '2 June–12 July 2026'],
    ['2026-06-02..2026-06-02', 'June 2, 2026', '2 June 2026'],
    [
      'the season 02-01..08-31 (x)',
      'the season February 1–August 31 (x)',
      'the season 1 February–31 August (x)',
    ],
    ['the season 11-01..02-29', 'the season November 1–February 29', 'the season 1 November–29 February'],
  ])('%s', (canonical, american, british) => {
    expect(inRegion(canonical, US)).toBe(american);
    expect(inRegion(canonical, ENGLAND)).toBe(british);
    expect(inRegion(canonical, GERMANY)).toBe(british);
  });

  test.each([
    'Plan it: add "follow-up F1 re-inspection" and, below it, "due 2026-11-02".',
    'Example: permit TR-2291, until 2026-12-31',
    'Allowed below tree: age, vigor, vigour, or a head such as stem.',
    'because "the permit of 2026-05-01"',
    '`between 2026-05-04..2026-06-12`',
    'https://example.org/2026-05-01',
    'Memorandum 12-34',
    '2026-02-30',
    'photos/2026-05-01.jpg and IMG-2026-05-01',
  ])('left alone: %s', text => {
    expect(inRegion(text, US)).toBe(text);
    expect(inRegion(text, ENGLAND)).toBe(text);
  });
});

describe('words', () => {
  test.each(BRITISH_WORDS.map(({ american, british }) => [american, british]))('%s', (american, british) => {
    expect(inRegion(`Has ${american}, so.`, ENGLAND)).toBe(`Has ${british}, so.`);
    const capital = american[0]!.toUpperCase() + american.slice(1);
    expect(inRegion(capital, ENGLAND)).toBe(british[0]!.toUpperCase() + british.slice(1));
    for (const region of [US, GERMANY]) expect(inRegion(american, region)).toBe(american);
    const parts = american.includes(' ') ? `"${american}"` : `"${american}" x-${american} ${american}-x`;
    expect(inRegion(parts, ENGLAND)).toBe(parts);
  });

  test.each([
    ['Climber: Alan Gray.', 'Climber: Alan Gray.'],
    ['by Ann "Woody" Gray, of Market Center', 'by Ann "Woody" Gray, of Market Center'],
    ['A gray stem. Gray mold, \nColor', 'A grey stem. Grey mold, \nColour'],
    ['**Color** of `x`\n- Center', '**Colour** of `x`\n- Centre'],
  ])('a capital within a sentence is that of a name: %s', (american, british) => {
    expect(inRegion(american, ENGLAND)).toBe(british);
    expect(inRegion(american, US)).toBe(american);
  });

  test('every row has its source', () => {
    for (const { american, source } of BRITISH_WORDS) {
      expect(american).toBe(american.toLowerCase());
      expect(source).not.toBe('');
    }
  });
});

test('ranges of figures get a dash where nothing is to be typed', () => {
  const text = 'Cavity A: 57..94 % of 9..12 in, "9..12 %", 02-01..08-31, 2026-06-02..2026-06-12.';
  expect(readInRegion('-0.38..0.12 in, ~3..5 ft', US)).toBe('-0.38 to 0.12 in, ~3–5 ft');
  expect(inRegion('State 9..12 %.', US)).toBe('State 9..12 %.');
  expect(readInRegion(text, ENGLAND)).toBe(
    'Cavity A: 57–94 % of 9–12 in, "9..12 %", 1 February–31 August, 2–12 June 2026.',
  );
});

test('twice is the same as once; what is quoted stays, and so does every figure', () => {
  const day = fc.integer({ min: 0, max: 40_000 }).map(formatDate);
  const word = fc.constantFrom(...BRITISH_WORDS.flatMap(({ american, british }) => [american, british]));
  const piece = fc.oneof(
    day,
    fc.tuple(day, day).map(([a, b]) => `${a}..${b}`),
    word,
    fc.double({ min: 0, max: 999, noNaN: true }).map(value => `${value.toFixed(2)} %`),
    fc.string().map(text => `"${text.replaceAll('"', '')}"`),
    fc.constantFrom('due', 'tree', '(', ').', 'of', '3..5 ft', '02-01..08-31'),
  );
  const figures = (text: string) =>
    text
      .replace(/"[^"]*"/g, '')
      .replace(/\d{4}-\d\d-\d\d|\d\d-\d\d\.\.\d\d-\d\d/g, '')
      .match(/\d+\.\d\d %/g);
  fc.assert(
    fc.property(
      fc.array(piece, { maxLength: 12 }),
      fc.constantFrom(US, ENGLAND, GERMANY),
      (pieces, region) => {
        const text = pieces.join(' ');
        for (const change of [inRegion, readInRegion]) {
          const once = change(text, region);
          expect(change(once, region)).toBe(once);
          expect(once.match(/"[^"]*"/g)).toEqual(text.match(/"[^"]*"/g));
          expect(figures(once)).toEqual(figures(text));
        }
      },
    ),
  );
});
