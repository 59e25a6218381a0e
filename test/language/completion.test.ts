import { expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { completions } from '../../server/language/completion.ts';
import { fixture } from './fixture.ts';

const completed = (source: string, on?: string) => {
  const { snapshot, file, offset } = fixture(source, on);
  return completions(snapshot, file, offset);
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
  expect(labels('‸').sort()).toEqual(['crew', 'person', 'practice', 'site', 'tree']);
});

test.each([
  ['after a number', 'tree 1\n  dbh 41 ‸\n', ['in', 'ft', 'mm', 'cm', 'm']],
  ['after a begun unit', 'tree 1\n  dbh 41 c‸\n', ['in', 'ft', 'mm', 'cm', 'm']],
  ['behind the number', 'tree 1\n  dbh 41‸\n', ['41 in', '41 ft', '41 mm', '41 cm', '41 m']],
  ['of another dimension', 'tree 1\n  live-crown 60 ‸\n', ['%']],
])('units %s', (_, source, expected) => {
  expect(labels(source)).toEqual(expected);
});

test('choices, with what is left of several words', () => {
  expect(labels('tree 1\n  vigor ‸\n')).toEqual(['good', 'fair', 'poor', 'dead']);
  expect(labels('tree 1\n  defect A included ‸\n')).toEqual(['bark']);
  expect(labels('tree 1\n  nest ‸\n')).toEqual(['check']);
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

test('species by genus or epithet, with their traits', () => {
  const maple = completed('tree 1\n  species Acer m‸\n').find(({ label }) => label === 'Acer macrophyllum');
  expect(maple).toBeUndefined();
  const begun = completed('tree 1\n  species ‸\n').find(({ label }) => label === 'Acer macrophyllum');
  expect(begun).toMatchObject({ kind: 'species', detail: 'bigleaf maple' });
  expect(begun!.documentation).toContain('Sapindaceae');
});

test('rules that can be accepted, limits with their value here', () => {
  const rules = labels('tree 1\n accept ‸\n');
  expect(rules).toContain('strength-loss');
  expect(rules).not.toContain('nest-active');
  const limit = completed('practice "x"\n limit ‸\n').find(({ label }) => label === 'strength-loss');
  expect(limit!.documentation).toContain('33 %');
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
        values.filter(({ type }) => type === 'quantity' || type === 'monthDays'),
        filled,
      ).toEqual([]);
    }
  }
  expect(seen).toBeGreaterThan(100);
  expect(completed('tree 1\n‸').find(({ label }) => label === 'dbh')!.snippet).toMatch(
    /^dbh \$\{1:diameters\}$/,
  );
});
