/** What is taken down under a tree: pictures, positions, words as spoken. */

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { spokenEdits } from '../../server/language/spoken.ts';
import { type TakenDown, visitAt } from '../../server/language/visit.ts';
import { edited } from './fixture.ts';

const SAMPLE = readFileSync('client/media/sample.wood', 'utf8');
const GROUND = { 'inspected from': 'ground' };
const ANSWERED = {
  ...GROUND,
  'tree: size': 'dbh …',
  'defect: at': 'on trunk at …',
  'order of sides, without a unit': 'in, width first',
};

function taken(text: string, what: TakenDown | undefined, at = 'defect A', path = 'trees.wood') {
  const file = readFile(path, text);
  const snapshot = { workspace: buildWorkspace([file]), today: parseDate('2026-06-01')! };
  const { edits, ...visit } = visitAt(snapshot, file, Math.max(0, text.indexOf(at)), what, spokenEdits);
  const now = edited(text, edits);
  return { ...visit, edits, text: now, mistakes: mistakesIn(now) };
}

const mistakesIn = (text: string) =>
  readFile('trees.wood', text).blocks.flatMap(({ block }) =>
    block.lines.flatMap(({ mistake, syntax }) => (mistake ? [syntax.text.trim()] : [])),
  );

/** What stands in the one text and not in the other, which has no line less. */
function added(before: string, after: string): readonly string[] {
  const left = before.split('\n');
  const lines = after.split('\n').filter(line => {
    const at = left.indexOf(line);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  expect(left).toEqual([]);
  return lines.filter(line => line !== '');
}

test('who may have looked, and which tree it is', () => {
  expect(taken(SAMPLE, undefined)).toMatchObject({
    tree: '14',
    persons: [{ id: 'RV', name: 'Ruth Varga' }],
    edits: [],
  });
  expect(taken(SAMPLE, undefined, 'site')).not.toHaveProperty('tree');
  expect(taken('', undefined)).toMatchObject({ persons: [], edits: [] });
});

describe('an inspection', () => {
  test('is asked from where, and has its person', () => {
    const asked = taken(SAMPLE, { inspection: true, by: 'RV' });
    expect(asked.questions).toMatchObject([
      { key: 'inspected from', choices: expect.arrayContaining(['rope']) },
    ]);
    expect(asked.text).toBe(SAMPLE);
    const { text } = taken(SAMPLE, { inspection: true, by: 'RV', answers: { 'inspected from': 'rope' } });
    expect(added(SAMPLE, text)).toEqual(['  inspection 2026-06-01 from rope', '    by        RV']);
  });

  test('has the pictures of its day below it, by their paths from the folder of the file', () => {
    const picture = { picture: 'north/photos/1.jpg' };
    expect(taken(SAMPLE, picture).questions).toMatchObject([{ key: 'inspected from' }]);
    const first = taken(SAMPLE, { ...picture, by: 'RV', answers: GROUND }, 'defect A', 'north/trees.wood');
    expect(added(SAMPLE, first.text)).toEqual([
      '  inspection 2026-06-01 from ground',
      '    by        RV',
      '    photo     photos/1.jpg',
    ]);
    const second = taken(first.text, { picture: 'other/2.jpg' }, 'defect A', 'north/trees.wood');
    expect(second.questions).toEqual([]);
    expect(added(first.text, second.text)).toEqual([
      expect.stringMatching(/^ {4}photo +"?\.\.\/other\/2\.jpg"?$/),
    ]);
    expect(second.mistakes).toEqual([]);
  });
});

test('a position has the error of the receiver; one on record stays without a yes', () => {
  const position = { latitude: 44.312711, longitude: -122.871422, within: 6.2 };
  const first = taken(SAMPLE, { position });
  expect(added(SAMPLE, first.text)).toEqual([
    '  position    44.31271, -122.87142',
    '  note        "position by the receiver of a phone or tablet, within 7 m"',
  ]);
  const moved = { position: { ...position, latitude: 44.3128 } };
  const asked = taken(first.text, moved);
  expect(asked.questions).toMatchObject([{ asks: expect.stringContaining('10 m from') }]);
  const [keep, write] = asked.questions[0]!.choices;
  expect(taken(first.text, { ...moved, answers: { position: keep! } }).text).toBe(first.text);
  expect(taken(first.text, { ...moved, answers: { position: write! } }).text).toContain(
    '44.3128, -122.87142',
  );
});

describe('as spoken', () => {
  test('a tree on record is inspected again, and no defect of it is overwritten unasked', () => {
    const spoken =
      'dbh forty two inches, vigor poor, age mature, soil heaving. cavity on trunk at six foot facing north';
    const asked = taken(SAMPLE, { spoken, by: 'RV' });
    expect(asked.questions.map(({ key }) => key)).toEqual(['inspected from', 'tree 14: cavity']);
    expect(asked.text).toBe(SAMPLE);
    const other = taken(SAMPLE, { spoken, by: 'RV', answers: GROUND });
    expect(added(SAMPLE, other.text)).toEqual([
      '  inspection 2026-06-01 from ground',
      '    by        RV',
      '    dbh       42 in',
      '    vigor     poor',
      '    age       mature',
      '    soil      heaving',
      '  defect B cavity',
      '    on        trunk at 6 ft, facing N',
    ]);
    const answers = { ...GROUND, 'tree 14: cavity': 'cavity A, seen again' };
    const again = taken(SAMPLE, { spoken, by: 'RV', answers });
    expect(again.text.match(/defect A cavity/g)).toHaveLength(2);
    expect([...other.mistakes, ...again.mistakes]).toEqual([]);
  });

  test('more of the same day stands below the inspection of the day', () => {
    const { text } = taken(SAMPLE, { inspection: true, answers: GROUND });
    const more = taken(text, { spoken: 'height 51 ft, fungus at 2 ft' });
    expect(more.questions.map(({ key }) => key)).toEqual(['defect: at']);
    const done = taken(text, { spoken: 'height 51 ft, fungus at 2 ft', answers: ANSWERED });
    expect(added(text, done.text)).toEqual([
      '    height    51 ft',
      '  defect B fungus',
      '    on        trunk at 2 ft',
    ]);
  });

  test('another tree is a record of its own behind the others', () => {
    const spoken = '15 red alder 20 inch\ncavity sw 18 foot up opening 9 by 14';
    const { text, mistakes, questions } = taken(SAMPLE, { spoken, by: 'RV', answers: ANSWERED });
    expect(questions).toEqual([]);
    expect(mistakes).toEqual([]);
    expect(text.startsWith(SAMPLE)).toBe(true);
    expect(added(SAMPLE, text)).toEqual([
      'tree 15',
      '  species     Alnus rubra  # red alder',
      '  dbh         20 in',
      '  inspection 2026-06-01 from ground',
      '    by        RV',
      '  defect A cavity',
      '    on        trunk at 18 ft, facing SW',
      '    opening   9 in wide, 14 in tall',
    ]);
    expect(taken('', { spoken, answers: ANSWERED }).text).toMatch(/^tree 15\n/);
  });

  test.each([
    'squirrels are back',
    'cavity somewhere odd, wall about 3 in',
    '2 big holes',
    'tree 14 the owner "Mr. Alder" said: cut it',
    'bigleaf maple 41 inch\nsee photo',
  ])('every word of "%s" is there afterwards', spoken => {
    const answers = GROUND;
    const { text } = taken(SAMPLE, { spoken, answers });
    const words = text.toLowerCase();
    for (const word of spoken.toLowerCase().match(/[a-z]{4,}/g)!)
      if (!['inch', 'tree', 'about'].includes(word)) expect(words).toContain(word);
    expect(text.length).toBeGreaterThan(SAMPLE.length);
  });

  /** Of the tree and of others, with what phones make of it, and what nobody can read. */
  const said = fc.constantFrom(
    'cavity',
    'Cavity,',
    'two conks',
    'on trunk',
    'at 6 ft',
    'facing north',
    'wall about 3 inches',
    'vigor poor',
    'recommend reduce',
    'target the swing daily',
    'nest flicker active',
    'tree 14',
    'tree 15',
    '16 red alder',
    '2 holes',
    '41 inch',
    'site "x"',
    'person',
    'no conks',
    '#',
    '"',
    '..',
    '\n',
    'lean 10 degrees',
    'the owner: cut it!',
    '\u2028',
    'defect A',
    'inspection',
    '  dbh 1 in',
  );
  const after = fc.record({
    words: fc.array(said, { minLength: 1, maxLength: 12 }),
    at: fc.constantFrom('site', 'tree 14', 'defect A', 'priority'),
    text: fc.constantFrom(
      SAMPLE,
      SAMPLE.trimEnd(),
      SAMPLE.replaceAll('\n', '\r\n'),
      `${SAMPLE}\ntree 15\n  dbh 4 in\n`,
      '',
    ),
  });

  test('whatever is spoken, nothing on record changes, and the notation takes what is written', () => {
    fc.assert(
      fc.property(after, ({ words, at, text }) => {
        const spoken = words.join(' ');
        const { edits, text: now } = taken(text, { spoken, by: 'RV', answers: ANSWERED }, at);
        for (const { start, end } of edits) {
          expect(end).toBe(start);
          // Behind a whole line: no line on record is torn.
          expect(['', '\r', '\n', undefined]).toContain(text[start]);
        }
        const trees = (one: string) => readFile('trees.wood', one).trees.map(({ fact }) => fact);
        const before = trees(text);
        const later = trees(now);
        before.forEach((tree, i) => {
          const same = later[i]!;
          expect(same.tag.value).toBe(tree.tag.value);
          expect(same.defects.slice(0, tree.defects.length).map(({ id }) => id.value)).toEqual(
            tree.defects.map(({ id }) => id.value),
          );
          expect(
            same.prescriptions.slice(0, tree.prescriptions.length).map(({ kind }) => kind.value),
          ).toEqual(tree.prescriptions.map(({ kind }) => kind.value));
        });
        // Nobody said that a defect is one on record, so that none is read again.
        for (const { defects } of later)
          expect(new Set(defects.map(({ id }) => id.value)).size).toBe(defects.length);
      }),
      { numRuns: 300 },
    );
  });
});
