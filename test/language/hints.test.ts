import { expect, test } from 'vitest';
import { hints } from '../../server/language/hints.ts';
import { lenses, lensText } from '../../server/language/lenses.ts';
import { plainText } from '../../server/language/markdown.ts';
import { previewAt } from '../../server/language/preview.ts';
import { fixture } from './fixture.ts';

const hinted = (source: string) => {
  const { snapshot, file, all } = fixture(source);
  return [...hints(snapshot, file, all)]
    .flat()
    .map(({ at, text }) => [file.text.slice(file.text.lastIndexOf('\n', at - 1) + 1, at).trim(), text]);
};

test('sizes in the other unit, and several stems as one', () => {
  expect(hinted('tree 1\n  dbh 41 in\n  height 16 m # tall\n')).toEqual([
    ['dbh 41 in', '104.1 cm'],
    ['height 16 m', '52.5 ft'],
  ]);
  // Equal cross section: the root of 3² + 4².
  expect(hinted('tree 1\n  dbh 3 in, 4 in\n')).toEqual([['dbh 3 in, 4 in', 'together 5 in']]);
});

test('a height of measuring is no stem', () => {
  expect(hinted('tree 1\n  dbh 41 in at 3 ft\n')).toEqual([['dbh 41 in at 3 ft', '104.1 cm']]);
});

const HOLLOW = `tree 1
  height 52 ft
  crown from 14 ft, 58 ft wide
  defect A cavity
    on trunk at 18 ft, facing SW
    diameter 26 in
    wall 6 in
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
`;

test('the stress under a prescription stands beside its head', () => {
  const found = hinted(HOLLOW).find(([line]) => line!.startsWith('prescription'));
  expect(found![0]).toBe('prescription R1 reduce');
  expect(found![1]).toMatch(/^stress 0\.\d\d/);
});

test('nothing outside the stretch', () => {
  const { snapshot, file } = fixture(HOLLOW);
  expect([...hints(snapshot, file, { start: 0, end: 6 })].flat()).toEqual([]);
});

test('each tree tells its findings, and leads to its figures', () => {
  const { snapshot, file } = fixture('tree 1\n  dbh 41\n  vigor god\ntree 2\n');
  const found = lenses(file);
  expect(found.map(({ shows }) => shows)).toEqual(['findings', 'weigh', 'findings', 'weigh']);
  expect(found.map(({ start }) => lensText(snapshot, file, start))).toEqual([
    { tag: '1', findings: '2 errors' },
    { tag: '1', findings: '2 errors' },
    { tag: '2', findings: 'no findings' },
    { tag: '2', findings: 'no findings' },
  ]);
});

test('the preview of the tree at the cursor: pictures, and what is open to it', () => {
  const { snapshot, file } = fixture(HOLLOW);
  const found = previewAt(snapshot, file, 10)!;
  expect(found.title).toBe('Tree 1');
  expect(found.markdown.match(/data:image\/svg\+xml;base64,/g)).toHaveLength(2);
  expect(found.markdown).toContain('leave and watch');
  expect(previewAt(snapshot, fixture('# none\n').file, 0)).toBeUndefined();
});

const SEEN_TWICE = `tree 1
  inspection 2021-05-04 from ground
    dbh 20 in
  inspection 2026-05-04 from ground
    dbh 22 in
`;

test('the preview of a tree seen in two years: its timeline, what happened, how fast it grows', () => {
  const { snapshot, file } = fixture(SEEN_TWICE);
  const { markdown, pictures, words } = previewAt(snapshot, file, 2)!;
  expect(pictures.map(({ description }) => description)).toEqual([
    expect.stringContaining('inspections: 4 May 2021 and 4 May 2026'),
  ]);
  expect(plainText(words)).toContain('4 May 2021: inspection from ground: dbh 20 in');
  expect(markdown).toContain('## Growth');
  const [first] = SEEN_TWICE.split('  inspection 2026');
  const once = fixture(first!);
  expect(previewAt(once.snapshot, once.file, 2)!.markdown).not.toContain('## Over the years');
});

test('the parts of a picture lead to the lines of their records', () => {
  const { snapshot, file } = fixture(HOLLOW);
  const lines = HOLLOW.replaceAll('‸', '').split('\n');
  const places = previewAt(snapshot, file, 10)!.pictures.flatMap(picture => picture.places);
  expect(places.map(({ name }) => name)).toEqual(expect.arrayContaining(['crown', 'tree 1', 'cavity A']));
  for (const { name, first, last, area } of places) {
    // `defect A cavity` is the cavity A.
    for (const word of name.split(' ')) expect(lines[first]).toContain(word);
    expect(last).toBeGreaterThanOrEqual(first);
    const [left, top, width, height] = area;
    expect(Math.min(left, top)).toBeGreaterThanOrEqual(0);
    expect(left + width).toBeLessThanOrEqual(100);
    expect(top + height).toBeLessThanOrEqual(100);
  }
});

test('words of files are inert in the preview', () => {
  const name = '`c` <img src=x> [x](command:evil) | ![y](z) # **b**';
  const { snapshot, file } = fixture(
    `tree 1 "${name}"\n  height 9 m\n  crown from 2 m, 4 m wide\n  view "${name}"\n    eye 1 m, 9 m away\n    hide 0..2 m, 9 m beyond\n`,
  );
  const { markdown } = previewAt(snapshot, file, 2)!;
  const shown = markdown.replace(/\(data:[^)]*\)/g, '');
  expect(shown.match(/img src=x/g)!.length).toBeGreaterThan(2);
  expect(shown).not.toMatch(/(?<!\\)`|<img|(?<!\\)\]\(|(?<!\\)\*b/);
  // The view stands in one cell of its table.
  expect(shown).toMatch(/^\| "\\`c\\`.+\\\|.+", to hide \| [\d.]+/m);
});
