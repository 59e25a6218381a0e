/** What is read again at later inspections, in the editor. */

import { expect, test } from 'vitest';
import { completions } from '../../server/language/completion.ts';
import { hover } from '../../server/language/hover.ts';
import { plainText } from '../../server/language/markdown.ts';
import { definitions, references } from '../../server/language/names.ts';
import { rename } from '../../server/language/rename.ts';
import { outline } from '../../server/language/symbols.ts';
import { editedFiles, type Fixture, fixture } from './fixture.ts';

const TREE = `tree 14
  inspection 2021-05-04 from ground
  defect A cavity
    diameter 60 cm
    bark 1 cm
    wall 8 cm
  defect B wound
    state healed
  inspection 2024-05-02 from ground
  prescription R1 watch
    for A
  defect A cavity
    wall 7 cm
  target "Lane"
`;
const withCursor = (before: string, after: string): Fixture => {
  expect(TREE.split(before + after)).toHaveLength(2);
  return fixture(TREE.replace(before + after, `${before}‸${after}`));
};
const lineOf = ({ file }: Fixture, offset: number) => file.text.slice(0, offset).split('\n').length;

test('the definition of a name is its first reading, its references are all', () => {
  const given = withCursor('for ', 'A');
  const { workspace } = given.snapshot;
  expect(definitions(workspace, given.file, given.offset).map(({ start }) => lineOf(given, start))).toEqual([
    3,
  ]);
  expect(references(workspace, given.file, given.offset, true)).toHaveLength(3);
});

test('a new name is that of all readings', () => {
  const given = withCursor('for ', 'A');
  const done = rename(given.snapshot.workspace, given.file, given.offset, 'C');
  if (!('edits' in done)) throw new Error(done.refused);
  const text = Object.values(editedFiles(given, done.edits))[0]!;
  expect(text.match(/defect C cavity/g)).toHaveLength(2);
  expect(text).toContain('for C');
});

test('a hover over any reading has the newest, and says what is older', () => {
  for (const head of ['ground\n  ', 'for A\n  ']) {
    const source = TREE.replace(`${head}defect A`, `${head}def‸ect A`);
    const given = fixture(source);
    const text = plainText(hover(given.snapshot, given.file, given.offset)!.markdown);
    expect(text).toContain('seen 2 May 2024');
    expect(text).toContain(
      'Earlier readings: 4 May 2021. Not measured since: diameter and bark of 4 May 2021.',
    );
    // A symbol stays small at the start of a line.
    expect(text).toContain('- d³/D³ 43.7 %');
  }
});

test('the outline says the day of a reading', () => {
  const [tree] = outline(fixture(TREE).file);
  expect(
    tree!.children.filter(({ detail }) => detail !== '').map(({ name, detail }) => [name, detail]),
  ).toEqual([
    ['defect A cavity', 'of 2021-05-04'],
    ['defect A cavity', 'of 2024-05-02'],
  ]);
});

test('what may be read again is proposed below a later inspection, and no name twice', () => {
  const offered = (source: string) => {
    const { snapshot, file, offset } = fixture(source);
    return completions(snapshot, file, offset).items;
  };
  const heads = offered(`${TREE}  defect ‸\n`);
  expect(heads.map(({ label }) => label)).toEqual(['A cavity', 'C']);
  expect(offered(`${TREE}  target ‸\n`).map(({ label }) => label)).toContain('"Lane"');
  const names = offered(`${TREE}  prescription R2 watch\n    for ‸\n`).map(({ label }) => label);
  expect(names.filter(label => label === 'A')).toHaveLength(1);
});
