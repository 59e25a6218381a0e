/** Texts for the search for faults: of no kind at all, made of the words of the notation, and samples spoilt by hand. */

import fc from 'fast-check';
import { HEADS } from '../../grammar/fields.ts';
import type { FormNode } from '../../grammar/forms.ts';
import { UNITS } from '../../server/base/quantity.ts';
import { readText } from '../../server/host/read-text.ts';
import { EXTREME } from '../grammar/damage-extremes.ts';
import { DAMAGED } from '../grammar/damage-shapes.ts';
import { sampleFiles } from '../samples/sample-files.ts';

/** Bytes of a file, of which most are no text; what can't be read is empty. */
export const fromBytes: fc.Arbitrary<string> = fc
  .oneof(
    fc.uint8Array({ maxLength: 400 }),
    fc.uint8Array({ maxLength: 400, max: 127 }),
    // Beginnings of UTF-8 sequences, line ends and the marks of the notation, many of them.
    fc
      .array(
        fc.constantFrom(0x0a, 0x0d, 0x20, 0x22, 0x23, 0xc3, 0xa9, 0xef, 0xbb, 0xbf, 0xf0, 0x9f, 0x8c, 0x00),
      )
      .map(bytes => Uint8Array.from(bytes)),
  )
  .map(bytes => {
    const read = readText(bytes);
    return 'problem' in read ? '' : read.text;
  });

const wordsOf = (node: FormNode): readonly string[] => {
  switch (node.kind) {
    case 'literal':
      return [node.word];
    case 'choice':
      return node.words;
    case 'optional':
    case 'repeat':
      return wordsOf(node.node);
    case 'sequence':
    case 'anyOrder':
    case 'either':
      return node.nodes.flatMap(wordsOf);
    default:
      return [];
  }
};

const SPECS = [...HEADS.values()].flatMap(head => [head, ...head.fields.values()]);
const VOCABULARY = [...new Set(SPECS.flatMap(spec => [spec.word, ...wordsOf(spec.node)]))];
const NUMBERS = [
  '0',
  '7',
  '41',
  '-3',
  '+2',
  '1/2',
  '1/0',
  '3.5',
  '007',
  '9'.repeat(400),
  '1e9',
  '0.1',
  '.5',
  '5.',
];
const MARKS = [
  ...[
    '"',
    '""',
    '#',
    "'",
    ',',
    ',,',
    '~',
    '>',
    '<',
    '..',
    '...',
    '×',
    'x',
    '-',
    '_',
    '.',
    '/',
    '\\',
    '%',
    '°',
  ],
  ...[';', '(', ')', '[', '|', '{', '=', '$', '`', '@', '&', '*', '?', '!', '^', ':'],
  ...['<<<<<<< ours', '=======', '>>>>>>> theirs', '|||||||'],
];
const DATES = [
  '2026-02-30',
  '2024-02-29',
  '0000-00-00',
  '9999-12-31',
  '0100-01-01',
  '2026-03-14..2026-03-01',
  '02-29',
  '13-45',
];
/** Blanks of all kinds, marks that no eye sees, letters beyond ASCII, halves of surrogate pairs. */
const CHARACTERS = [
  ...[' ', '  ', '\t', '\u00A0', '\uFEFF', '\u2003', '\u3000', '\v', '\f', '\u0085', '\u2028', '\u2029'],
  ...['\0', '\u001B', '\u007F', '\u200B', '\u200F', '\u202E', '\u2066', '\uFFFD', '\uFFFF'],
  ...['é', 'é', 'ß', 'ö', 'İ', 'ı', '木', 'ا', '🌳', '👩‍🌾', '\uD83C', '\uDF33'],
];
const LINE_ENDS = ['\n', '\n', '\n', '\r\n', '\r', '\n\n', '\r\r\n'];

const token: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...VOCABULARY) },
  { weight: 3, arbitrary: fc.constantFrom(...UNITS.map(unit => unit.symbol), ...NUMBERS) },
  { weight: 3, arbitrary: fc.constantFrom(...MARKS) },
  { weight: 2, arbitrary: fc.constantFrom(...DATES) },
  { weight: 2, arbitrary: fc.constantFrom(...CHARACTERS) },
  { weight: 5, arbitrary: fc.constantFrom(...LINE_ENDS) },
  { weight: 3, arbitrary: fc.constantFrom(...SPECS.map(spec => `\n  ${spec.example}`)) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 6 }) },
);

/** Words, marks and values of the notation in any order, with blanks between them or without. */
export const soup: fc.Arbitrary<string> = fc
  .array(fc.tuple(token, fc.constantFrom(' ', ' ', ' ', '', '  ')), { maxLength: 60 })
  .map(parts => parts.map(([word, blank]) => word + blank).join(''));

/** Whole lines of samples: a stretch of one is cut out so that a case stays small. */
const SAMPLE_LINES = [...sampleFiles('fernhollow'), ...sampleFiles('errors')].map(({ text }) =>
  text.split('\n'),
);
const MOST_LINES = 40;

const stretch: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom(...SAMPLE_LINES), fc.nat(), fc.integer({ min: 1, max: MOST_LINES }))
  .map(([lines, at, count]) => {
    const start = at % lines.length;
    return `${lines.slice(start, start + count).join('\n')}\n`;
  });

/** An edit as hands make it: a place, how much goes, and what comes. */
export interface Change {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

export const change: fc.Arbitrary<Change> = fc.record({
  at: fc.nat(),
  remove: fc.oneof(fc.constant(0), fc.constant(1), fc.nat(12), fc.nat(400)),
  insert: fc.oneof(fc.constant(''), token, stretch),
});

/** The text after an edit; a place beyond the end counts from the beginning again. */
export function changed(text: string, { at, remove, insert }: Change): string {
  const start = at % (text.length + 1);
  return text.slice(0, start) + insert + text.slice(start + remove);
}

export const mutated: fc.Arbitrary<string> = fc
  .tuple(stretch, fc.array(change, { maxLength: 6 }))
  .map(([text, changes]) => changes.reduce(changed, text));

/** The beginnings of texts that are measured as well: damaged, of another kind, of one thing too many. */
const begun: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom(...[...DAMAGED.values(), ...EXTREME.values()].flat()), fc.nat(99), fc.nat(600))
  .map(([{ write }, seed, length]) => write(length, seed).slice(0, length));

/** Texts of every kind but those that keep to the notation. */
export const anyText: fc.Arbitrary<string> = fc.oneof(fromBytes, soup, mutated, begun);
