/** What a report says, and what it reads: `soundwood report` in a folder of its own. */

import { readFile, symlink, writeFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { folderWith, ON } from '../cli/folder.ts';
import { pageText } from './page-text.ts';

const SITE = `site "Fernhollow Court"
  region US-OR
  position 44.3127, -122.8714
  client "Fernhollow Court Owners"

person RV "Ruth Varga"
  qualified consulting arborist

crew ROPE "Rope crew"
  members RV
  rope 400 lb
`;

const TREES = `tree 14 "Lawn maple"
  species Acer macrophyllum
  position 44.31281, -122.87131
  dbh 41 in
  height 52 ft
  crown from 14 ft, 58 ft wide
  protected by "heritage tree list" permit TR-2291, until 2026-10-10, for pruning
  photo photos/whole.png
  inspection 2026-03-14 from rope
    by RV
    unseen "inside of cavity B: too dark"
  defect A cavity
    on trunk at 18 ft, facing SW
    diameter 26 in
    opening 9 in wide, 14 in tall
    depth > 11 in
    wall 2..4 in at SW, ~5 in at NE
  defect B cavity
    on trunk at 21 ft, facing SSW
    diameter 25 in
    depth unseen
  target "Play lawn"
    distance 12 ft
    occupied frequent
  conductor "Lane line"
    voltage 12.5 kV
    distance 30 ft
  nest check 2026-05-30 from rope
    by RV
    found none
  prescription R1 reduce
    height 52 ft to 46 ft
    spread 58 ft to 52 ft
    dose 18 %
    cuts up to 3 in, laterals 0.4
    between 2026-08-20..2026-11-30
    because "lighten the load on the cavities"
    by RV
    with ROPE
    exclusion 50 ft
    piece 200 lb
  follow-up F1 climbing inspection
    of A
    due 2026-05-01
    by RV
  accept follow-up-overdue for F1
    until 2027-03-01
    by RV
    because "the scaffold goes up later"

tree 15
  species Quercus garryana
  dbh 30 cm
  height 12 m
`;

/** The smallest picture: one pixel. */
const PIXEL = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII=',
  'base64',
);

const files = { 'site.wood': SITE, 'trees.wood': TREES, 'photos/whole.png': PIXEL };

test('a tree of which the check reports an error never needs nothing', async () => {
  const folder = await folderWith({
    'a.wood': `${SITE}\ntree 1\n  species Quercus garryana\n  dbh 41\n  inspection 2026-05-01 from ground\n`,
  });
  const { out } = await folder.run('report', '--for', 'client');
  const text = pageText(out);
  expect(text).toContain('1 tree needs a decision, work or another inspection. The details follow below.');
  expect(text).toContain('Its risk is not rated: that does not mean that it is low.');
  expect(text).toMatch(
    /not rated Nothing is prescribed, but the check reports an error in the record: it must be resolved first\./,
  );
  expect(text).not.toContain('Nothing beyond the next inspection');
});

test('what was seen of a tree never sounds better than its verdict', async () => {
  const tree = (tag: number, more: string) =>
    `tree ${tag}\n  species Alnus rubra\n  dbh 41 cm\n  height 18 m\n  crown from 6 m, 9 m wide\n${more}  follow-up F1 climbing inspection\n    due 2026-09-01\n`;
  const seen = '  inspection 2026-03-14 from ground\n';
  const folder = await folderWith({
    'a.wood': `${tree(1, seen)}${tree(2, '')}${tree(3, `  lean 24 deg toward ESE, steady\n${seen}`)}${tree(4, seen.replace('2026', '2027'))}`,
  });
  const text = pageText((await folder.run('report', '--for', 'client')).out);
  expect(text).toMatch(/Tree 1 No defect on record not rated/);
  expect(text).toMatch(/Tree 2 Not inspected not rated/);
  expect(text).toMatch(/Tree 4 Not inspected/);
  // One of its figures is within its limit; its weight may be beyond another one.
  expect(text).toMatch(/Tree 3 Lean: 24 deg of lean, may be beyond a limit not rated/);
});

test('for the client: seen, not seen, meaning, options, what is advised, in the units of the writer', async () => {
  const folder = await folderWith(files);
  const { code, out, err } = await folder.run('report', '--for', 'client');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const text = pageText(out);
  expect(text).toContain(
    '2 trees as of June 1, 2026. 1 of them inspected March 14, 2026 by Ruth Varga. 1 tree has no inspection on record: its condition is unknown. 1 tree needs a decision, work or another inspection',
  );
  expect(text).toContain(
    'Cavity A on trunk at 18 ft, facing SW : diameter there 26 in; opening 9 in wide, 14 in tall',
  );
  expect(text).toContain('depth > 11 in; sound wall 2–4 in at SW, ~5 in at NE');
  expect(text).toContain('Inside of cavity B: too dark (March 14, 2026).');
  expect(text).toContain('The depth of cavity B.');
  expect(text).toContain('height from 52 ft to 46 ft');
  expect(text).toContain('Have the tree inspected from a rope (A), by May 1, 2026 (overdue).');
  // What only the office needs.
  for (const code of ['R1', 'follow-up-overdue', 'Accepted by RV', 'stress ratio'])
    expect(text).not.toContain(code);
  const office = pageText((await folder.run('report', '--for', 'office')).out);
  expect(office).toMatch(/compared with the limit of 23 % \(/);
  // SE and NW were not read: neither the worst of A nor the way in which it is weakest is known.
  expect(office).toMatch(/A at least \d+ % not known/);
  expect(office).toContain('the scaffold goes up later');
  expect(text).toContain('Tree 15 Quercus garryana none on record');
  expect(text).not.toContain('Work order');
});

test('for the crew: an order for each open prescription, with what it allows', async () => {
  const folder = await folderWith(files);
  const text = pageText((await folder.run('report', '--for', 'crew')).out);
  expect(text).toMatch(
    /Work order 1: Reduce the crown, height from 52 ft to 46 ft.* \(R1\), Tree 14, Lawn maple/,
  );
  expect(text).toContain('Position 44.31281, -122.87131');
  // The check's limit for a maple.
  expect(text).toContain('Cuts up to 2 in');
  // The hollow may not be climbed, and the permit ends within the window.
  expect(text).toContain(
    'Who may climb nobody: see below Days allowed none until what is said below is settled',
  );
  expect(text).toContain('Permit TR-2291 ends on October 10, 2026.');
  expect(text).toContain('checked May 30, 2026 from rope: none');
  expect(text).toContain('Heaviest piece 200 lb Working load of the gear rope 400 lb');
  expect(text).toContain('Drop zone 52 ft around the trunk');
  expect(text).toContain('"Lane line" (12.5 kV), 30 ft from the crown or the work; energized');
  expect(text).toContain(
    'Nobody is within 52 ft of the trunk except those doing the work. Closed or empty: "Play lawn".',
  );
  expect(text).not.toContain('For the client');
});

test('an order holds what is found at its own prescription and at the tree, not at another one', async () => {
  const folder = await folderWith({
    'a.wood': `tree 1
  species Tilia cordata
  soil heaving
  inspection 2026-05-14 from ground
  prescription R1 reduce
    dose 60 %
    between 2026-09-14..2026-09-18
  prescription R2 fell
    stump leave
    between 2026-06-08..2026-06-12
    or R1
`,
  });
  const text = pageText((await folder.run('report', '--for', 'crew')).out);
  const [, first, second] = text.split(/Work order \d: /);
  expect(first).toContain('The dose of 60 % exceeds');
  expect(first).not.toContain('nesting season 1 March–31 August (common practice). No nest check');
  expect(second).toContain('of fell R2 lies in the nesting season');
  expect(second).not.toContain('The dose of 60 %');
  for (const order of [first, second])
    expect(order).toContain('The soil at the collar (heaving): the root plate is failing');
  expect(first).toContain('Instead of fell R2: only one of these is done.');
  expect(second).toContain('Instead of reduce R1: only one of these is done.');
});

test('an order whose days are not set, or past, names no lawful day but what to keep to', async () => {
  const order = async (between: string) => {
    const folder = await folderWith({
      'a.wood': `tree 1\n  prescription R1 thin\n    dose 10 %\n${between}`,
    });
    return pageText((await folder.run('report', '--for', 'crew')).out);
  };
  expect(await order('')).toMatch(/Window no days are set Before days are set Avoid the nesting season /);
  const past = await order('    between 2025-10-01..2025-10-31\n');
  expect(past).toMatch(/Window 1–31 October 2025 \(past\) Before days are set Avoid /);
  expect(past).not.toContain('Last day allowed');
});

test('for the office: inventory, findings, exceptions, due dates with what is overdue', async () => {
  const folder = await folderWith(files);
  const text = pageText((await folder.run('report', '--for', 'office')).out);
  expect(text).toContain('14 Lawn maple Acer macrophyllum 41 in 52 ft 58 ft cavity A, cavity B');
  expect(text).toContain('May 1, 2026 overdue 14 climbing inspection F1, Ruth Varga');
  expect(text).toContain('October 10, 2026 14 permit TR-2291 for reduce R1 ends');
  expect(text).toMatch(
    /Accepted exceptions .* Ruth Varga March 1, 2027 the scaffold goes up later follow-up-overdue trees.wood:\d+/,
  );
  expect(text).toMatch(/strength-loss trees.wood:\d+/);
});

test('--to writes the whole page to a file', async () => {
  const folder = await folderWith(files);
  expect(await folder.run('report', '--to', 'out.html', '--on', ON)).toEqual({
    code: 0,
    out: 'out.html: 2 trees; open it in a browser.\n1 error is not resolved: run soundwood check before the report leaves the office.\n',
    err: '',
  });
  const page = await readFile(folder.file('out.html'), 'utf8');
  expect(page).toMatch(/^<!DOCTYPE html>\n<html lang="en">/);
  for (const part of ['For the client', 'For the crew', 'For the office'])
    expect(page).toContain(`title">${part}</h2>`);
});

test('the same inventory gives the same page', async () => {
  const folder = await folderWith(files);
  expect((await folder.run('report')).out).toBe((await folder.run('report')).out);
});

test('photographs are in the page; what lies outside the folder or is no picture is not', async () => {
  const other = await folderWith({ 'secret.png': PIXEL });
  const folder = await folderWith({
    'court/site.wood': SITE,
    'court/photos/whole.png': PIXEL,
    'court/photos/text.jpg': 'just text',
    'above.png': PIXEL,
    'court/trees/a.wood': `tree 1
  dbh 10 in
  photo ../photos/whole.png
  photo ../photos/text.jpg
  photo ../../above.png
  photo ${other.file('secret.png')}
  photo ../photos/link.png
  photo gone.png
  prescription R1 thin
    dose 10 %
`,
  });
  await symlink(other.file('secret.png'), folder.file('court/photos/link.png'));
  const { out } = await folder.run('report', 'court', '--for', 'client');
  expect(out.split(`data:image/png;base64,${PIXEL.toString('base64')}`)).toHaveLength(2);
  const text = pageText(out);
  expect(text).toContain('Photograph ../photos/text.jpg is not a JPEG, PNG or WebP picture.');
  expect(text).toContain('Photograph ../../above.png is outside the folder of the site.');
  expect(text).toContain(`Photograph ${other.file('secret.png')} is outside the folder of the site.`);
  expect(text).toContain('Photograph ../photos/link.png is outside the folder of the site.');
  expect(text).toContain('Photograph gone.png does not exist.');
});

test('what could not be read is said in the page, on standard error and by the exit code', async () => {
  const folder = await folderWith({ ...files, 'bad.wood': Uint8Array.of(0xc3, 0x28) });
  const { code, out, err } = await folder.run('report');
  expect(code).toBe(2);
  expect(err).toContain('bad.wood is not UTF-8 text');
  expect(pageText(out)).toContain('Not everything could be read or computed : bad.wood is not UTF-8 text');
});

test('an inventory without trees, a mistake in a line: still a page', async () => {
  const folder = await folderWith({ 'site.wood': SITE });
  expect(pageText((await folder.run('report')).out)).toContain('0 trees as of 1 June 2026');
  await writeFile(folder.file('b.wood'), 'tree 1\n  dbh 41\n  prescription\n');
  const { code, out } = await folder.run('report');
  expect(code).toBe(0);
  expect(pageText(out)).toMatch(/error 1 .* b.wood:2/);
});

test('notes: of trees for every reader, of the site for those who go there; comments for nobody', async () => {
  const folder = await folderWith({
    'a.wood': `site "Fernhollow Court"
  region US-OR
  note "gate code from the office" # comment kept out

tree 1
  note "leans over the lane"
  inspection 2026-03-14 from ground
    note "after the storm"
  stem North
    note "forked low"
  defect A crack
    note "open 2 mm"
  joined A, B suspected
    note "sounds alike"
  target "Lane"
    note "school way"
  nest check 2026-05-30 from lift
    found none
    note "bare crown"
  prescription R1 thin
    dose 10 %
    note "rope only"
  follow-up F1 probe
    due 2026-08-01
    note "bring the long one"
`,
  });
  const of = async (reader: string) => pageText((await folder.run('report', '--for', reader)).out);
  const client = await of('client');
  for (const note of [
    'Leans over the lane.',
    'On March 14, 2026: After the storm.',
    'Stem North: Forked low.',
    'Open 2 mm.',
    'Sounds alike.',
    'Noted Rope only.',
    'Bring the long one.',
  ])
    expect(client).toContain(note);
  expect(client).not.toContain('ate code');
  const crew = await of('crew');
  for (const note of [
    'Noted Leans over the lane.',
    'Of the site Gate code from the office.',
    'School way.',
    'none. Bare crown.',
    'Noted Rope only.',
  ])
    expect(crew).toContain(note);
  const office = await of('office');
  expect(office).toContain('Fernhollow Court the site Gate code from the office.');
  expect(office).toContain('1 crack A Open 2 mm.');
  expect(office).toContain('1 probe F1 Bring the long one.');
  for (const page of [client, crew, office]) expect(page).not.toContain('comment kept out');
});

test('what cannot wait comes first, then the worst rated; the first page says by when', async () => {
  const risk = (rating: string) =>
    `  target "Lane"\n    distance 3 m\n  risk "Lane" from A\n    rating ${rating}\n`;
  const tree = (tag: number, more: string) =>
    `tree ${tag}\n  inspection 2026-03-1${tag} from ground\n    by RV\n  defect A crack\n${more}\n`;
  const folder = await folderWith({
    'people.wood': 'person RV "Ruth Varga"\n',
    'a.wood': `${tree(1, '')}${tree(2, risk('high'))}${tree(3, risk('extreme'))}${tree(4, '  prescription R1 thin\n    dose 80 %\n    between 2026-10-01..2026-10-31\n')}`,
  });
  const { out } = await folder.run('report', '--for', 'client');
  const tables = Object.fromEntries(
    [...out.matchAll(/<h3>(Now|This season|Watch) <small>(.*?)<\/table>/gs)].map(([, name, table]) => [
      name!,
      table!,
    ]),
  );
  const order = (table: string) => [...table.matchAll(/href="#tree-(\d)"/g)].map(found => found[1]);
  expect(order(tables.Now!).slice(0, 2)).toEqual(['3', '2']);
  expect(pageText(tables['This season']!)).toContain(
    'Tree 4 Crack not rated 1) Thin the crown, about 80 % of the foliage. Not settled: the check reports an error in this advice. Nothing on record is certain to address crack A in time: a qualified person has to decide. 1) 1–31 October 2026',
  );
  expect(pageText(out)).toMatch(
    /Keep people out today "Lane" , at Tree 3 : a risk rated extreme\. Nothing is prescribed yet: have a qualified person decide today\. .* 4 trees as of/,
  );
  // Advice that the check itself holds wrong does not go out unmarked.
  const [, advice] = /id="tree-4"(.*?)<\/article>/s.exec(out)!;
  expect(pageText(advice!)).toContain('Not settled: the check reports an error in this advice.');
  expect(pageText(/id="tree-1"(.*?)<\/article>/s.exec(out)![1]!)).not.toContain('Not settled');
});

test('what the site states of assignment and emergencies stands in the report; its head and pages are numbered in print', async () => {
  const folder = await folderWith({
    ...files,
    'site.wood': SITE.replace(
      '\n',
      `
  firm "Varga Tree Consulting"
  assignment "inspect what stands above the path"
  scope "all trees over 8 in"
  procedure "from the ground, in leaf"
  limitation "no roots were uncovered"
  limitation "no view from the lane"
  hospital "Hollow Creek Hospital"
  muster "gate on Mill Lane"
`,
    ),
  });
  const out = (await folder.run('report', '--for', 'client')).out;
  expect(pageText(out)).toContain(
    'Prepared by Varga Tree Consulting Assignment inspect what stands above the path Scope all trees over 8 in Procedure from the ground, in leaf Limitation no roots were uncovered Limitation no view from the lane',
  );
  expect(out).toContain('counter(pages)');
  expect(out).toContain(':root{--running:"Fernhollow Court, June 1, 2026"}');
  expect(pageText(out)).toMatch(/Signed Ruth Varga.* Signature Date Received for the client Signature Date/);
  const crew = pageText((await folder.run('report', '--for', 'crew')).out);
  expect(crew).toContain('Nearest hospital Hollow Creek Hospital Who to call');
  expect(crew).toContain('Muster point gate on Mill Lane');
  const without = await folderWith(files);
  expect(pageText((await without.run('report', '--for', 'crew')).out)).toContain(
    'Nearest hospital not on record: find it before going',
  );
});

test('instruments, decay in time and how a crack runs for the client; what one reading decides for the office', async () => {
  const folder = await folderWith({
    'a.wood': `site "Court"
  wind 40 m/s, exposure C

tree 1
  species Quercus robur
  dbh 80 cm
  height 20 m
  crown from 5 m, 12 m wide
  vigor good
  inspection 2026-03-14 from ground
  defect A decay
    on trunk at 1 m
    diameter 80 cm
    wall 4..16 cm
  defect B crack
    runs deep, into the soil
  defect C decay
    on trunk at 3 m
    diameter 70 cm
  drilling 2026-03-14 of C
    error 5 mm
    wall 90 mm at N, 80 mm at S
  support C1 cable
    installed 2020-05-04
    inspected 2025-06-10
`,
  });
  const owner = pageText((await folder.run('report', '--for', 'client', '--date', '2026-06-01')).out);
  expect(owner).toContain('runs deep and into the soil');
  expect(owner).toContain(
    'Resistance drilling of C on 14 March 2026: sound wall 90 mm at N, 80 mm at S; readings within 5 mm.',
  );
  const office = pageText((await folder.run('report', '--for', 'office', '--date', '2026-06-01')).out);
  expect(office).toMatch(
    /What one reading decides .*1 A alone, by its sound wall all round: .*crown length and spread/s,
  );
  expect(office).toContain('resistance drill, 14 March 2026 N 8.5–9.5 cm');
  expect(office).toContain('Thinnest wall over the years');
  expect(office).toContain('10 June 2026 1 cable C1: inspection');
  expect(office).toContain('3 May 2028 1 cable C1: end of its service life, replace it');
  expect(office).toContain('decay C: read the sound wall again');
});

test('the office sees the years of a tree that was visited twice, and of no other', async () => {
  const folder = await folderWith({
    'site.wood': SITE,
    'trees.wood': `tree 7 "Gate ash"
  inspection 2021-05-04 from ground
    dbh 20 in
  prescription R1 raise
    between 2021-09-15..2021-11-30
  inspection 2026-05-04 from ground
    dbh 22 in
tree 8
  inspection 2026-05-04 from ground
`,
  });
  const { out } = await folder.run('report', '--for', 'office', '--on', ON);
  expect(out).toContain('>Over the years</h2>');
  expect(out).toContain('alt="Tree 7 over the years: inspections: May 4, 2021 and May 4, 2026');
  expect(out).toContain('Raise R1, overdue since November 30, 2021.');
  expect(out).not.toContain('Tree 8 over the years');
});

const YEARS = `tree 7 "Gate ash"
  species Fraxinus latifolia
  dbh 60 cm
  height 18 m
  inspection 2022-04-12 from ground
    by RV
    photo photos/before.png, from 20 m, toward N
  prescription R1 reduce
    height 18 m to 15 m
    between 2022-10-01..2022-11-30
  work R1 2022-10-14
    photo photos/after.png, from 20 m, toward N
  inspection 2026-04-20 from ground
    by RV
    photo photos/roots.png, from 2 m

tree 8
  species Fraxinus latifolia
  inspection 2026-04-20 from ground
    photo photos/only.png
`;

/** A picture of its own size, so that it can be told from others. */
const PNG = (size: number) =>
  Buffer.concat([PIXEL.subarray(0, 16), Buffer.from([0, 0, 0, size]), PIXEL.subarray(20)]);

const yearsFiles = {
  'site.wood': SITE,
  'years.wood': YEARS,
  'photos/before.png': PNG(1),
  'photos/after.png': PNG(2),
  'photos/roots.png': PNG(3),
  'photos/only.png': PNG(4),
};

test('a page for each tree seen on several days: its years, and photographs before and after work', async () => {
  const folder = await folderWith(yearsFiles);
  for (const reader of ['client', 'office', 'all']) {
    const { code, out } = await folder.run('report', '--for', reader);
    expect(code).toBe(0);
    const pages = out.match(/<article class="years".*?<\/article>/gs) ?? [];
    expect(pages).toHaveLength(1);
    const text = pageText(pages[0]!);
    expect(text).toContain('Tree 7, Gate ash Fraxinus latifolia');
    expect(text).toContain(
      'The whole tree, before and after reduce R1 April 12, 2022, before reduce R1 ; from ground; 20 m away; looking N; photos/before.png October 14, 2022, after reduce R1 ; 20 m away; looking N; photos/after.png',
    );
    expect(text).toContain(
      'October 14, 2022 Reduce R1 done Photograph of the tree, reduce R1 done : photos/after.png April 20, 2026',
    );
    // No picture is in the page twice.
    const pictures = [...out.matchAll(/src="(data:image\/png[^"]*)"/g)].map(([, address]) => address);
    expect(new Set(pictures).size).toBe(pictures.length);
    expect(pictures.length).toBeGreaterThanOrEqual(3);
  }
  expect((await folder.run('report', '--for', 'crew')).out).not.toContain('before and after');
});
