/** What people write in the field, rewritten where it has one meaning. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { fixText } from '../../server/fix/fix.ts';
import { treesCalled } from '../../server/practice/common-names.ts';
import { lookupGenus } from '../../server/practice/species.ts';

const OREGON = { region: 'US-OR' };
const below = (lines: string, context = OREGON) =>
  fixText(`tree 14\n${lines}\n`, context)
    .text.replace(/^tree 14\n/, '')
    .trimEnd();

const samples = readdirSync('samples', { recursive: true, encoding: 'utf8' })
  .filter(name => name.endsWith('.wood'))
  .map(name => join('samples', name));

test.each(samples)('%s: a correct line stays, and a second run changes nothing', path => {
  const text = readFileSync(path, 'utf8');
  const { text: fixed, unread } = fixText(text, OREGON);
  const [before, after] = [text.split('\n'), fixed.split('\n')];
  expect(after.length).toBe(before.length);
  for (const { block, firstLine } of splitBlocks(text))
    block.lines.forEach(({ mistake, word }, i) => {
      if (!mistake && word !== 'species') expect(after[firstLine + i]).toBe(before[firstLine + i]);
    });
  expect(fixText(fixed, OREGON).text).toBe(fixed);
  expect(unread.every(line => after[line]!.endsWith(before[line]!.trim()))).toBe(true);
});

describe('one meaning', () => {
  test.each([
    ['height 5\'6"', 'height 5 ft 6 in'],
    ["height 60'-65'", 'height 60 ft .. 65 ft'],
    ["height abt 40 to 45'", 'height ~40..45 ft'],
    ['DBH 41"', 'dbh 41 in'],
    ['ht approx. 75 feet', 'height ~75 ft'],
    ["spread 58'", 'crown 58 ft wide'],
    ["crown from 8' 30' wide", 'crown from 8 ft, 30 ft wide'],
    ['felled 3/16/26', 'felled 2026-03-16'],
    ['species bigleaf maple', 'species Acer macrophyllum  # bigleaf maple'],
    ['species Douglas fir', 'species Pseudotsuga menziesii  # Douglas fir'],
    ['species doug fir # by the gate', 'species Pseudotsuga menziesii # by the gate doug fir'],
    ['defect A conk\nspecies artist conk', 'defect A fungus\nspecies Ganoderma  # artist conk'],
    [
      "nest check 3/16/26 from drone\nfound active flicker at 30'",
      'nest check 2026-03-16 from drone\nfound active Colaptes at 30 ft  # flicker',
    ],
    ['TREE 15 Oak by gate', 'tree 15 "Oak by gate"'],
    ['Defect B included bark', 'defect B included bark'],
  ])('%s', (written, meant) => expect(below(written)).toBe(meant));
});

describe('several meanings, or none', () => {
  test.each([
    ['species white oak', ['Quercus alba', 'Quercus garryana', 'Quercus lobata']],
    ['defect A cavity\non trunk at 4 ft, facing N to E', ['NE', 'N', 'E']],
    ['felled 3/4/26', ['month first', 'day first']],
    ['defect A cavity\nopening 9 x 14 in', ['width first', 'height first']],
    ['target "Path"\noccupied daily', ['frequent', 'constant']],
    ['dbh 14,12 in', ['14.12', '14 in, 12']],
  ])('%s is asked', (written, choices) => {
    const { text, questions } = fixText(`tree 14\n${written}\n`, OREGON);
    expect(text).toBe(`tree 14\n${written}\n`);
    expect(questions.map(one => one.choices)).toEqual([choices]);
  });

  test('an answer holds for all lines that ask the same', () => {
    const written = 'tree 14\nfelled 3/4/26\n\ntree 15\nfelled 5/6/26\n';
    const { questions } = fixText(written, OREGON);
    expect(questions).toMatchObject([{ key: 'order of days', lines: [1, 4] }]);
    const answers = new Map([['order of days', 'day first']]);
    expect(fixText(written, { ...OREGON, answers }).text).toBe(
      'tree 14\nfelled 2026-04-03\n\ntree 15\nfelled 2026-06-05\n',
    );
  });

  test('what is asked about one tree is asked about another', () => {
    const written = 'tree 14\ndefect A butt rot\n\ntree 15\ndefect A butt rot\n';
    const { questions } = fixText(written, OREGON);
    expect(questions).toHaveLength(2);
    const answers = new Map([[questions[1]!.key, 'root decay']]);
    expect(fixText(written, { ...OREGON, answers }).text).toBe(
      'tree 14\ndefect A butt rot\n\ntree 15\ndefect A root decay\n',
    );
  });

  test('a line that nobody can read stays beside its tree, and no line below goes to another head', () => {
    expect(below('dbh 41 in\nowner wants it gone')).toBe('dbh 41 in\n# not read: owner wants it gone');
    // What tells of a defect stays a mistake of the file.
    expect(below('dbh 41 in\nhuge cavity at the base')).toBe('dbh 41 in\nhuge cavity at the base');
    expect(below('defect A cavity\n2nd hole, huge\nopening 9 in wide')).toBe(
      'defect A cavity\n2nd hole, huge\nopening 9 in wide',
    );
  });
});

test.each([
  'site visited by owner',
  'site wet in winter',
  'tree 15 next door removed',
  'tree 20 ft away removed',
  'tree removed next door',
  'crew to return',
  'crew needed',
  'person at gate 3',
  'practice changed',
  'target moved',
  'risk accepted by owner',
  'storm damage last winter',
  'limb fell last year',
  'Site visited by owner',
  'Crew will return next week',
])('%s may be prose and never becomes a head by itself', written => {
  const { text } = fixText(`tree 14\n${written}\ndbh 41 in\n`, OREGON);
  const sure = splitBlocks(text).flatMap(({ block }) =>
    block.sections.filter(({ head }) => !block.lines[head]!.mistake).map(({ word }) => word),
  );
  expect(sure).toEqual(['tree']);
});

test.each([
  'cable broken',
  'heave on north',
  'lines overhead',
  'stake missing, fell over in the storm',
  'owl seen again',
  'children swing here',
  'gas main dug up in fall',
  'URGENT, see the office',
])('%s tells of a danger and never becomes a comment', written => {
  const { text } = fixText(`tree 14\n  dbh 41 in\n  ${written}\n`, OREGON);
  expect(text).not.toContain('# not read');
  expect(text).toContain(written.split(',')[0]);
});

test.each(['thanks and regards', 'gate code at the office'])('%s becomes a comment or a note', written => {
  const { text } = fixText(`tree 14\n  dbh 41 in\n  ${written}\n`, OREGON);
  expect(text).toMatch(/# not read|note/);
});

describe('days in the order of the place', () => {
  const both = 'tree 1\nplanted 3/16/26\nfelled 3/4/26\n';
  test.each([
    ['US-OR', 'felled 2026-03-04'],
    // Nobody writes the month first there, and 3/16/26 speaks for it.
    ['GB', 'felled 3/4/26'],
    ['CA-BC', 'felled 3/4/26'],
    [undefined, 'felled 3/4/26'],
  ])('%s', (region, felled) => expect(fixText(both, { region }).text).toContain(felled));
});

test('names of trees go by the country', () => {
  expect(treesCalled('sycamore', 'GB-ENG')).toEqual(['Acer pseudoplatanus']);
  expect(treesCalled('Sycamore', 'US-OR')).toEqual(['Platanus occidentalis', 'Platanus racemosa']);
  expect(treesCalled('sycamore').length).toBe(3);
  expect(treesCalled('Western Red-Cedar')).toEqual(['Thuja plicata']);
  expect(treesCalled('lamp post')).toEqual([]);
});

test('a botanical name is no common name of another tree', () => {
  for (const name of ['Magnolia', 'Ginkgo', 'Catalpa', 'Sequoia', 'Photinia']) {
    expect(lookupGenus(name)).toBeDefined();
    expect(below(`species ${name}`)).toBe(`species ${name}`);
  }
});
