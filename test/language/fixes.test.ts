import { expect, test } from 'vitest';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { fixAll, fixes } from '../../server/language/fixes.ts';
import { checkFile } from '../../server/rules/check.ts';
import { edited, fixture } from './fixture.ts';

const offered = (source: string, on?: string) => {
  const given = fixture(source, on);
  return fixes(given.snapshot, given.file, given.all).map(fix => ({
    ...fix,
    after: edited(given.file.text, fix.edits),
  }));
};
const titles = (source: string) => offered(source).map(({ title }) => title);

test('a misspelt word is mended, and others that are near are offered', () => {
  const [first] = offered('tree 1\n  vigor fiar\n');
  expect(first).toMatchObject({ title: 'Write fair', preferred: true, after: 'tree 1\n  vigor fair\n' });
  expect(offered('tree 1\n  hieght 5 m\n')[0]!.after).toBe('tree 1\n  height 5 m\n');
});

test('a missing unit: every unit of the dimension, none of them preferred', () => {
  const found = offered('tree 1\n  dbh 41\n');
  expect(found.map(({ title }) => title)).toEqual([
    'Write 41 in',
    'Write 41 ft',
    'Write 41 mm',
    'Write 41 cm',
    'Write 41 m',
  ]);
  expect(found.some(({ preferred }) => preferred)).toBe(false);
  expect(found[3]!.after).toBe('tree 1\n  dbh 41 cm\n');
});

test('a missing unit in the middle of a line', () => {
  const found = offered('tree 1\n  crown from 14, 58 ft wide\n');
  expect(found.map(({ after }) => after)).toContain('tree 1\n  crown from 14 ft, 58 ft wide\n');
});

test('a word for a unit becomes the unit', () => {
  expect(offered('tree 1\n  dbh 41 inches\n')[0]).toMatchObject({ after: 'tree 1\n  dbh 41 in\n' });
});

test('an unknown name becomes the nearest one', () => {
  const found = offered(
    '--- a.wood\ntree 1\n inspection 2026-03-14 from ground\n  by RW\n--- p.wood\nperson RV "Ruth Varga"\n',
  );
  expect(found.some(({ after }) => after.includes('by RV'))).toBe(true);
});

const NESTING = `site "Court"
  region US-OR

tree 1
  inspection 2026-03-14 from ground
  prescription R1 clean
    between 2026-06-08..2026-06-20

tree 2
`;

test('work in the nesting season moves to the next clear window of its length', () => {
  const found = offered(NESTING);
  const move = found.find(({ title }) => title.startsWith('Move the work to'))!;
  expect(move.edits).toHaveLength(1);
  const [, from, to] = /between (\S+)\.\.(\S+)/.exec(move.after)!;
  expect(Date.parse(to!) - Date.parse(from!)).toBe(12 * 86_400_000);
  const file = readFile('a.wood', move.after);
  const left = checkFile(buildWorkspace([file]), file, 20_605).filter(({ rule }) => rule.startsWith('nest-'));
  expect(left).toEqual([]);
});

test.each([
  ['nests and a pest', 'US-MN', 'Quercus rubra', '2026-06-08..2026-06-20'],
  ['the office', 'US-OR', 'Tilia cordata', '2026-10-06..2026-10-09'],
])('work in weeks closed for %s moves to days that nothing closes', (_, region, species, days) => {
  const found = offered(`site "Court"
  region ${region}

practice "Office limits"
  season pruning 10-01..10-31
    because "leaf fall"

tree 1
  species ${species}
  inspection 2026-03-14 from ground
  prescription R1 thin
    dose 10 %
    between ${days}
`);
  const [move] = found.filter(({ title }) => title.startsWith('Move the work to'));
  const file = readFile('a.wood', move!.after);
  const left = checkFile(buildWorkspace([file]), file, 20_605).map(({ rule }) => rule);
  expect(left.filter(rule => rule.startsWith('nest-') || rule === 'pruning-season')).toEqual([]);
});

test('work with days that nothing closes is kept to them, or moved as a whole', () => {
  const found = offered(NESTING.replace('2026-06-08..2026-06-20', '2026-08-20..2026-09-10'));
  const days = found.flatMap(({ after }) => /between (\S+)/.exec(after)![1]!);
  expect(days).toContain('2026-09-01..2026-09-10');
  expect(days).toContain('2026-09-01..2026-09-22');
});

test('work that would meet bats with their young moves, or gets a bat check to fill in', () => {
  const found = offered(NESTING.replace('clean', 'fell').replace('tree 1', 'tree 1\n  defect A cavity'));
  const own = found.filter(({ finding }) => finding.rule === 'bat-check-missing');
  expect(own.map(({ title }) => title)).toContain('Add a bat check to fill in');
  expect(found.map(({ title }) => title)).toContain(
    'Move the work to 2026-09-01..2026-09-13, clear of the closed seasons',
  );
});

test('what only a person knows is left open: the notation asks for it', () => {
  const check = offered(NESTING).find(({ title }) => title === 'Add a nest check to fill in')!;
  expect(check.after).toContain(
    'between 2026-06-08..2026-06-20\n\n  nest check 2026-06-01 from\n    by\n    found\n\ntree 2',
  );
  const file = readFile('a.wood', check.after);
  const mistakes = checkFile(buildWorkspace([file]), file, 20_605).filter(({ grade }) => grade === 'syntax');
  expect(mistakes.map(({ rule }) => rule)).toEqual(['incomplete', 'incomplete', 'incomplete']);
});

test('an exception on record names the rule and the subject, and waits for person and reason', () => {
  const found = offered(NESTING).find(({ title }) => title.startsWith('Accept nest-check-missing for R1'))!;
  expect(found.after).toContain(
    '  accept nest-check-missing for R1\n    until     2026-12-01\n    by\n    because\n',
  );
});

const HOLLOW =
  'tree 1\n  defect A cavity\n    on trunk at 4 ft, facing S\n    diameter 26 in\n    opening 9 in wide\n    wall 2 in\n';

test('a follow-up for a section that the readings condemn', () => {
  const found = offered(HOLLOW).find(({ title }) => title.startsWith('Add a follow-up'))!;
  expect(found.after).toMatch(/\n {2}follow-up F1 resistance drilling\n {4}of {8}A\n {4}due$/m);
});

test('the same is offered once', () => {
  const all = titles(HOLLOW);
  expect(new Set(all).size).toBe(all.length);
});

test('a legal prohibition is not offered for acceptance', () => {
  const source = NESTING.replace(
    'prescription',
    'nest check 2026-05-30 from ground\n    found active\n  prescription',
  );
  expect(titles(source).filter(title => title.startsWith('Accept nest-active'))).toEqual([]);
});

test('all at once only what can mean one thing: misspelt words, words for a unit, habits', () => {
  const given = fixture(
    'tree 1\n  vigor fiar\n  dbh 41 inches\n  height 12\n  live-crown 60\n  vigor good\n',
  );
  const after = edited(given.file.text, fixAll(given.snapshot, given.file));
  expect(after).toBe('tree 1\n  vigor fair\n  dbh 41 in\n  height 12\n  live-crown 60\n  vigor good\n');
});

test('line ends stay as they are', () => {
  const given = fixture(NESTING.replaceAll('\n', '\r\n'));
  for (const { edits } of fixes(given.snapshot, given.file, given.all))
    expect(edited(given.file.text, edits).replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
});

test('a word that is only near is offered, but not mended with all others at once', () => {
  const given = fixture('tree 14\n  hieght 52 ft\n  inspection 2026-03-14 from ground\n    with drone\n');
  expect(edited(given.file.text, fixAll(given.snapshot, given.file))).toBe(
    'tree 14\n  height 52 ft\n  inspection 2026-03-14 from ground\n    with drone\n',
  );
});

test('what is only near to a word may say the opposite: it is asked, not put in', () => {
  const flown = 'tree 1\n  inspection 2026-03-14 from drone\n    flown 120 ft, owner ok\n';
  const given = fixture(flown);
  const all = fixes(given.snapshot, given.file, given.all);
  expect(
    all.map(({ edits }) => edited(flown, edits)).filter(after => /over people|, over/.test(after)),
  ).toEqual([]);
  const [mistake] = checkFile(given.snapshot.workspace, given.file, 20_605).filter(
    ({ grade }) => grade === 'syntax',
  );
  expect(mistake!.remedy).toContain('flown 120 ft, permission owner');
});

test('a stem, a defect or a prescription is not taken for another one', () => {
  const tree = 'tree 1\n  stem North\n  defect A cavity\n  prescription R1 fell\n';
  for (const line of ['    remove South', '    for B', '  work R2 2026-05-01'])
    expect(titles(`${tree}${line}\n`).filter(title => title.startsWith('Write '))).toEqual([]);
  expect(titles(`${tree}    remove Nroth\n`)).toContain('Write North');
});

test('a rating is raised to what its inputs give, and never lowered', () => {
  const rated = (rating: string) =>
    offered(
      `tree 1\n  target "Lane"\n    distance 3 m\n  risk "Lane"\n    failure probable\n    impact medium\n    consequences severe\n    rating ${rating}\n`,
    ).filter(({ finding }) => finding.rule === 'rating-mismatch' && /^Write /.test(finding.remedy));
  expect(rated('low').map(({ title }) => title)).toContain('Write moderate');
  expect(rated('extreme').map(({ title }) => title)).not.toContain('Write moderate');
});

test('a remedy’s figure is the one that the quick fix writes', () => {
  const [fix] = offered(
    'tree 1\n  height 23.3 m\n  crown from 6 m, 11 m wide\n  target "Lane"\n    distance 5 m\n  prescription R1 fell\n    stump leave\n    exclusion 12 m\n',
  ).filter(({ finding }) => finding.rule === 'work-over-target-without-exclusion');
  const [, radius] = /Widen the exclusion to (\S+ m)/.exec(fix!.finding.remedy)!;
  expect(fix!.title).toBe(`Write exclusion ${radius}`);
  expect(fix!.after).toContain(`    exclusion ${radius}\n`);
});

test('alternatives are offered where two plans exclude each other', () => {
  const found = offered('tree 1\n  prescription R1 keep\n  prescription R2 fell\n    stump leave\n');
  const fix = found.find(({ title }) => title === 'Write or R1')!;
  expect(fix.after).toContain('  prescription R2 fell\n    or R1\n    stump leave\n');
});

test('all at once: several habits of a line, and nothing that has two meanings', () => {
  const given = fixture(`tree 14 “Lawn maple”
  DBH: 41"
  height abt 70-75'
  felled 3/16/26
  planted 03/04/1998
  defect A butt rot
    opening 9 x 14 in
  target Play lawn
    occupied daily
`);
  expect(edited(given.file.text, fixAll(given.snapshot, given.file))).toBe(`tree 14 "Lawn maple"
  dbh 41 in
  height ~70..75 ft
  felled 2026-03-16
  planted 03/04/1998
  defect A butt rot
    opening 9 x 14 in
  target "Play lawn"
    occupied daily
`);
});

test('each meaning of a habit is offered, and none is preferred', () => {
  const found = offered('tree 1\n  planted 03/04/1998\n');
  expect(found.map(({ title }) => title)).toEqual(['Write 1998-03-04', 'Write 1998-04-03']);
  expect(found.some(({ preferred }) => preferred)).toBe(false);
});

test('a habit with one meaning is preferred', () => {
  expect(offered("tree 1\n  height 60'\n")[0]).toMatchObject({ title: 'Write ft', preferred: true });
});

test('a length in a unit of mass: each unit of length', () => {
  const found = offered('tree 1\n  height 52 lb\n').map(({ after }) => after);
  expect(found).toContain('tree 1\n  height 52 ft\n');
});

test('a line below the wrong head moves to one that has it', () => {
  const source =
    'tree 1\n  dbh 41 in\n  inspection 2026-03-14 from ground\n    by RV\n    planted 1962-01-01\n  defect A cavity\n';
  expect(offered(source).find(({ title }) => title === 'Move it below tree 1')!.after).toBe(
    'tree 1\n  dbh 41 in\n  planted 1962-01-01\n  inspection 2026-03-14 from ground\n    by RV\n  defect A cavity\n',
  );
});

test('one version of an unfinished merge is kept', () => {
  const source = 'tree 1\n<<<<<<< ours\n  dbh 41 in\n=======\n  dbh 42 in\n>>>>>>> theirs\n  height 52 ft\n';
  const after = (title: string) => offered(source).find(fix => fix.title === title)!.after;
  expect(after('Keep the version above')).toBe('tree 1\n  dbh 41 in\n  height 52 ft\n');
  expect(after('Keep the version below')).toBe('tree 1\n  dbh 42 in\n  height 52 ft\n');
});

test('of a field that stands twice either line is kept', () => {
  const found = offered('tree 1\n  height 52 ft\n  vigor fair\n  height 54 ft\n');
  const after = (title: string) => found.find(fix => fix.title === title)!.after;
  expect(after('Keep height 52 ft')).toBe('tree 1\n  height 52 ft\n  vigor fair\n');
  expect(after('Keep height 54 ft')).toBe('tree 1\n  vigor fair\n  height 54 ft\n');
});

test('a person whom nobody declares is added where the persons are', () => {
  const given = fixture(
    '--- a.wood\ntree 1\n  inspection 2026-03-14 from ground\n    by TL\n--- p.wood\nperson RV "Ruth Varga"\n',
  );
  const fix = fixes(given.snapshot, given.file, given.all).find(
    ({ title }) => title === 'Add the person TL',
  )!;
  expect(fix.path).toBe('p.wood');
  expect(edited('person RV "Ruth Varga"\n', fix.edits)).toBe('person RV "Ruth Varga"\n\nperson TL\n');
});

test('a stem that is named and stands nowhere is added', () => {
  const found = offered('tree 1\n  prescription R1 fell\n    remove South\n');
  expect(found.find(({ title }) => title === 'Add the stem South')!.after).toContain('\n\n  stem South\n');
});

test('a field that a remedy asks for is added to fill in', () => {
  const found = offered('tree 1\n  target "Path"\n    distance 12 ft\n');
  expect(found.find(({ title }) => title === 'Add occupied to fill in')!.after).toBe(
    'tree 1\n  target "Path"\n    occupied\n    distance 12 ft\n',
  );
});

test('an exception that covers nothing is taken out', () => {
  const found = offered(
    'tree 1\n  dbh 41 in\n  accept season-dose\n    until 2026-12-01\n    by RV\n    because "agreed"\n',
  );
  expect(found.find(({ title }) => title === 'Remove accept season-dose')!.after).toBe(
    'tree 1\n  dbh 41 in\n',
  );
});

const FIELD = `site "Court"
  region US-OR

tree 14
  species bigleaf maple
  planted 3/16/98
  felled 3/4/26

tree 15
  species Douglas fir
`;

test('all at once: names of trees and days in the order of the place', () => {
  const given = fixture(FIELD);
  expect(edited(given.file.text, fixAll(given.snapshot, given.file))).toContain(`tree 14
  species Acer macrophyllum  # bigleaf maple
  planted 1998-03-16
  felled 2026-03-04
`);
});

test('names of trees one by one, also where they look like botanical ones; several to choose from', () => {
  expect(titles(FIELD)).toEqual(
    expect.arrayContaining(['Write Acer macrophyllum', 'Write Pseudotsuga menziesii']),
  );
  const sycamore = offered(FIELD.replace('Douglas fir', 'sycamore')).filter(({ title }) =>
    title.startsWith('Write Platanus'),
  );
  expect(sycamore.map(({ title, preferred }) => [title, preferred])).toEqual([
    ['Write Platanus occidentalis', false],
    ['Write Platanus racemosa', false],
  ]);
  expect(sycamore[1]!.after).toContain('species Platanus racemosa  # sycamore');
});
