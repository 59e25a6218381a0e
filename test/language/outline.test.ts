import { expect, test } from 'vitest';
import { folds, selections } from '../../server/language/ranges.ts';
import { semanticTokens } from '../../server/language/semantic-tokens';
import { outline, searchSymbols } from '../../server/language/symbols.ts';
import { fixture, slice } from './fixture.ts';

const SOURCE = `# lawn
# and orchard
tree 14 "Lawn maple" # by the gate
  species Acer × freemanii 'Autumn Blaze'
  dbh 41 in, 9 in

  defect A included bark
    on trunk at ~5 ft, facing SW

  prescription R1 clean
    between 2026-09-15..2026-11-30

tree 15
`;

test('the outline holds blocks with the heads inside them', () => {
  const given = fixture(SOURCE);
  const symbols = outline(given.file);
  expect(symbols.map(({ name, detail, kind }) => [name, detail, kind])).toEqual([
    ['tree 14 "Lawn maple"', "Acer × freemanii 'Autumn Blaze'", 'tree'],
    ['tree 15', '', 'tree'],
  ]);
  expect(symbols[0]!.children.map(({ name }) => name)).toEqual([
    'defect A included bark',
    'prescription R1 clean',
  ]);
  expect(slice(given, symbols[0]!).endsWith('2026-11-30')).toBe(true);
  for (const { start, end, head } of [...symbols, ...symbols[0]!.children]) {
    expect(start).toBeLessThanOrEqual(head.start);
    expect(head.end).toBeLessThanOrEqual(end);
  }
});

test('a damaged head is in the outline', () => {
  expect(outline(fixture('tree 1\n  dfeect A cavity\n').file)[0]!.children).toHaveLength(1);
});

test('trees and what is in them, sites and persons of all files are found by any of their words', () => {
  const given = fixture(`--- a.wood\n${SOURCE}--- p.wood\nsite "Court"\nperson RV "Ruth Varga"\n`);
  const { workspace } = given.snapshot;
  const names = (query: string) => searchSymbols(workspace, query).map(({ name }) => name);
  expect(names('maple 14')).toEqual(["tree 14 Lawn maple Acer × freemanii 'Autumn Blaze' (Freeman maple)"]);
  expect(names('freeman maple')).toHaveLength(1);
  expect(names('included')).toEqual(['defect A included bark of tree 14']);
  expect(names('r1 tree 14')).toEqual(['prescription R1 clean of tree 14']);
  expect(slice(given, searchSymbols(workspace, 'defect')[0]!)).toMatch(/^defect A/);
  expect(names('varga')).toEqual(['person RV Ruth Varga']);
  expect(names('')).toHaveLength(6);
  expect(names('nothing of it')).toEqual([]);
  expect(searchSymbols(workspace, '', () => true)).toEqual([]);
});

test('every word has its colour, a name of several parts and a species one', () => {
  const given = fixture(SOURCE);
  const tokens = semanticTokens(given.file, given.all).map(token => [slice(given, token), token.type]);
  for (const expected of [
    ['# lawn', 'comment'],
    ['tree', 'keyword'],
    ['14', 'variable'],
    ['"Lawn maple"', 'string'],
    ['# by the gate', 'comment'],
    ['species', 'property'],
    ["Acer × freemanii 'Autumn Blaze'", 'type'],
    ['41 in', 'number'],
    ['included bark', 'enumMember'],
    ['trunk', 'variable'],
    ['at', 'keyword'],
    ['~5 ft', 'number'],
    ['SW', 'enumMember'],
    ['2026-09-15..2026-11-30', 'number'],
  ])
    expect(tokens).toContainEqual(expected);
  const found = semanticTokens(given.file, given.all);
  expect(found.filter(({ declares }) => declares).map(token => slice(given, token))).toEqual([
    '14',
    'A',
    'R1',
    '15',
  ]);
});

test('tokens come in order, do not overlap and span no lines', () => {
  const given = fixture(`${SOURCE}  vigor @ good\n  note "open\n  dbh 3\n`);
  let last = 0;
  for (const token of semanticTokens(given.file, given.all)) {
    expect(token.start).toBeGreaterThanOrEqual(last);
    expect(slice(given, token)).not.toMatch(/[\r\n]/);
    last = token.end;
  }
  expect(last).toBeGreaterThan(0);
});

test('folds: comments, blocks, heads', () => {
  expect(folds(fixture(SOURCE).file)).toEqual([
    { first: 0, last: 1, kind: 'comment' },
    { first: 2, last: 10, kind: 'block' },
    { first: 6, last: 7, kind: 'block' },
    { first: 9, last: 10, kind: 'block' },
  ]);
});

test('a selection widens from the word to the file, each step holding the last', () => {
  const given = fixture(SOURCE.replace('~5 ft', '~5‸ ft'));
  const steps = selections(given.file, given.offset).map(step => slice(given, step));
  expect(steps.slice(0, 3)).toEqual([
    '~5 ft',
    'on trunk at ~5 ft, facing SW',
    '    on trunk at ~5 ft, facing SW',
  ]);
  expect(steps[3]).toMatch(/^ {2}defect A[\s\S]*facing SW$/);
  expect(steps.at(-1)).toBe(given.file.text);
  for (let i = 1; i < steps.length; i++) expect(steps[i]).toContain(steps[i - 1]);
});
