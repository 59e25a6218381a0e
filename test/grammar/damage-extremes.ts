/** Texts that ask for more than they hold: lines as long as they may be, and of one thing far too many. */

import { type FieldSpec, HEADS } from '../../grammar/fields.ts';
import { LINE_LIMIT } from '../../grammar/lexical-errors.ts';
import { isNaming } from '../../grammar/names.ts';
import { parseLine } from '../../grammar/parser.ts';
import { headNamed, readHead } from '../../grammar/read-line.ts';
import { below, letters, type Shape, shape, TREE } from './damage-shapes.ts';

/** What long lines are made of: letters, numbers, marks, words, and what could be read in several ways. */
const PIECES = [
  ...['a', 'a ', 'a,', 'a.', 'a/', 'a-', 'a.b(', 'a..', './', '\\', '.', '. ', 'a.jpg', 'a.jpga', '.jpg'],
  ...['7', '7 ', '7.', '7.7 ', '7-', '7/', '7..', '7..8 ', '7 in ', '7in', '2026-03-14 ', '2026-', '02-01 '],
  ...[
    '~',
    '> ',
    '~7 ',
    '- ',
    '-',
    '+',
    '%',
    '×',
    '°',
    '"',
    '""',
    '"a" ',
    "'",
    "'a' ",
    ',',
    ', ',
    '#',
    '(',
    '[',
  ],
  ...[
    '{"a":',
    'é',
    '木',
    '\u{1F333}',
    '\uD83C',
    '\t',
    '\uFEFF',
    '\u00A0',
    '\u200B',
    '\0',
    '“',
    '“a” ',
    '1"',
    '1,2 ',
  ],
  ...['tree ', 'tree 1 ', 'Acer ', 'Acer rubrum ', 'unseen ', 'in ', 'N ', 'SSW, ', 'about 7 ', '3/14/2026 '],
] as const;

/** A line as long as it may be, to the last character. */
const longLine = (start: string, piece: string): string =>
  `${start}${piece.repeat(Math.ceil(LINE_LIMIT / piece.length))}`.slice(0, LINE_LIMIT);

const LONG_LINES: readonly Shape[] = [
  ...PIECES.map(piece => shape(`of ${JSON.stringify(piece)}`, () => `${longLine('', piece)}\n`)),
  ...[...HEADS.values()].map(({ word, under }) =>
    below(`${word}, names in a row`, under ? `${under} A\n` : '', () => `${longLine(`${word} `, 'A, ')}\n`),
  ),
  below(
    'joined, all different',
    TREE,
    i => `joined ${Array.from({ length: 2000 }, (_, k) => `A${i + k}`).join(', ')} suspected\n`,
  ),
  below('dbh, lengths in a row', TREE, () => `${longLine('dbh ', '1 in, ')}\n`),
  below('wall, readings in a row', `${TREE}defect A cavity\n`, () => `${longLine('wall ', '2 in at N, ')}\n`),
  below('species, ranks in a row', TREE, () => `${longLine('species Acer rubrum ', 'var. rubrum ')}\n`),
  shape('blanks between marks', () => `; ${' '.repeat(LINE_LIMIT - 4)};\n`),
  below('an unknown word', TREE, (_, random) => `${letters(random, LINE_LIMIT - 10)} 1\n`),
  below('an unknown unit', TREE, (_, random) => `dbh 7 ${letters(random, LINE_LIMIT - 10)}\n`),
  below('an unknown age', TREE, (_, random) => `age ${letters(random, LINE_LIMIT - 10)}\n`),
];

const ONE_LINE: readonly Shape[] = [
  'a',
  '"',
  ',',
  '~',
  '7',
  ' ',
  'a ',
  '(',
  '{"a":[',
  '<a>',
  '\u{1F333}',
].map(piece => ({
  name: `of ${JSON.stringify(piece)}`,
  write: length => piece.repeat(length / piece.length),
}));

/** The example of a head with a number in its last name, so that each is another one. */
function numbered(head: string): (i: number) => string {
  const { example } = HEADS.get(head)!;
  const syntax = parseLine(example);
  const { head: spec, words } = headNamed(syntax)!;
  const name = readHead(syntax, spec, words).values.findLast(
    value => value.type === 'text' && isNaming(head, value),
  );
  if (!name) return () => example;
  const at = example[name.end - 1] === '"' ? name.end - 1 : name.end;
  return i => `${example.slice(0, at)}${i}${example.slice(at)}`;
}

const exampleOf = ({ example }: FieldSpec): string => `  ${example}\n`;

const AGAIN: readonly Shape[] = [...HEADS.values()].flatMap(head => {
  const first = head.under ? `${HEADS.get(head.under)!.example}\n` : '';
  const named = numbered(head.word);
  const fields = [...head.fields.values()].map(exampleOf).join('');
  return [
    below(`${head.word}, its head alone`, first, i => `${named(i)}\n`),
    below(`${head.word}, with all its fields`, first, i => `${named(i)}\n${fields}`),
  ];
});

const FIELDS_AGAIN: readonly Shape[] = [
  below('one field', TREE, i => `  dbh ${i} in\n`),
  below('notes', TREE, i => `  note "${i}"\n`),
  below('photos', TREE, i => `  photo p/${i}.jpg\n`),
  below('former tags', TREE, i => `  formerly T${i}\n`),
  shape('trees of one tag', () => TREE),
  shape('trees that are all different', i => `tree ${i}\n  dbh ${i % 90} in\n`),
  shape(
    'unknown persons',
    i => `person P${i} "x"\ntree ${i}\n  inspection 2026-03-14 from ground\n    by Q${i}\n`,
  ),
  below(
    'defects on stems that are not there',
    TREE,
    i => `  stem S${i}\n  defect A${i} cavity\n    on T${i} at 3 m\n`,
  ),
];

export const EXTREME: ReadonlyMap<string, readonly Shape[]> = new Map([
  ['One line', ONE_LINE],
  ['Lines as long as they may be', LONG_LINES],
  ['Of one thing far too many', [...AGAIN, ...FIELDS_AGAIN]],
]);
