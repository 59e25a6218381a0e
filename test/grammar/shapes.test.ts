import fc from 'fast-check';
import { expect, test } from 'vitest';
import { HEADS, type HeadSpec } from '../../grammar/fields.ts';
import { parseLine } from '../../grammar/parser.ts';
import { linesBelow, readLine, readUncached } from '../../grammar/read-line.ts';
import { Shapes } from '../../grammar/shapes.ts';

/** Every head and field of the notation as it may be written, and what may go wrong in it. */
const LINES: readonly { readonly text: string; readonly current: HeadSpec | undefined }[] = [
  ...[...HEADS.values()].flatMap(head => [
    { text: head.example, current: undefined },
    ...[...head.fields.values()].map(({ example }) => ({ text: example, current: head })),
  ]),
  ...[
    'tree 14',
    'tree 14-a "7 limes"',
    'tree A-17b  # seen 3 times',
    'tree 7.2.1',
    'tree a.mp4',
    'tree 12-05',
    'tree 1/2',
    'tree "14"',
    'tree 14 "the ""2"" of them"',
    'tree 14 15',
    'tree 2026-02-03',
    'tree 1..2',
  ].map(text => ({ text, current: undefined })),
  ...[
    'position 44.31281, -122.87131',
    '\tposition   44.3, 8  # 2 m off',
    'position 44, +8.20',
    'position 1/2, 3',
    'position 44.31281 N, 122.87131 W',
    'dbh 5 ft 6 in',
    'dbh 26',
    'dbh 0',
    'dbh 2..4 in, ~3 cm at 1.3 m',
    'photo 14.mp4',
    'lean 12 deg toward 205 deg',
    'note "40 years ago"',
    'height 26 in 3',
  ].map(text => ({ text, current: HEADS.get('tree') })),
];

const line = fc.constantFrom(...LINES);
const digits = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 60, maxLength: 60 });

const withDigits = (text: string, digits: readonly number[]): string => {
  let next = 0;
  return text.replace(/[0-9]/g, () => String(digits[next++ % digits.length]));
};

test('a line says the same read after another of its shape as read by itself', () => {
  let known = 0;
  fc.assert(
    fc.property(line, digits, digits, ({ text, current }, first, second) => {
      const shapes = new Shapes();
      shapes.keep(readUncached(parseLine(withDigits(text, first)), current));
      const other = withDigits(text, second);
      const read = shapes.read(other);
      if (!read) return;
      known++;
      expect(read).toEqual(readUncached(parseLine(other), current));
    }),
    { numRuns: 5000 },
  );
  expect(known).toBeGreaterThan(1000);
});

test('tags and positions are read after others of their shape, and nothing else of them is', () => {
  const shapes = new Shapes();
  const keep = (text: string, current?: HeadSpec) => shapes.keep(readUncached(parseLine(text), current));
  keep('tree 14 "Lawn maple 2"');
  expect(shapes.read('tree 27 "Lawn maple 9"')?.values).toMatchObject([
    { text: '27' },
    { text: 'Lawn maple 9' },
  ]);
  expect(shapes.read('tree 27 "Lawn Maple 9"')).toBeUndefined();
  expect(shapes.read('tree 127 "Lawn maple 9"')).toBeUndefined();
  keep('position 44.3, -122.8', HEADS.get('tree'));
  expect(shapes.read('position 51.9, -002.5')?.values).toMatchObject([
    { quantity: { low: 51.9, high: 51.9 } },
    { quantity: { low: -2.5, high: -2.5 } },
  ]);
});

test('what depends on its digits is read by itself', () => {
  for (const text of ['inspection 2026-03-14 from ground', 'tree 12-05', 'tree 1.mp3', 'tree 1..2']) {
    const shapes = new Shapes();
    shapes.keep(readUncached(parseLine(text), undefined));
    expect(shapes.read(text), text).toBeUndefined();
  }
});

test('what was read before does not change what is read', () => {
  const tree = HEADS.get('tree')!;
  for (const text of ['position 44.31281, -122.87131', 'position 10.00000, -000.00000'])
    expect(readLine(text, linesBelow(tree))).toEqual(readUncached(parseLine(text), tree));
});
