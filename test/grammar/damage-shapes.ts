/** Texts that no inventory should be: damaged ones, of another kind, of no kind at all. Each has any length asked for. */

import { HEADS } from '../../grammar/fields.ts';
import { generateTrees, printTrees, randomFrom } from '../../server/bench/inventory.ts';

type Random = () => number;

export interface Shape {
  readonly name: string;
  /** A text of about so many UTF-16 code units; another one for each seed, the same in every run. */
  readonly write: (length: number, seed: number) => string;
}

/** The i-th part of a text; what is counted goes on from seed to seed. */
export type Part = (i: number, random: Random) => string;

export const shape = (name: string, part: Part): Shape => below(name, '', part);

/** The same below a head. */
export const below = (name: string, head: string, part: Part): Shape => ({
  name,
  write(length, seed) {
    const random = randomFrom(seed);
    const parts = [head];
    let so = head.length;
    for (let i = seed * 1_000_000; so < length; i++) {
      const next = part(i, random);
      parts.push(next);
      so += next.length;
    }
    return parts.join('');
  },
});

export const TREE = 'tree 1\n';
const whole = (random: Random, below: number): number => Math.floor(random() * below);
const pick = <T>(random: Random, list: readonly T[]): T => list[whole(random, list.length)]!;
export function letters(random: Random, count: number): string {
  let word = '';
  for (let i = 0; i < count; i++) word += String.fromCharCode(97 + whole(random, 26));
  return word;
}

const WORDS = [...new Set([...HEADS.values()].flatMap(({ word, fields }) => [word, ...fields.keys()]))];
const LINES = [...HEADS.values()].flatMap(({ example, fields }) => [
  example,
  ...[...fields.values()].map(field => field.example),
]);
const MARKS = [...'"\'#~<>,;:.-+*/\\|()[]{}=&%$!?@^`_°×'];
const LINE_ENDS = ['\n', '\r\n', '\r'];

/** A letter more, less, or other than there was. */
function misspelt(word: string, random: Random): string {
  const at = whole(random, word.length);
  return word.slice(0, at) + pick(random, ['', 'q', word[at]!.repeat(2)]) + word.slice(at + 1);
}

const row = (count: number, part: () => string): string => Array.from({ length: count }, part).join('');

function inventory(length: number, seed: number): string {
  const trees = Math.ceil(length / 180);
  const text = printTrees(generateTrees(trees, 1 + seed * trees));
  return text.slice(0, text.lastIndexOf('\n', length) + 1);
}

/** A good inventory in which every line was changed. */
const changed = (name: string, change: (line: string, random: Random) => string): Shape => ({
  name,
  write(length, seed) {
    const random = randomFrom(seed);
    const lines = inventory(length, seed).split('\n');
    return lines.map(line => change(line, random)).join('\n');
  },
});

const remade = (name: string, remake: (text: string) => string): Shape => ({
  name,
  write: (length, seed) => remake(inventory(length, seed)),
});

const SPOILT: readonly Shape[] = [
  changed('its heads damaged', line => line.replace(/^tree/, 'tre')),
  changed('a letter wrong in each word', (line, random) =>
    line.replace(/[a-z]{3,}/g, word => misspelt(word, random)),
  ),
  changed('a mark in each line', (line, random) => {
    const at = whole(random, line.length);
    return line.slice(0, at) + pick(random, MARKS) + line.slice(at);
  }),
  changed('first words lost', line => line.replace(/^ *\S+/, '')),
  changed('values lost', line => line.replace(/^( *\S+).*/, '$1')),
  changed('units lost', line => line.replace(/ (in|ft)\b/g, '')),
  changed('quoted as mail', line => `> ${line}`),
  changed('as a diff', (line, random) => pick(random, ['+', '-', ' ']) + line),
  remade('without line ends', text => text.replaceAll('\n', ' ')),
  remade('without trees', text => text.replace(/^tree.*\n/gm, '')),
  remade('backwards', text => text.split('\n').reverse().join('\n')),
];

const DAMAGED_LINES: readonly Shape[] = [
  shape('damaged heads', () => 'tre 14 "x"\n'),
  shape('damaged heads, all different', i => `tre ${i} "x${i}"\n`),
  shape('damaged heads of all kinds', (_, random) => `${misspelt(pick(random, WORDS), random)} A\n`),
  shape('damaged heads, line ends of all kinds', (i, random) => `tre ${i} "x"${pick(random, LINE_ENDS)}`),
  shape('heads of trees that lack their word', i => `${i} "x"\n`),
  below('damaged inner heads', TREE, i => `  defct A${i} cavity\n`),
  below(
    'unknown words for fields',
    TREE,
    (_, random) => `  ${letters(random, 3 + whole(random, 9))} 41 in\n`,
  ),
  below('misspelt fields', TREE, (i, random) => `  ${misspelt(pick(random, WORDS), random)} ${i} in\n`),
  shape('unknown words', (_, random) => `${letters(random, 3 + whole(random, 9))} ${letters(random, 5)}\n`),
  below('unknown long words', TREE, (_, random) => `${letters(random, 200)}\n`),
  below(
    'fields of other heads',
    TREE,
    (i, random) => `  ${pick(random, ['hide', 'found', 'member'])} ${i} in\n`,
  ),
  shape('fields without a head', i => `  dbh ${i % 90} in\n`),
  shape('inner heads without a tree', i => `  defect A${i} cavity\n`),
  shape('numbers alone', i => `${i}\n`),
  below(
    'ranges of nothing',
    TREE,
    (_, random) => `  dbh ${pick(random, ['2..', '..3', '....', '2.. ..3', '> >'])}\n`,
  ),
  below(
    'ranges of nothing, all different',
    TREE,
    (i, random) => `  dbh ${i}${pick(random, ['.. ', '..', ' .. ..'])}\n`,
  ),
  shape('dots', (_, random) => `${'.'.repeat(1 + whole(random, 12))}\n`),
  shape('commas', () => ',\n'),
  shape('rows of commas', (_, random) => `${','.repeat(whole(random, 40))}\n`),
  shape('stray marks', (_, random) => `${pick(random, MARKS)}\n`),
  shape(
    'stray marks behind words',
    (_, random) => `${pick(random, WORDS)} ${letters(random, 4)}${pick(random, MARKS)}\n`,
  ),
  shape('rows of marks', (_, random) => `${row(whole(random, 30), () => pick(random, MARKS))}\n`),
  shape('signs without a number', (_, random) => `${pick(random, ['~', '>', '<'])} ${letters(random, 3)}\n`),
  shape('unclosed quotation marks', (_, random) => `${pick(random, WORDS)} "${letters(random, 6)}\n`),
  shape('unfinished merges', i => `<<<<<<< ours\ntree ${i}\n=======\ntree ${i}\n>>>>>>> theirs\n`),
  shape('dates that no calendar has', i => `  inspection 2026-02-${30 + (i % 60)} from ground\n`),
  shape('lines of the notation in any order', (_, random) => `${pick(random, LINES)}\n`),
  shape(
    'words of the notation in any order',
    (_, random) => `${pick(random, WORDS)}${random() < 0.3 ? '\n' : ' '}`,
  ),
  shape(
    'heads in heads',
    (_, random) => `${pick(random, [...HEADS.keys()])} ${pick(random, [...HEADS.keys()])} A\n`,
  ),
  shape('lines indented ever deeper', i => `${' '.repeat(i % 1000)}tre ${i}\n`),
];

const SHORT_LINES: readonly Shape[] = [
  shape('line ends', () => '\n'),
  shape('lone carriage returns', () => '\r'),
  shape('line ends of all kinds', (_, random) => pick(random, [...LINE_ENDS, '\n\r', '\r\r\n'])),
  shape('blanks', () => ' \n'),
  shape('remarks', () => '#\n'),
  shape('a letter a line', (_, random) => `${letters(random, 1)}\n`),
  below('a letter a line in a tree', TREE, (_, random) => `${letters(random, 1)}\n`),
  shape(
    'a letter a line, line ends of all kinds',
    (_, random) => letters(random, 1) + pick(random, LINE_ENDS),
  ),
  shape('a digit a line', (_, random) => `${whole(random, 10)}\n`),
  shape('a picture a line', () => '\u{1F333}\n'),
  shape('the word tree', () => 'tree\n'),
];

const OF_ANOTHER_KIND: readonly Shape[] = [
  shape('JSON', i => `{"tree": {"tag": "${i}", "dbh": {"value": [${i % 90}, [[[[]]]]], "unit": "in"}}},\n`),
  shape(
    'JSON in lines',
    i => `  {\n    "tree": {\n      "tag": "${i}",\n      "dbh": ${i % 90}\n    }\n  },\n`,
  ),
  shape('HTML', i => `<div><p class="tree">Tree ${i}</p><ul><li>dbh: ${i % 90} in</li></ul></div>\n`),
  shape('a table', i => `${i};"Lawn maple";Acer rubrum;${i % 90},5;fair;44.3${i % 999},-122.8\n`),
  shape(
    'prose',
    (_, random) => `${letters(random, 1 + whole(random, 9))}${pick(random, [...'          ,\n'])}`,
  ),
  shape(
    'a program',
    i => `  const tree${i} = trees.map(t => ({ ...t, dbh: t.dbh * ${i % 9} })); // "${i}"\n`,
  ),
  shape(
    'another script',
    (_, random) => `${row(6, () => String.fromCharCode(0x4e00 + whole(random, 2000)))} 12\n`,
  ),
];

/** One character after the other, with a line end now and then. */
const drawn = (name: string, one: (random: Random) => string): Shape =>
  shape(name, (_, random) => (random() < 0.05 ? '\n' : one(random)));

const OF_NO_KIND: readonly Shape[] = [
  drawn('random bytes', random => String.fromCharCode(whole(random, 0x100))),
  drawn('random letters and marks', random => String.fromCharCode(32 + whole(random, 95))),
  drawn('random Unicode', random => String.fromCodePoint(whole(random, 0x110000))),
  drawn('random halves of characters', random => String.fromCharCode(whole(random, 0x10000))),
  drawn('random marks', random => pick(random, MARKS)),
  shape('random words, marks and lines', (_, random) =>
    pick(random, [
      `${pick(random, WORDS)} `,
      `${whole(random, 100)} `,
      pick(random, MARKS),
      '\n',
      `\n${pick(random, LINES)}`,
      '"',
    ]),
  ),
];

export const DAMAGED: ReadonlyMap<string, readonly Shape[]> = new Map([
  ['An inventory', SPOILT],
  ['Lines', DAMAGED_LINES],
  ['Very short lines', SHORT_LINES],
  ['Of another kind', OF_ANOTHER_KIND],
  ['Of no kind', OF_NO_KIND],
]);
