/** Field notes, as dictated or typed on a phone, to records. */

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { fixNotes } from '../../server/fix/notes.ts';
import { inFigures } from '../../server/fix/spoken-numbers.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

const OREGON = { region: 'US-OR' };
const CONVENTIONS = new Map([
  ['tree: size', 'dbh …'],
  ['defect: at', 'on trunk at …'],
  ['order of sides, without a unit', 'in, width first'],
]);
/** The lines of the trees, without their indentation. */
const linesOf = (notes: string, answers: ReadonlyMap<string, string> = CONVENTIONS) =>
  fixNotes(`3/16/26 from ground\n${notes}`, { ...OREGON, answers })
    .text.split('\n')
    .map(line => line.trim().replace(/ {2,}(?!#)/g, ' '))
    .filter(line => line !== '');

test.each([
  ['forty one inch', '41 in'],
  ['one hundred and twenty eight foot', '128 ft'],
  ['a hundred feet', '100 ft'],
  ['two and a half inches', '2.5 in'],
  ['five foot six up', '5 ft 6 in up'],
  ['tree fifteen oak', 'tree 15 oak'],
  ['opening nine by fourteen', 'opening 9 by 14'],
  ['one big limb and two holes', 'one big limb and two holes'],
  ['thirty percent', '30 %'],
  // Two numbers, not one.
  ['eighteen six foot', 'eighteen six foot'],
])('%s is %s', (said, figures) => expect(inFigures(said)).toBe(figures));

test('the example of a phone', () => {
  expect(
    linesOf('14 bigleaf maple 41 inch, cavity sw 18 foot up opening 9 by 14, nest flicker active'),
  ).toEqual([
    'tree 14',
    'species Acer macrophyllum  # bigleaf maple',
    'dbh 41 in',
    'inspection 2026-03-16 from ground',
    'defect A cavity',
    'on trunk at 18 ft, facing SW',
    'opening 9 in wide, 14 in tall',
    'nest check 2026-03-16 from ground',
    'found active Colaptes  # flicker',
  ]);
});

test.each([
  ['dieback about 30 %', 'dieback ~30 %'],
  ['about 30 % dieback', 'dieback ~30 %'],
  ['leaning about 10 degrees north', 'lean ~10 deg toward N'],
  ['cavity, wall about 3 in', 'wall ~3 in'],
  ['cavity, shell is roughly 3 inches', 'wall ~3 in'],
  ['cavity, opening about 9 by 14 inches', 'opening ~9 by 14 in'],
  ['cavity, opening about 9 inches', 'opening ~9 in wide'],
  ['wound, about 30 % of the circumference', 'share ~30 % of circumference'],
])('an estimate stays one: %s', (said, line) => {
  expect(linesOf(`14 red alder, ${said}`).join('|')).toContain(line);
});

describe('what is not said is not written', () => {
  test.each([
    ['no cavity, no conks', ['note "no cavity"', 'note "no conks"']],
    ['no nests seen', ['note "no nests seen"']],
    ['garden wall 3 ft away', ['note "garden wall 3 ft away"']],
    ['neighbor fears root decay', ['note "neighbor fears root decay"']],
    ['fence 6 feet tall', ['note "fence 6 ft tall"']],
    ['with 2 cavities on the north side', ['note "2 cavities on the north side"']],
  ])('%s', (said, lines) => {
    expect(linesOf(`14 red alder\n${said}`).slice(2)).toEqual(
      // Notes of the tree stand above its inspection.
      [...lines, 'inspection 2026-03-16 from ground'],
    );
  });

  test('a day and a place that the notes do not give are asked, and no inspection stands without them', () => {
    const { text, questions } = fixNotes('14 red alder, nest active\n', OREGON);
    expect(questions.map(({ key }) => key)).toEqual(['day of the inspection', 'inspected from']);
    expect(text).toBe('tree 14\n  species     Alnus rubra  # red alder\n  note        "nest active"\n');
  });

  test('a line that can be another tree is asked, and until then a mistake of the inventory', () => {
    const { text, questions, left } = fixNotes(
      '3/16/26 from ground\n14 red alder\n15 leaning snag\n',
      OREGON,
    );
    expect(questions.map(({ choices }) => choices)).toEqual([['tree 15', 'more about 14']]);
    expect(text).toMatch(/^15 leaning snag$/m);
    expect(left).toHaveLength(1);
  });
});

const POINTS = { N: ['north', 'n'], SW: ['south west', 'sw', 'southwest'], E: ['east', 'e'] } as const;
const TREES = {
  'red alder': 'Alnus rubra',
  'doug fir': 'Pseudotsuga menziesii',
  'bigleaf maple': 'Acer macrophyllum',
} as const;
const KINDS = {
  cavity: 'cavity',
  conk: 'fungus',
  hanger: 'hanger',
  'included bark': 'included bark',
  canker: 'canker',
} as const;
const WORDS = ['twenty', 'thirty', 'forty', 'fifty'] as const;

const spoken = fc.tuple(fc.nat(3), fc.nat(9), fc.nat(3)).map(([ten, one, style]) => {
  const value = (ten + 2) * 10 + one;
  const words = ['', ' one', ' two', ' three', ' four', ' five', ' six', ' seven', ' eight', ' nine'];
  return { value, written: style === 0 ? `${WORDS[ten]}${words[one]}` : String(value) };
});
const unit = (...ways: readonly string[]) => fc.constantFrom(...ways);

test('dictated trees: every line says what was meant', () => {
  fc.assert(
    fc.property(
      fc.record({
        tag: fc.integer({ min: 1, max: 999 }),
        tree: fc.constantFrom(...(Object.keys(TREES) as (keyof typeof TREES)[])),
        dbh: spoken,
        inch: unit(' inch', ' inches', '"', ' in'),
        tall: spoken,
        foot: unit(' foot tall', ' feet tall', "' tall", ' ft high'),
        kind: fc.constantFrom(...(Object.keys(KINDS) as (keyof typeof KINDS)[])),
        side: fc.constantFrom(...(Object.keys(POINTS) as (keyof typeof POINTS)[])),
        way: fc.nat(2),
        up: spoken,
        comma: unit(', ', ' ', '. ', '; '),
        sideFirst: fc.boolean(),
      }),
      ({ tag, tree, dbh, inch, tall, foot, kind, side, way, up, comma, sideFirst }) => {
        const ways = POINTS[side];
        const said = ways[way % ways.length]!;
        const place = sideFirst ? `${said} ${up.written} foot up` : `${up.written} foot up ${said}`;
        const notes = `${tag} ${tree} ${dbh.written}${inch}${comma}${tall.written}${foot}${comma}${kind} ${place}`;
        expect(linesOf(notes), notes).toEqual([
          `tree ${tag}`,
          `species ${TREES[tree]}  # ${tree}`,
          `dbh ${dbh.value} in`,
          `height ${tall.value} ft`,
          'inspection 2026-03-16 from ground',
          `defect A ${KINDS[kind]}`,
          `on trunk at ${up.value} ft, facing ${side}`,
        ]);
      },
    ),
    { numRuns: 300, seed: Number(process.env.PROPERTY_SEED ?? 20_260_316) },
  );
});

/** Fewer than this are answered for the notebook of the sample. */
const MOST_ANSWERS = 10;

test('the notebook of fifteen trees becomes an inventory that reads, with its few answers', () => {
  const file = (name: string) => readFileSync(`samples/field/${name}`, 'utf8');
  const notes = file('notes.txt');
  const asked = fixNotes(notes, OREGON).questions;
  const rows = JSON.parse(file('answers.json')) as { question: string; answer: string }[];
  expect(asked.map(({ key }) => key)).toEqual(rows.map(({ question }) => question));
  expect(rows.length).toBeLessThan(MOST_ANSWERS);
  const answers = new Map(rows.map(({ question, answer }) => [question, answer]));
  const { text, questions, left, unread } = fixNotes(notes, { ...OREGON, answers });
  expect({ questions, left, unread }).toEqual({ questions: [], left: [], unread: [] });
  expect(text.match(/^tree /gm)).toHaveLength(15);
  const workspace = buildWorkspace([readFile('site.wood', file('site.wood')), readFile('trees.wood', text)]);
  const findings = checkWorkspace(workspace, parseDate('2026-04-01')!);
  expect(findings.filter(({ grade }) => grade === 'syntax').map(({ message }) => message)).toEqual([]);
  expect(findings.length).toBeGreaterThan(0);
});
