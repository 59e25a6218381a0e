import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import {
  guessMapping,
  MappingError,
  readMapping,
  showMapping,
  TableError,
} from '../../server/import/index.ts';
import { isName } from '../../server/import/tags.ts';
import { importText, readTable } from './table.ts';

const sample = (name: string) =>
  readFileSync(new URL(`../../samples/import/${name}`, import.meta.url), 'utf8');
const guessed = async (text: string) => JSON.parse(showMapping(guessMapping(await readTable(text)).mapping));
/** The inventory of a table with the guessed mapping, without the two lines that tell where it comes from. */
const imported = async (text: string): Promise<string> =>
  (await importText(text)).text.split('\n').slice(3).join('\n');
const mistakes = (text: string) =>
  splitBlocks(text).flatMap(({ block }) => block.lines.flatMap(line => line.mistake ?? []));

test('the black cherry trees: every row, with the diameter that the table calls girth', async () => {
  const { text, trees, leftovers } = await importText(
    sample('black-cherry.csv'),
    readMapping(sample('black-cherry.json')),
  );
  expect(trees).toBe(31);
  expect(leftovers).toEqual([]);
  expect(mistakes(text)).toEqual([]);
  const sum = (pattern: RegExp) =>
    [...text.matchAll(pattern)].reduce((total, found) => total + Number(found[1]), 0);
  // Sums of the three columns as R gives them for datasets::trees.
  expect(sum(/dbh +([\d.]+) in/g)).toBeCloseTo(410.7, 6);
  expect(sum(/height +([\d.]+) ft/g)).toBeCloseTo(2356, 6);
  expect(sum(/Volume: ([\d.]+)"/g)).toBeCloseTo(935.3, 6);
});

test('a column called girth over what can be no circumference is asked about', async () => {
  const { mapping, questions } = guessMapping(await readTable(sample('black-cherry.csv')));
  expect(JSON.parse(showMapping(mapping))).toEqual({
    Girth: 'dbh in ?',
    Height: 'height ft',
    Volume: 'note',
  });
  expect(questions).toHaveLength(1);
  expect(questions[0]).toMatchObject({ column: 'Girth', isOptional: false });
  expect(questions[0]!.choices.map(({ kind, unit }) => [kind, unit])).toContainEqual(['girth', 'in']);
});

test('headings in plain words, with units in brackets, at the end or in the size of the values', async () => {
  expect(
    await guessed(
      'Tree No.,Botanical Name,Common Name,Trunk diameter (cm),HeightFt,Crown spread [m],Lat,Long,Remarks\n1,Acer rubrum,red maple,30,40,5,6,7,8\n',
    ),
  ).toEqual({
    'Tree No.': 'tag',
    'Botanical Name': 'species',
    'Common Name': 'common-name',
    'Trunk diameter (cm)': 'dbh cm',
    HeightFt: 'height ft',
    'Crown spread [m]': 'crown m',
    Lat: 'latitude',
    Long: 'longitude',
    Remarks: 'note',
  });
  expect(await guessed('dbh,height\n0.4,12\n0.5,15\n')).toEqual({ dbh: 'dbh m', height: 'height m' });
  expect(await guessed('dbh,height\n14,50\n20,70\n')).toEqual({ dbh: 'dbh in', height: 'height ft' });
  expect(await guessed('dbh,circumference_mm\n55,1700\n62,1900\n')).toEqual({
    dbh: 'dbh cm',
    circumference_mm: 'girth mm',
  });
  expect(await guessed('Planting year,Park name and address\n2001,x\n')).toEqual({
    'Planting year': 'planted',
    'Park name and address': 'note',
  });
});

test('separators, byte order mark, decimal commas and quoted cells', async () => {
  const rows = [
    ['id', 'dbh (cm)', 'remarks'],
    ['1', '45,5', 'two\nlines, "quoted"'],
    ['2', '1234,5', ''],
  ];
  for (const separator of [';', '\t', ',']) {
    const text = rows
      .map(row =>
        row.map(cell => (/[",;\n\t]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(separator),
      )
      .join('\r\n');
    expect(await imported(`\uFEFF${text}\r\n`)).toBe(
      [
        'tree 1',
        '  dbh         45.5 cm',
        '  note        "remarks: two lines, ""quoted"""',
        '',
        'tree 2',
        '  dbh         1234.5 cm',
        '',
      ].join('\n'),
    );
  }
});

test('commas group thousands where commas separate the cells', async () => {
  expect(await imported('id,dbh (mm)\n1,"1,250"\n')).toContain('dbh         1250 mm');
});

test('sizes as people write them', async () => {
  const cells = ['12; 14.5', '6-10', '30+', '~26', '41 cm', `5' 6"`, '< 4', '12 / 9'];
  const text = await imported(
    `id;dbh (in)\n${cells.map((cell, i) => `${i};${cell.includes(';') || cell.includes('"') ? `"${cell.replaceAll('"', '""')}"` : cell}`).join('\n')}\n`,
  );
  expect([...text.matchAll(/dbh +(.*)/g)].map(found => found[1])).toEqual([
    '12 in, 14.5 in',
    '6..10 in',
    '> 30 in',
    '~26 in',
    '41 cm',
    '66 in',
    '< 4 in',
    '12 in, 9 in',
  ]);
});

test('common names are read as elsewhere: a genus is one, and what means several trees is left out', async () => {
  const text = await imported('id;species\n1;oak\n2;doug fir\n3;white oak\n');
  expect(text).toContain('species     Quercus  # oak');
  expect(text).toContain('species     Pseudotsuga menziesii  # doug fir');
  expect(text).toContain('# species "white oak" left out');
});

test('missing and impossible values stay beside their tree with the reason', async () => {
  const { text, trees, leftovers } = await importText(
    'tag,species,dbh (in),height (ft),latitude,longitude,condition\n' +
      '7,Quercus robur,800,NA,95,8,splendid\n7,Quercus,0,0,0,0,\nA 9,shrub,-3,12 bananas,,,Good\n',
  );
  expect(trees).toBe(3);
  expect(text.split('\n').slice(3).join('\n')).toBe(
    [
      'tree 7',
      '  # latitude "95" left out: this latitude or longitude does not exist',
      '  # longitude "8" left out: this latitude or longitude does not exist',
      '  # dbh (in) "800" left out: no trunk is that thick',
      '  # height (ft) "NA" left out: it means that there is no value',
      '  # condition "splendid" left out: the notation has no such word for vigor',
      '  species     Quercus robur',
      '',
      'tree row-3',
      '  # tag "7" left out: the table has this tag several times',
      '  # latitude "0" left out: 0, 0 stands for an unknown position',
      '  # longitude "0" left out: 0, 0 stands for an unknown position',
      '  # dbh (in) "0" left out: no tree has the size 0; it stands for an unknown value',
      '  # height (ft) "0" left out: no tree has the size 0; it stands for an unknown value',
      '  # Empty in the table: condition',
      '  species     Quercus',
      // Papers that name tree 7 may mean this one: it is found by its old tag, too.
      '  formerly    7',
      '',
      // The tree is known by it; only the blank can't be in a tag.
      'tree A-9',
      '  # species "shrub" left out: it is not a botanical name',
      '  # dbh (in) "-3" left out: a size cannot be negative',
      '  # height (ft) "12 bananas" left out: it is not a size',
      '  # Empty in the table: latitude, longitude',
      '  vigor       good',
      '  note        "tag: A 9"',
      '',
    ].join('\n'),
  );
  expect(leftovers).toHaveLength(13);
  expect(leftovers[0]).toEqual({
    line: 2,
    column: 'latitude',
    value: '95',
    reason: 'this latitude or longitude does not exist',
  });
});

test('a common name gives the species only where none is stated, and says so', async () => {
  const text = await imported(
    'id,species,common name\n1,,English oak\n2,Acer rubrum,English oak\n3,,No such tree\n',
  );
  expect(text.match(/species .*/g)).toEqual([
    'species     Quercus robur  # from the common name',
    'species     Acer rubrum',
  ]);
  expect(text.match(/note .*/g)).toHaveLength(3);
});

test('crown base and spread make one line; either may be missing', async () => {
  const text = await imported('id,crown base (m),crown spread (m)\n1,2,8\n2,,8\n3,2,\n4,0,8\n');
  expect(text.match(/^ {2}crown .*/gm)?.map(line => line.trim())).toEqual([
    'crown       from 2 m, 8 m wide',
    'crown       8 m wide',
    'crown       from 2 m',
    'crown       8 m wide',
  ]);
});

test('rows longer or shorter than the heading lose nothing', async () => {
  const text = await imported('id,dbh (in)\n1\n2,14,extra\n');
  expect(text).toContain('Empty in the table: dbh (in)');
  expect(text).toContain('note        "column 3: extra"');
});

test('tables that are none say so', async () => {
  await expect(readTable('')).rejects.toThrow(TableError);
  await expect(readTable('1,2,3\n4,5,6\n')).rejects.toThrow('The first line contains only numbers');
  await expect(readTable('id,note\n1,"never closed\n')).rejects.toThrow(TableError);
});

test('mappings that are none say so', async () => {
  expect(() => readMapping('{')).toThrow(MappingError);
  expect(() => readMapping('[]')).toThrow('must be one object');
  expect(() => readMapping('{"a": "dbh"}')).toThrow('dbh needs one of the units in, ft, mm, cm, m');
  expect(() => readMapping('{"a": "heigth ft"}')).toThrow('Did you mean height');
  expect(() => readMapping('{"a": "dbh in", "b": "dbh cm"}')).toThrow('"a" and "b" both mean dbh');
  await expect(importText('a\nx\n', readMapping('{"b": "note"}'))).rejects.toThrow('no column "b"');
});

test('a mapping that was shown reads back the same', async () => {
  const { mapping } = guessMapping(await readTable('id,dbh (cm),height (m),what\n1,2,3,4\n'));
  expect(readMapping(showMapping(mapping))).toEqual(mapping);
});

test('whatever the cells hold: one tree for each row, nothing the notation can not read, tidy already', async () => {
  const cell = fc.oneof(
    fc.string(),
    fc.string({ unit: 'binary' }),
    fc.constantFrom('12', '0', 'NA', '4,5', '"', '#', "x'"),
  );
  const row = fc.array(cell, { minLength: 9, maxLength: 9 });
  const heading = 'id;name;species;dbh;height;crown;lat;lon;condition';
  await fc.assert(
    fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 4 }), async rows => {
      const body = rows
        .map(cells => cells.map(text => `"${text.replaceAll('"', '""')}"`).join(';'))
        .join('\n');
      const { text, trees } = await importText(`${heading}\n${body}\n`);
      const kept = rows.filter(cells => cells.some(value => value.trim() !== ''));
      expect(trees).toBe(kept.length);
      expect(text.match(/^tree /gm) ?? []).toHaveLength(kept.length);
      expect(mistakes(text)).toEqual([]);
      expect(tidy(text).text).toBe(text);
    }),
  );
});

test('botanical and common name in one cell, in either order, and names in parts', async () => {
  const cells = [
    'Acer rubrum :: Red Maple',
    'London plane (Platanus x hispanica)',
    'Tilia cordata - small-leaved lime',
    'English oak',
    'Quercus sp.',
    'stump',
  ];
  const text = await imported(`id,species\n${cells.map((cell, i) => `${i},${cell}`).join('\n')}\n`);
  expect(text.match(/species .*/g)).toEqual([
    'species     Acer rubrum  # Acer rubrum :: Red Maple',
    'species     Platanus × hispanica  # London plane (Platanus x hispanica)',
    'species     Tilia cordata  # Tilia cordata - small-leaved lime',
    'species     Quercus robur  # English oak',
    'species     Quercus sp.',
  ]);
  const parts =
    'GENUS;SPECIES;CULTIVAR\nPlatanus;x hispanica;\nAcer;platanoides;Crimson King\nPrunus;n. sp.;\n;alba;\n';
  expect(await guessed(parts)).toEqual({ GENUS: 'genus', SPECIES: 'epithet', CULTIVAR: 'cultivar' });
  expect((await imported(parts)).match(/(species|left) .*/g)).toEqual([
    'species     Platanus × hispanica',
    "species     Acer platanoides 'Crimson King'",
    'species     Prunus sp.',
    'left out: it is not a botanical name',
  ]);
});

test('a decimal sign against that of its column is kept as a comment, not guessed', async () => {
  const text = await imported('id;dbh (cm)\n1;12.5\n2;30,5\n3;8.5; 9\n');
  expect(text).toContain('# dbh (cm) "30,5" left out: the column has decimal points, but this is a comma');
  const commas = Array.from({ length: 3000 }, (_, i) => `${i};${i < 2500 ? 14 : '14,5'}`).join('\n');
  const late = await imported(`id;dbh (cm)\n${commas}\n9000;14.5\n`);
  // No cell that was read ahead tells; the first one that does decides.
  expect(late.match(/dbh +14 cm/g)).toHaveLength(2500);
  expect(late.match(/dbh +14\.5 cm/g)).toHaveLength(500);
  expect(late).toContain('"14.5" left out: the column has decimal commas, but this is a point');
});

test('positions as maps write them, longitude first; of two that say it the one in two columns counts', async () => {
  expect(await imported('id,position\n1,POINT (-122.87131 44.31281)\n2,"44.3, -122.8"\n')).toMatch(
    /position +44\.31281, -122\.87131\n\n.*\n +position +44\.3, -122\.8\n/,
  );
  expect(await guessed('lat,lon,position\n1,2,"1, 2"\n')).toEqual({
    lat: 'latitude',
    lon: 'longitude',
    position: 'note',
  });
});

test('notes by that name stand alone, one for each line; other columns say their own name', async () => {
  const text = await imported('id,notes,Site\n1,"near the gate\nsee plan",north\n');
  expect(text.match(/note .*/g)).toEqual([
    'note        "near the gate"',
    'note        "see plan"',
    'note        "Site: north"',
  ]);
});

test('rows that begin anywhere are named by their line, also behind cells of several lines', async () => {
  const { leftovers } = await importText('id,dbh (in),notes\r\n1,0,"a\r\nb\r\nc"\r\n\r\n2,0,\r\n');
  expect(leftovers.map(({ line }) => line)).toEqual([2, 6]);
});

test('tags that are known to be names are names', () => {
  fc.assert(
    fc.property(fc.stringMatching(/^([A-Za-z]{1,8}-?)?\d{1,12}[a-z]?$/), wanted => {
      const line = `tree ${wanted}`;
      expect(isName(wanted)).toBe(true);
      expect(mistakes(line)).toEqual([]);
      expect(tidy(line).text).toBe(`${line}\n`);
    }),
    { numRuns: 3000 },
  );
});

test('whatever numbers the cells hold, what is written is sound and tidy, and says the same', async () => {
  const number = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
    fc.tuple(fc.integer({ min: -200, max: 200 }), fc.nat(9_999_999)).map(([a, b]) => `${a}.${b}`),
    fc.constantFrom('-0', '0.0', '00012', '1e-9', '.5', '5.', '+3', '-0.00000001', '0,000001'),
  );
  const row = fc.array(number, { minLength: 4, maxLength: 4 });
  await fc.assert(
    fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 5 }), async rows => {
      const body = rows.map((cells, i) => [i, ...cells].join(';')).join('\n');
      const { text, leftovers } = await importText(`id;lat;lon;dbh (cm);height (m)\n${body}\n`);
      expect(mistakes(text)).toEqual([]);
      expect(tidy(text).text).toBe(text);
      for (const [index, [north, east]] of rows.entries()) {
        if (leftovers.some(({ line, column }) => line === index + 2 && column === 'lat')) continue;
        const found = new RegExp(`^tree ${index}\\n(?:  [^p].*\\n)*  position +(.*), (.*)\\n`, 'm').exec(
          text,
        );
        expect(Number(found![1])).toBeCloseTo(Number(north!.replace(',', '.')), 8);
        expect(Number(found![2])).toBeCloseTo(Number(east!.replace(',', '.')), 8);
      }
    }),
  );
});
