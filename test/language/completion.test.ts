import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { completions } from '../../server/language/completion.ts';
import { fixture } from './fixture.ts';

const completed = (source: string, on?: string) => {
  const { snapshot, file, offset } = fixture(source, on);
  return completions(snapshot, file, offset).items;
};
const labels = (source: string) => completed(source).map(({ label }) => label);

test('a line begins with the fields of the head above, then heads; no field twice', () => {
  const found = labels('tree 1\n  dbh 41 in\n  ‸\n');
  expect(found).toContain('height');
  expect(found).toContain('defect');
  expect(found).toContain('tree');
  expect(found).not.toContain('dbh');
  expect(found).not.toContain('limit');
  expect(found.indexOf('height')).toBeLessThan(found.indexOf('defect'));
});

test('nothing that is typed in full, unless more would be written', () => {
  expect(labels('tree 1\n  vigor fair‸\n')).toEqual(['good', 'poor', 'dead']);
  expect(labels('tree 1\n  dbh 41 in‸\n')).not.toContain('in');
  expect(labels('tree 1\n  vigor‸\n')).toContain('vigor');
});

test('fields that may stand several times are proposed again', () => {
  expect(labels('tree 1\n  note "x"\n  no‸\n')).toContain('note');
});

test('an empty file proposes the heads of the file', () => {
  const heads = completed('‸').filter(({ kind }) => kind === 'head');
  expect(heads.map(({ label }) => label).sort()).toEqual(['crew', 'person', 'practice', 'site', 'tree']);
});

test('whole records once, and only where their head may stand', () => {
  const records = (source: string) =>
    completed(source).flatMap(({ kind, label }) => (kind === 'record' ? [label.split(' with ')[0]] : []));
  expect(records('‸').sort()).toEqual(['crew', 'person', 'practice', 'site', 'tree']);
  expect(records('tree 1\n  def‸')).toContain('defect');
  expect(records('tree 1\n  ‸')).not.toContain('limit');
  expect(records('tree 1\n  ‸')).not.toContain('tree');
  expect(records('practice "x"\n  ‸').sort()).toEqual(['approach', 'limit', 'season', 'severity']);
  const tree = completed('tr‸').find(({ kind }) => kind === 'record')!;
  expect(tree.snippet).toMatch(/^tree \$\{1:tag\}[\s\S]*\n {2}inspection \$\{\d+:2026-06-01\} from /);
});

test.each([
  ['after a number', 'tree 1\n  dbh 41 ‸\n', ['in', 'ft', 'mm', 'cm', 'm']],
  ['after a begun unit', 'tree 1\n  dbh 41 c‸\n', ['cm', 'in', 'ft', 'mm', 'm']],
  ['behind the number', 'tree 1\n  dbh 41‸\n', ['41 in', '41 ft', '41 mm', '41 cm', '41 m']],
  ['of another dimension', 'tree 1\n  live-crown 60 ‸\n', ['%']],
])('units %s', (_, source, expected) => {
  expect(labels(source)).toEqual(expected);
});

/** What is written when one of the proposals is taken, with the cursor where it was. */
function taken(source: string, label: string): string {
  const { snapshot, file, offset } = fixture(source);
  const item = completions(snapshot, file, offset).items.find(one => one.label === label)!;
  return file.text.slice(0, item.start) + (item.text ?? label) + file.text.slice(item.end);
}

test('choices; one of several words takes the place of those that are there', () => {
  expect(labels('tree 1\n  vigor ‸\n')).toEqual(['good', 'fair', 'poor', 'dead']);
  expect(labels('tree 1\n  defect A included ‸\n')).toEqual(['included bark']);
  expect(taken('tree 1\n  defect A included b‸\n', 'included bark')).toBe(
    'tree 1\n  defect A included bark\n',
  );
  expect(taken('tree 1\n  nest ‸\n', 'nest check')).toBe('tree 1\n  nest check\n');
});

test('quantities with a sign or a range get their unit', () => {
  expect(taken('tree 1\n defect A cavity\n  depth > 11‸\n', '> 11 in')).toContain('depth > 11 in\n');
  expect(taken('tree 1\n defect A cavity\n  wall 2..4‸\n', '2..4 cm')).toContain('wall 2..4 cm\n');
});

test('nor are names of several words', () => {
  expect(labels('tree 1\n inspection 2026-03-01 from ground‸\n')).not.toContain('ground');
  expect(labels('tree 1\n species Acer macrophyllum‸\n')).toEqual([]);
  expect(labels('tree 1\n species Acer macrophyllum ‸\n')).toEqual([]);
});

test('names that are known: persons and crews of other files, defects and parts of the tree', () => {
  const source = (line: string) =>
    `--- a.wood\ntree 1\n stem North\n defect A cavity\n ${line}\n--- p.wood\nperson RV "Ruth Varga"\ncrew ROPE "Rope crew"\n`;
  expect(labels(source('prescription R1 reduce\n by ‸'))).toEqual(['RV']);
  expect(labels(source('prescription R1 reduce\n with ‸'))).toEqual(['ROPE']);
  expect(labels(source('prescription R1 reduce\n for ‸'))).toEqual(['A', 'trunk', 'North']);
  expect(labels(source('defect B cavity\n on ‸'))).toEqual(['trunk', 'North']);
});

test('new names are the next free ones', () => {
  expect(labels('tree 1\n defect A cavity\n defect ‸\n')).toEqual(['B']);
  expect(labels('tree 1\n prescription R1 clean\n prescription ‸\n')).toEqual(['R2']);
});

describe('species', () => {
  const species = (typed: string) => completed(`tree 1\n  species ${typed}‸\n`);
  const first = (typed: string) => species(typed)[0]?.label;

  test('by any words of their names, and by their common names', () => {
    for (const typed of ['Acer mac', 'acer mac', 'mac Acer', 'bigleaf', 'maple big', 'bigleaf ma'])
      expect(
        species(typed).map(({ label }) => label),
        typed,
      ).toContain('Acer macrophyllum');
    expect(first('Norway ma')).toBe('Acer platanoides');
    expect(first('Acer free')).toBe('Acer × freemanii');
    expect(first('Platanus x his')).toBe('Platanus × hispanica');
  });

  test('take the place of all words typed, and are found by the text of that place', () => {
    expect(taken('tree 1\n  species norway ma‸\n', 'Acer platanoides')).toBe(
      'tree 1\n  species Acer platanoides\n',
    );
    for (const typed of ['Acer mac', 'mac', 'norway ma', 'maple n'])
      for (const { filterText } of species(typed)) expect(filterText.startsWith(typed)).toBe(true);
  });

  test('those that begin with what is typed come first, those of the file before the others', () => {
    expect(first('mac')).toBe('Maclura pomifera');
    expect(completed("tree 1\n species Acer rubrum 'October Glory'\ntree 2\n species ‸\n")[0]!.label).toBe(
      "Acer rubrum 'October Glory'",
    );
  });

  test('say what the table knows', () => {
    const maple = species('Acer mac')[0]!;
    expect(maple).toMatchObject({ kind: 'species', detail: 'bigleaf maple' });
    expect(maple.documentation!()).toContain('Sapindaceae');
  });

  test('of nests are birds, of defects fungi and birds', () => {
    const nest = completed('tree 1\n nest check 2026-05-01 from ground\n  found active ‸\n');
    expect(nest[0]).toMatchObject({ label: 'Turdus', detail: 'thrushes' });
    expect(nest.map(({ label }) => label)).not.toContain('Acer rubrum');
    expect(
      taken('tree 1\n nest check 2026-05-01 from ground\n  found active bald e‸\n', 'Haliaeetus'),
    ).toContain('found active Haliaeetus\n');
    const defect = completed('tree 1\n defect A fungus\n  species Kretz‸\n');
    expect(defect.map(({ label }) => label)).toEqual(['Kretzschmaria']);
    expect(defect[0]!.documentation!()).toContain('soft rot of roots and butt');
  });
});

test('rules that can be accepted, limits with their value here', () => {
  expect(labels('tree 1\n accept strength‸\n')).toContain('strength-loss');
  expect(labels('tree 1\n accept nest‸\n')).not.toContain('nest-active');
  const limit = completed('practice "x"\n limit strength‸\n').find(({ label }) => label === 'strength-loss');
  expect(limit!.documentation!()).toContain('33 %');
  expect(labels('practice "x"\n limit strength-loss ‸\n')).toEqual(['33 %']);
  expect(labels('practice "x"\n limit strength-loss 30‸\n')).toEqual(['30 %']);
});

test('dates are of today', () => {
  expect(labels('tree 1\n inspection ‸\n')).toEqual(['2026-06-01']);
});

test('nothing in comments and texts, nothing after a mistake', () => {
  for (const source of ['# tr‸ee', 'tree 1 "na‸me', 'tree 1\n note "x ‸"\n', 'tree 1\n dbh @ ‸\n'])
    expect(completed(source)).toEqual([]);
});

test('the stretch that a proposal takes the place of is the word before the cursor', () => {
  const [first] = completed('tree 1\n  vigor fa‸\n');
  expect(first).toMatchObject({ start: 15, end: 17 });
});

test('snippets say nothing that nobody wrote: their places are no measures', () => {
  let seen = 0;
  for (const head of HEADS.values()) {
    const begun = head.under === undefined ? '' : `${HEADS.get(head.under)!.example}\n`;
    for (const { snippet } of [...completed(`${begun}‸`), ...completed(`${begun}${head.example}\n‸`)]) {
      if (snippet === undefined) continue;
      seen++;
      const filled = snippet.replace(/\$\{\d+:([^}]*)\}/g, '$1').replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1');
      const values = splitBlocks(`${begun}${head.example}\n${filled}`).at(-1)!.block.lines.at(-1)!.values;
      expect(
        values.filter(
          value =>
            (value.type === 'quantity' && value.quantity.form !== 'unseen') || value.type === 'monthDays',
        ),
        filled,
      ).toEqual([]);
    }
  }
  expect(seen).toBeGreaterThan(100);
  expect(completed('tree 1\n‸').find(({ label }) => label === 'dbh')!.snippet).toMatch(
    /^dbh \$\{1:diameters\}$/,
  );
});
