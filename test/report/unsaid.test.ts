/** What a report must not leave unsaid: what is overdue, unread, unrated, unanswered, not seen or not inspected. */

import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { folderWith } from '../cli/folder.ts';
import { pageText } from './page-text.ts';

const HEAD = `site "Court"
  region US-OR
  interval 12 months
  quote "Q-7", until 2026-05-01

person RV "Ruth Varga"
  qualified consulting arborist

`;
const SEEN = '  inspection 2026-05-01 from ground\n    by RV\n    level basic\n';
const PATH = '  target "Path"\n    distance 5 ft\n    occupied frequent\n';
const DEAD_WOOD = '  defect A dead wood\n    on trunk at 20 ft\n    diameter 3 in\n';
const LATER = '    between 2026-10-01..2026-10-31\n';

async function reportOn(trees: string, reader = 'client') {
  const folder = await folderWith({ 'a.wood': `${HEAD}${trees}` });
  const { code, out } = await folder.run('report', '--for', reader);
  expect(code).toBe(0);
  const group = (name: string) =>
    pageText(new RegExp(`<h3>${name} <small>.*?</table>`, 's').exec(out)?.[0] ?? '');
  const chapter = pageText(/<article class="tree".*<\/article>/s.exec(out)?.[0] ?? '');
  return { text: pageText(out), group, chapter };
}

test('an overdue inspection is due, on the first page, in the chapter and in the list of the others', async () => {
  const old = '  inspection 2024-03-01 from ground\n    by RV\n';
  const { text, group, chapter } = await reportOn(
    `tree 1\n${old}  defect A wound\n    on trunk at 4 ft\n    share 5 % of circumference\ntree 2\n${old}`,
  );
  expect(group('Watch')).toBe('');
  expect(group('This season')).toContain('Have the tree inspected again by March 1, 2025 (overdue)');
  expect(chapter).toContain('Have the tree inspected again , by March 1, 2025 (overdue).');
  expect(text).toContain('The next inspection of 1 other tree is overdue.');
  expect(text).toMatch(
    /Tree 2 species not stated March 1, 2024 from ground, by Ruth Varga; the next one is overdue/,
  );
  const alone = (await reportOn(`tree 2\n${old}`)).text;
  expect(alone).toContain('The next inspection of 1 tree is overdue.');
  expect(alone).not.toContain('Nothing on record calls for a decision');
});

test('a storm since the last inspection is told', async () => {
  const folder = await folderWith({
    'a.wood': `${HEAD.replace('  interval', '  storm 2026-05-20\n  interval')}tree 1\n${SEEN}${DEAD_WOOD}`,
  });
  const text = pageText((await folder.run('report', '--for', 'client')).out);
  expect(text).toContain('Have the tree inspected: nobody has since the storm');
  expect(text).not.toContain('nothing due yet');
});

test('what a tree without a chapter hides from view or harbors is told', async () => {
  const { text } = await reportOn(
    `tree 1\n${SEEN}    unseen "the whole stem: ivy"\ntree 2\n  protected under order by "Council"\n${SEEN}  nest check 2026-05-20 from ground\n    found active Colaptes auratus\n  bat check 2026-05-20 from ground\n    found roost\n`,
  );
  expect(text).toContain('Nothing on record calls for a decision.');
  expect(text).toContain('Not seen: The whole stem: ivy');
  expect(text).toContain(
    'A nest that is or may be in use was found (Colaptes auratus). It must not be disturbed',
  );
  expect(text).toContain('A bat roost was found');
  expect(text).toContain('The tree is protected (order) by Council. No permit for work is on record');
});

test('a line that was not read is told: what it says may be the worst', async () => {
  const { text, group, chapter } = await reportOn(
    `tree 1\n  lean 25 degs toward N, increasing\n${SEEN}${DEAD_WOOD}  prescription R1 clean\n    for A\n${LATER}`,
  );
  expect(text).toContain('1 line of the record could not be read: what it says is missing here.');
  expect(group('This season')).toContain('part of its record could not be read');
  expect(chapter).toMatch(
    /Line 10 of a\.wood could not be read, and what it says is missing here: Unknown unit "degs"/,
  );
});

test('the first page shows at most two signs, and counts the others', async () => {
  const { group } = await reportOn(
    `tree 1\n  soil cracked\n${SEEN}  defect A crack\n    runs through\n  defect B hanger\n  defect C root loss\n    share 60 % of roots\n${PATH}`,
  );
  expect(group('Now')).toContain('; 2 more beyond a limit or not judged');
});

test('a risk without a rating never hides behind one that is low', async () => {
  const risk = (target: string, more: string) => `  risk "${target}" from A\n${more}`;
  const low = '    failure possible\n    impact low\n    consequences minor\n    rating low\n';
  const yard = PATH.replace('Path', 'Yard');
  const tree = (more: string) => `tree 1\n${SEEN}${DEAD_WOOD}${PATH}${yard}${more}`;
  for (const more of ['', risk('Yard', '    failure probable\n')])
    for (const reader of ['client', 'office'])
      expect((await reportOn(tree(`${risk('Path', low)}${more}`), reader)).text).toContain(
        'low; not every risk is rated',
      );
  const sound = `tree 1\n${SEEN}${PATH}${yard}${risk('Path', low).replace(' from A', '')}`;
  expect((await reportOn(sound)).text).toContain('low; not every risk is rated');
  const all = (await reportOn(tree(`${risk('Path', low)}${risk('Yard', low)}`))).text;
  expect(all).not.toContain('not every risk is rated');
  const hollow =
    '  defect A cavity\n    on trunk at 4 ft\n    diameter 30 in\n    wall 1 in at N, 1 in at E, 1 in at S, 1 in at W\n';
  const disputed = await reportOn(
    `tree 1\n  dbh 30 in\n${SEEN}${hollow}${PATH}${risk('Path', low.replace('possible', 'improbable'))}`,
  );
  expect(disputed.text).toContain('low; rated lower than the record supports');
  expect(disputed.chapter).toContain('Likelihood of failure is rated improbable');
});

test('monitoring does not answer a high rating, nor does other work answer a crack', async () => {
  const rated = '  risk "Path"\n    rating high\n';
  const watch = `  prescription R1 watch\n    between 2027-03-01..2027-03-31\n    because "wanted"\n`;
  const high = await reportOn(`tree 1\n${SEEN}${PATH}${rated}${watch}`);
  const open = 'Nothing on record is certain to address the risk to "Path", rated high in time';
  expect(high.group('Now')).toContain(open);
  expect(high.chapter).toContain(open);
  const clean = await reportOn(
    `tree 1\n${SEEN}${DEAD_WOOD}  defect B crack\n    on trunk at 4 ft\n    runs through\n${PATH}  prescription R1 clean\n    for A\n${LATER}`,
  );
  expect(clean.group('Now')).toContain('Nothing on record is certain to address crack B in time');
  expect(clean.chapter).toContain('Nothing on record is certain to address crack B in time');
});

test('work planned past the day that its rating sets is not only watched', async () => {
  const fell = (window: string) =>
    `tree 1\n${SEEN}${PATH}  risk "Path"\n    rating high\n  prescription R1 fell\n    between ${window}\n`;
  const late = await reportOn(fell('2027-06-01..2027-06-30'));
  expect(late.group('Watch')).toBe('');
  expect(late.group('This season')).toContain('too late for its priority');
  const past = await reportOn(fell('2027-06-01..2027-06-30').replace(/2026-05-01/, '2026-01-10'));
  expect(past.group('Now')).toContain('too late for its priority');
});

test('people are kept out of the reach of a failing tree whose only target on record is a line', async () => {
  const failing = `tree 1\n  height 60 ft\n  lean 20 deg toward N, increasing\n${SEEN}  target "Line"\n    distance 5 ft\n    kind utility\n`;
  const { text } = await reportOn(failing);
  expect(text).toMatch(/Keep people out today Its reach, at least 60 ft all round , at Tree 1/);
  const far = (await reportOn(failing.replace('5 ft', '300 ft'))).text;
  expect(far).not.toContain('Keep people out today');
});

test('a cable that is overdue is in the chapter as on the first page', async () => {
  const { group, chapter } = await reportOn(
    `tree 1\n${SEEN}  stem North\n    union included bark, with South\n  stem South\n    union included bark, with North\n  support C1 cable\n    holds North, South\n    installed 2015-03-02\n    inspected 2016-03-01\n`,
  );
  for (const text of [group('Now'), chapter]) {
    expect(text).toContain('Have cable C1 inspected');
    expect(text).toContain('Have cable C1 replaced at the end of its service life');
    expect(text).toContain('Nothing on record is certain to address the union of North and South in time');
  }
});

test('alternatives are told as such on the first page', async () => {
  const { group } = await reportOn(
    `tree 1\n${SEEN}  prescription R1 clean\n${LATER}  prescription R2 fell\n    or R1\n${LATER}`,
  );
  expect(group('This season')).toMatch(
    /1\) Remove dead.*\(one of 2 alternatives\).* 2\) Remove the tree \(one of 2 alternatives\)/,
  );
});

test('a permit that ended never reads as one on record', async () => {
  const tree = (permit: string, more = '') =>
    `tree 1\n  protected under order permit ${permit}\n${SEEN}  prescription R1 clean\n${LATER}${more}`;
  const ended = (await reportOn(tree('TR-1, until 2026-03-31, for pruning'))).chapter;
  expect(ended).toContain(
    'Permit TR-1 for pruning ended on March 31, 2026: a valid one is needed before any work.',
  );
  expect(ended).not.toContain('is on record, until');
  const own = (await reportOn(tree('none', '    permit TR-2, until 2026-12-31\n'))).chapter;
  expect(own).toContain('Permit TR-2 is on record, until December 31, 2026.');
});

test('who is near is told as it is: closed, open again, or not on record', async () => {
  const closed = (until: string) =>
    `tree 1\n${SEEN}${DEAD_WOOD}${PATH}    closed 2026-05-01, until ${until}, by RV\n`;
  expect((await reportOn(closed('2026-12-31'))).chapter).toContain(
    'people kept out until December 31, 2026 by Ruth Varga',
  );
  expect((await reportOn(closed('2026-05-31'))).chapter).toContain(
    'open again since its closure ended on May 31, 2026',
  );
  expect((await reportOn(`tree 1\n${SEEN}${DEAD_WOOD}`)).chapter).toContain(
    'What it could hit is not on record',
  );
});

test('nobody inspected: not what was found, not of a felled tree', async () => {
  const { text, chapter } = await reportOn(
    'tree 1\n  felled 2024-05-01\ntree 2\n  defect A wound\n    share 5 % of circumference\n',
  );
  expect(chapter).toContain('No inspection is on record: have the tree inspected.');
  expect(text).toContain('1 tree needs a decision, work or another inspection');
  const mixed = (await reportOn(`tree 1\n  felled 2024-05-01\ntree 2\n${SEEN}`)).text;
  expect(mixed).toContain('1 of them inspected May 1, 2026 by Ruth Varga. Nothing');
  expect((await reportOn('tree 1\n  felled 2024-05-01\n')).text).not.toContain('unknown');
});

test('a quote that lapsed cannot be accepted, and no total is named for an alternative without a price', async () => {
  const { text } = await reportOn(
    `tree 1\n${SEEN}  prescription R1 clean\n${LATER}    price 100 USD\n  prescription R2 fell\n    or R1\n${LATER}    price 90 EUR\n`,
  );
  expect(text).toContain('Lapsed: could be accepted until May 1, 2026.');
  expect(text).not.toMatch(/Yes ?:/);
  expect(text).not.toContain('Lowest total');
  expect(text).toContain('Not all of them have a price in USD, so the total of each choice is not known.');
});

test('work without a day is in the due dates of the office, and where no law is on record the client reads so', async () => {
  const { text } = await reportOn(
    `tree 1\n${SEEN}  prescription R1 clean\n    priority immediate\n  follow-up F1 tomogram\ntree 2\n`,
    'office',
  );
  expect(text).toContain(
    'Open, without a date: clean R1 (priority immediate) at tree 1; tomogram F1 at tree 1.',
  );
  expect(text).toMatch(/2 not rated not inspected/);
  const closed = await reportOn(
    `tree 1\n${SEEN}${PATH}    closed 2026-05-01, until 2026-06-03, by RV\n`,
    'office',
  );
  expect(closed.text).toContain('June 3, 2026 1 closure of "Path" ends');
  const folder = await folderWith({ 'a.wood': `site "Isla"\n  region AQ\ntree 1\n${SEEN}` });
  expect(pageText((await folder.run('report', '--for', 'client')).out)).toContain(
    'Nothing is on record for AQ: no law',
  );
});

test('trees of the same tag on several sites are told apart', async () => {
  const folder = await folderWith({
    'a/t.wood': `${HEAD}tree 1\n${SEEN}  prescription R1 clean\n${LATER}  follow-up F1 probe\n`,
    'b/t.wood': `site "Yard"\n  region US-OR\n\ntree 1\n${SEEN}  prescription R1 clean\n${LATER}tree 2\n`,
  });
  const client = pageText((await folder.run('report', '--for', 'client')).out);
  expect(client).toContain('1. Tree 1, Court');
  expect(client).toContain('2. Tree 1, Yard');
  expect(client).toContain('Tree 2, Yard species not stated none on record');
  const office = pageText((await folder.run('report', '--for', 'office')).out);
  expect(office).toContain('1, Yard clean R1: last day of its window');
  expect(office).toContain('probe F1 at tree 1, Court');
});

test('a support that nobody looked at, work left undone and a permit that may be needed are told', async () => {
  const folder = await folderWith({
    'a.wood': `site "Rectory"\n  region GB-ENG\n\ntree 1\n${SEEN}  limb L1\n    from 4 m\n  support P1 prop\n    holds L1\ntree 2\n  species Quercus robur\n  dbh 100 cm\n  height 20 m\n${SEEN}  prescription R1 fell\n${LATER}  work R1 2026-05-20\n    unfinished "the stem: crane missing"\n`,
  });
  const text = pageText((await folder.run('report', '--for', 'client')).out);
  expect(text).toContain('Have prop P1 inspected: no inspection of it is on record');
  expect(text).toContain('Left undone the stem: crane missing');
  expect(text).toContain('Permit This work may require a permit');
  const nowhere = await folderWith({ 'a.wood': `tree 1\n${SEEN}` });
  expect(pageText((await nowhere.run('report', '--for', 'client')).out)).toContain('No region is on record');
});

test('the index of many areas counts trees that nobody inspected, and names the site where people are kept out', async () => {
  const folder = await folderWith({
    'a/t.wood': `${HEAD}tree 1\n${SEEN}  defect A hanger\n${PATH}`,
    'b/t.wood': 'site "Yard"\n  region AQ\n\ntree 1\n',
  });
  const { code } = await folder.run('report', '--for', 'client', '-o', 'out/');
  expect(code).toBe(0);
  const index = pageText(await readFile(folder.file('out/index.html'), 'utf8'));
  expect(index).toContain('1 tree has no inspection on record: its condition is unknown.');
  expect(index).toMatch(/"Path" , at Tree 1 , Court: hanger A/);
});

test('a closure that ends before the work does not make a failing tree wait: it is told, and the work is too late', async () => {
  const tree = (until: string) =>
    `tree 1\n  soil heaving\n${SEEN}${PATH}    closed 2026-05-01, until ${until}, by RV\n  prescription R1 fell\n    between 2026-06-20..2026-06-25\n`;
  const short = await reportOn(tree('2026-06-03'));
  expect(short.text).toMatch(
    /Keep people out today "Path" , at Tree 1 : the soil at the collar, heaving\. Closed already until June 3, 2026: keep it closed until the danger is gone\./,
  );
  expect(short.group('Now')).toContain(
    'keep people out from today; June 20–25, 2026, too late for its priority',
  );
  const long = await reportOn(tree('2026-12-31'));
  expect(long.text).toContain('Closed already until December 31, 2026');
  expect(long.group('Now')).not.toContain('too late');
});

test('power lines, a limitation that stands alone, permits in doubt and prices before tax are told', async () => {
  const line = '  conductor "Lane"\n    voltage 12.5 kV\n    distance 6 ft\n';
  const fell = '  prescription R1 fell\n    between 2026-10-01..2026-10-31\n    price 900 GBP\n';
  const folder = await folderWith({
    'a.wood': `site "Rectory"\n  region GB-ENG\n  limitation "no roots were uncovered"\n\nperson RV "Ruth Varga"\n  qualified consulting arborist\n\ntree 1\n  species Quercus robur\n  dbh 100 cm\n  height 20 m\n${SEEN}${fell}tree 2\n${SEEN}${line}tree 3\n${SEEN}${line}${DEAD_WOOD}`,
  });
  const text = pageText((await folder.run('report', '--for', 'client')).out);
  expect(text).toContain('People and things near it: power line "Lane", 12.5 kV, 6 ft away.');
  expect(text).toContain(
    '1 May 2026 from ground, basic level, by Ruth Varga. Power line "Lane", 12.5 kV, 6 ft away',
  );
  expect(text).toContain('Limitation no roots were uncovered');
  expect(text).toContain('Remove the tree. Its permit is not certain: see the tree.');
  expect(text).toContain('Prices are before tax.');
});

test('the office reads that trees were never inspected; keeping a tree instead of priced work can be accepted', async () => {
  const { text } = await reportOn('tree 1\n', 'office');
  expect(text).toContain('1 tree has no inspection on record');
  expect(text).toContain('Nothing on record is due.');
  const folder = await folderWith({
    'a.wood': `site "Yard"\n  region US-OR\n\nperson RV "Ruth Varga"\n  qualified consulting arborist\n\ntree 1\n${SEEN}  prescription K1 keep\n    because "habitat"\n${LATER}  prescription R1 clean\n    or K1\n${LATER}    price 90 USD\n`,
  });
  const client = pageText((await folder.run('report', '--for', 'client')).out);
  expect(client).toMatch(/Retain the tree as it is \(one of 2 alternatives\) – Yes: Retain/);
});

test('a wall that the last look did not read, work that was withdrawn and an error in the record are told', async () => {
  const wall =
    '  defect C cavity\n    on trunk at 6 m\n    diameter 60 cm\n    wall 20 cm at N, 20 cm at S, 20 cm at E, 20 cm at W\n';
  const look = await reportOn(
    `tree 1\n  species Fagus sylvatica\n  dbh 80 cm\n${SEEN.replace('2026-05-01', '2020-05-01')}${wall}${SEEN}`,
  );
  expect(look.group('Watch')).toBe('');
  expect(look.group('This season')).toContain('Have the wall of cavity C measured again');
  expect(look.chapter).toContain('Have the wall of cavity C measured again');
  const kept = await reportOn(
    `tree 1\n${SEEN}${DEAD_WOOD}  prescription R1 fell\n${LATER}    withdrawn 2026-05-20 "the owner wants it kept"\n`,
  );
  expect(kept.chapter).toContain('Withdrawn on May 20, 2026: Remove the tree (the owner wants it kept).');
  const dose = await reportOn(
    `tree 1\n  age mature\n${SEEN}  prescription R1 thin\n    dose 10 %\n    between 2026-05-10..2026-05-20\n  work R1 2026-05-12\n    dose 60 %\n`,
  );
  expect(dose.chapter).toContain('The dose of 60 % exceeds the limit');
});
