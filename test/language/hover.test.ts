import { describe, expect, test } from 'vitest';
import { parseLine } from '../../grammar/parser.ts';
import type { PhotoFile } from '../../server/facts/photos.ts';
import { withPhotos } from '../../server/facts/workspace.ts';
import { convertedUnit } from '../../server/language/converted-unit.ts';
import { hover } from '../../server/language/hover.ts';
import { escapeMarkdown, plainText } from '../../server/language/markdown.ts';
import { fixture, slice } from './fixture.ts';

function hovered(source: string): { text: string; markdown: string; over: string } {
  const given = fixture(source);
  const found = hover(given.snapshot, given.file, given.offset);
  expect(found).toBeDefined();
  return { text: plainText(found!.markdown), markdown: found!.markdown, over: slice(given, found!) };
}

const TREE = `tree 14 "Lawn maple"
  species Acer macrophyllum
  dbh 41 in
  height 52 ft
  crown from 14 ft, 58 ft wide
  inspection 2026-03-14 from drone
    by RV
  defect A cavity
    on trunk at 18 ft, facing SW
    diameter 26 in
    opening 9 in wide
    wall 2..4 in at SW, ~5 in at NE
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    for A
    between 2026-09-15..2026-11-30
`;
const at = (words: string, in_ = TREE) => in_.replace(words, `${words.slice(0, 1)}‸${words.slice(1)}`);

test('names of trees and people stay as they are in every region', () => {
  const estate = (tree: string, by: string) =>
    `site "Estate"\n  region GB-ENG\n\nperson JG "Jane Gray"\n  certificate "A-1", until 2027-03-31\n\n${tree} "Gray center"\n  felled 2026-05-31\n  inspection 2026-05-01 from ground\n    by ${by}\n`;
  const { text } = hovered(estate('tr‸ee 14', 'JG'));
  expect(text).toContain('Tree 14 Gray center');
  expect(text).toContain('Felled 31 May 2026.');
  const person = hovered(estate('tree 14', 'J‸G')).text;
  expect(person).toContain('JG Jane Gray');
  expect(person).toContain('A-1, until 31 March 2027');
});

test('a field tells its summary, form and example', () => {
  const { text, over } = hovered(at('dbh 41'));
  expect(over).toBe('dbh');
  expect(text).toContain('Diameter at breast height');
  expect(text).toContain('<diameters:length>');
});

test.each([
  ['41 in', '104.1 cm'],
  ['52 ft\n', '15.85 m'],
  ['2..4 in', '5.1..10.2 cm'],
  ['~5 in', '~12.7 cm'],
])('%s is told in the other unit', (written, other) => {
  expect(hovered(at(written)).text).toContain(`is ${other}`);
});

test('a species tells its traits, an unknown one that it is unknown', () => {
  expect(hovered(at('Acer')).text).toMatch(/bigleaf maple[\s\S]*Sapindaceae, broadleaved, deciduous/);
  expect(hovered('tree 1\n  species Inventa‸ nova\n').text).toContain('Not in the table of species');
});

test('a defect tells its loss against the limit with its source, and shows the section', () => {
  const { text, markdown } = hovered(at('defect'));
  expect(text).toMatch(
    /(?:may exceed|exceeds): by its section (?:at least [\d.]+|[\d.]+\.\.[\d.]+) % loss of bending strength, (?:perhaps )?over the limit of 23 % \(.+\)/,
  );
  expect(text).toContain('Wagener 1963');
  expect(text).toContain('certifies nothing');
  const svg = atob(/\(data:image\/svg\+xml;base64,([^)]+)\)/.exec(markdown)![1]!);
  expect(svg).toMatch(/^<svg [\s\S]*Tree 14, cavity A[\s\S]*<\/svg>$/);
  // Editors cut a hover at 100,000 characters.
  expect(markdown.length).toBeLessThan(60_000);
});

test.each(['tree', 'defect', 'prescription', 'A\n    between'])(
  'the verdict and the picture of %s come first, one caution last',
  words => {
    const { text, markdown } = hovered(at(words));
    expect(text.split('certifies nothing.').length - 1).toBe(1);
    expect(text).toMatch(/certifies nothing\.$/);
    const [before, picture] = markdown.split('data:image/svg+xml;base64,');
    if (!picture) return;
    // The title and the verdict alone.
    expect(plainText(before!).split('\n\n').length).toBeLessThan(3);
    expect(atob(/^[^)]+/.exec(picture)![0])).toMatch(/ height="160">/);
  },
);

test('a reference tells what it refers to', () => {
  const { text, over } = hovered(at('A\n    between'));
  expect(over).toBe('A');
  expect(text).toContain('cavity A');
});

test('a tree shows its elevation; a prescription what it does', () => {
  const tree = hovered(at('tree'));
  expect(tree.markdown).toContain('data:image/svg+xml;base64,');
  expect(tree.text).toContain('Outstanding: reduce R1 15 September–30 November 2026');
  expect(hovered(at('prescription')).text).toMatch(
    /Stress ratio at A \(1\.00 = intact stem before the work\): (?:at (?:least|most) )?\d/,
  );
});

test('persons are told from another file', () => {
  const { text } = hovered(
    '--- a.wood\ntree 1\n inspection 2026-03-14 from ground\n by R‸V\n--- p.wood\nperson RV "Ruth Varga"\n qualified remote pilot\n',
  );
  expect(text).toContain('Ruth Varga');
  expect(text).toContain('remote pilot');
});

test('a limit tells its value in force here, and from where', () => {
  const { text } = hovered('practice "Office"\n limit strength-‸loss 30 %\n because "play area"\n');
  expect(text).toContain('at most 30 % here');
  expect(text).toContain('Set by practice Office in a.wood: play area');
});

test('dates tell the day of the week and the distance from today', () => {
  expect(hovered('tree 1\n felled 2026-‸05-31\n').text).toBe('Sunday, 31 May 2026, 1 day ago');
});

test('nothing is told of blank lines and comments, nor of words that the notation does not have', () => {
  for (const source of ['‸', '# com‸ment\n', 'tree 1\n\n‸\n', 'tree 1\n  qqq‸q zz\n']) {
    const { snapshot, file, offset } = fixture(source);
    expect(hover(snapshot, file, offset)).toBeUndefined();
  }
});

test('words of files stay inert in Markdown', () => {
  const nasty = '<img src=x onerror=alert(1)> [x](command:evil) ![y](http://z) `c` **b** https://w';
  expect(escapeMarkdown(nasty)).not.toMatch(/<|(?<!\\)[[\]*`!]|(?<!\\):\/\//);
  expect(plainText(escapeMarkdown(nasty))).toBe(nasty);
  expect(escapeMarkdown('1. one')).toBe('1\\. one');
  expect(escapeMarkdown('a\nb\u0000')).toBe('a b\uFFFD');
  const { markdown } = hovered(`tree ‸1 "${nasty}"\n`);
  expect(markdown.replace(/\(data:[^)]*\)/g, '')).not.toMatch(/<img|(?<!\\)\]\(command/);
});

test('unseen has no twin', () => {
  const item = parseLine('depth > 11 in').items[1]!;
  expect(item.kind === 'quantity' && convertedUnit(item.quantity)).toBe('> 27.9 cm');
  const plain = parseLine('stages 2').items[1]!;
  expect(plain.kind === 'quantity' && convertedUnit(plain.quantity)).toBeUndefined();
});

test('a bird tells how far to stay away, a fungus what it decays', () => {
  const nest = (name: string) =>
    hovered(`tree 1\n nest check 2026-05-01 from ground\n  found active ${name}‸\n`).text;
  expect(nest('Haliaeetus leucocephalus')).toMatch(
    /sea eagles.*\(eagle\)[\s\S]*Keep work at least 660 ft away/,
  );
  expect(nest('Colaptes auratus')).toMatch(/flickers[\s\S]*Also nests in cavities[\s\S]*from memory/);
  expect(nest('Inventus novus')).toContain('treated as that of a raptor');
  const defect = (name: string) => hovered(`tree 1\n defect A fungus\n  species ${name}‸\n`).text;
  expect(defect('Kretzschmaria deusta')).toContain('soft rot of roots and butt');
  expect(defect('Colaptes auratus')).toContain('flickers');
});

describe('a photograph', () => {
  const SOURCE = `--- lawn/a.wood
tree 1
  position 44.3, -122.8
  photo photos/‸1.jpg
`;
  const told = (file: PhotoFile | undefined) => {
    const { snapshot, file: open, offset } = fixture(SOURCE);
    const photos = new Map(file ? [['lawn/photos/1.jpg', file]] : []);
    const found = hover({ ...snapshot, workspace: withPhotos(snapshot.workspace, photos) }, open, offset)!;
    expect(found.photo).toBe('lawn/photos/1.jpg');
    return plainText(found.markdown);
  };

  test('tells the day, the place, the lens and the size that its file has', () => {
    const record = {
      takenAt: '2026-05-30T09:15:00',
      latitude: 44.3001,
      longitude: -122.8,
      focalLength35: 0.024,
      imageWidth: 4000,
      imageHeight: 3000,
    };
    expect(told({ state: 'read', record })).toBe(
      [
        'photos/1.jpg\n',
        '- Taken: 2026-05-30 09:15',
        '- Place: 44.3001, -122.8, 11 m from the position of the tree',
        '- Lens: 24 mm, as on 35 mm film',
        '- Size: 4000 px wide, 3000 px high',
      ].join('\n'),
    );
  });

  test('tells what is not known', () => {
    expect(told({ state: 'read', record: { imageWidth: 4000 } })).toContain('- Taken: not in the file');
    expect(told({ state: 'read' })).toContain('has no date, position or lens data');
    expect(told({ state: 'missing' })).toContain('The file does not exist.');
    expect(told(undefined)).toContain('The file has not been read.');
    expect(hovered('tree 1\n  photo ../‸secret.jpg\n').text).toContain('outside the folder');
  });
});

test('instruments tell the walls they read, with their error; a fungus how the tree fails', () => {
  const read = (head: string) =>
    hovered(`tree 1
  inspection 2026-03-14 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
  defect B fungus
    species Laetiporus${head === 'fungus' ? '‸' : ''} sulphureus
  ${head === 'drilling' ? 'dril‸ling' : 'drilling'} 2026-03-14 of A
    error 0.2 in
    wall 4 in at N
  ${head === 'tomogram' ? 'tomo‸gram' : 'tomogram'} 2026-03-15 of A
    error 0.5 in
    wall 5 in at S
`).text;
  expect(read('drilling')).toContain('Sound wall, with instrument error: 3.8–4.2 in at N.');
  expect(read('tomogram')).toContain('4.5–5.5 in at S.');
  expect(read('fungus')).toContain('brown rot of butt and stem; the tree fails by brittle fracture');
});
