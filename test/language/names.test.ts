import { expect, test } from 'vitest';
import { definitions, highlights, references } from '../../server/language/names.ts';
import { renamable, rename } from '../../server/language/rename.ts';
import { editedFiles, fixture, slice } from './fixture.ts';

const TWO = `--- a/lawn.wood
tree 14
  inspection 2026-03-14 from ground
    by R‸V
  defect A cavity
    on North at 3 m
  stem North
  prescription R1 clean
    for A
    by RV
  work R1 2026-04-01
    by RV
  accept wall-ratio for A
    by RV
tree 15
  defect A cavity
--- a/people.wood
person RV "Ruth Varga"
crew ROPE "Rope crew"
  members RV
--- b/other.wood
tree 14
  inspection 2026-03-14 from ground
    by RV
`;
const withCursor = (before: string, after: string) =>
  TWO.replace('‸', '').replace(before + after, `${before}‸${after}`);

test('the definition of a person lies in another file', () => {
  const given = fixture(TWO);
  expect(definitions(given.snapshot.workspace, given.file, given.offset)).toEqual([
    { path: 'a/people.wood', start: 7, end: 9 },
  ]);
});

test('references over all files, with and without where the name is given', () => {
  const { snapshot, file, offset } = fixture(TWO);
  const uses = references(snapshot.workspace, file, offset, false);
  expect(uses.map(({ path }) => path)).toEqual([
    ...Array(4).fill('a/lawn.wood'),
    'a/people.wood',
    'b/other.wood',
  ]);
  expect(references(snapshot.workspace, file, offset, true)).toHaveLength(uses.length + 1);
});

test('names of a tree mean that tree alone', () => {
  const given = fixture(withCursor('for ', 'A\n    by'));
  const found = highlights(given.snapshot.workspace, given.file, given.offset);
  expect(found.map(place => slice(given, place))).toEqual(['A', 'A', 'A']);
  expect(found.map(({ given: isGiven }) => isGiven)).toEqual([true, false, false]);
  expect(definitions(given.snapshot.workspace, given.file, given.offset)).toHaveLength(1);
});

function renamed(source: string, wanted: string) {
  const given = fixture(source);
  const result = rename(given.snapshot.workspace, given.file, given.offset, wanted);
  return 'edits' in result ? editedFiles(given, result.edits) : result.refused;
}

test('a person is renamed in every file', () => {
  const files = renamed(TWO, 'RUTH') as Record<string, string>;
  expect(Object.keys(files)).toEqual(['a/lawn.wood', 'a/people.wood', 'b/other.wood']);
  expect(Object.values(files).join('')).not.toMatch(/\bRV\b/);
  expect(files['a/people.wood']).toBe('person RUTH "Ruth Varga"\ncrew ROPE "Rope crew"\n  members RUTH\n');
});

test('a defect is renamed with the prescriptions and exceptions for it, in its tree', () => {
  const files = renamed(withCursor('defect ', 'A cavity\n    on'), 'C') as Record<string, string>;
  expect(files['a/lawn.wood']).toContain('defect C cavity\n    on');
  expect(files['a/lawn.wood']).toContain('for C\n');
  expect(files['a/lawn.wood']).toContain('accept wall-ratio for C\n');
  expect(files['a/lawn.wood']).toContain('tree 15\n  defect A cavity');
});

test('parts, prescriptions and tags', () => {
  expect(renamed(withCursor('on ', 'North'), 'East')).toMatchObject({
    'a/lawn.wood': expect.stringContaining('on East at 3 m\n  stem East\n'),
  });
  expect(renamed(withCursor('work ', 'R1'), 'R7')).toMatchObject({
    'a/lawn.wood': expect.stringMatching(/prescription R7 clean[\s\S]*work R7 2026/),
  });
  expect(renamed(withCursor('tree ', '14\n'), 'T-014')).toMatchObject({
    'a/lawn.wood': expect.stringContaining('tree T-014\n'),
  });
});

test('a target in quotation marks stays in them', () => {
  const files = renamed('tree 1\n target "Play l‸awn"\n risk "Play lawn"\n', 'The "big" lawn');
  expect(files).toEqual({ 'a.wood': 'tree 1\n target "The ""big"" lawn"\n risk "The ""big"" lawn"\n' });
});

test.each([
  ['with a space', 'R V'],
  ['with a comma', 'R,V'],
  ['empty', ''],
  ['with a line end', 'R\nV'],
  ['with a comment', 'R#V'],
  ['that is a text', '"RV"'],
  ['that a unit would follow', '~5'],
])('a name %s is refused', (_, wanted) => {
  expect(renamed(TWO, wanted)).toMatch(/can't be a name/);
});

test('a name that is taken is refused', () => {
  expect(
    renamed(withCursor('tree ', '14\n  inspection 2026-03-14 from ground\n    by RV\n  defect'), '15'),
  ).toBe('There is already a tag 15.');
});

test('nothing to rename: the trunk, choices, names that nobody gives', () => {
  for (const source of [
    'tree 1\n defect A cavity\n  on tr‸unk at 3 m\n',
    'tree 1\n defect A cav‸ity\n',
    'tree 1\n inspection 2026-01-01 from ground\n  by X‸X\n',
  ]) {
    const { snapshot, file, offset } = fixture(source);
    expect(renamable(snapshot.workspace, file, offset)).toBeUndefined();
    expect(renamed(source, 'Y')).toBe('There is no name here.');
  }
});
