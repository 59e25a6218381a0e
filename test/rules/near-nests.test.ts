/** A nest on one tree closes work, climbing and flights near it on others: in check, calendar and work orders alike. */

import { describe, expect, it } from 'vitest';
import { appointmentsOf } from '../../server/assess/appointments.ts';
import { contextIn } from '../../server/assess/assessment.ts';
import { workDays } from '../../server/assess/work-days.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile, type Workspace } from '../../server/facts/workspace.ts';
import { checkFile, checkWorkspace } from '../../server/rules/check.ts';

const TODAY = parseDate('2026-06-01')!;
/** 1° of latitude, m. */
const DEGREE = 111_195;

const SITE = 'site "Mill Lane"\n  region US-OR\n';
const HOST = `tree 1
  position 44.31281, -122.87131
  nest check 2026-05-28 from ground
    found active Turdus migratorius
`;

const worker = (metres: number, more = '', between = '2026-07-20..2026-09-12') => `tree 2
  position ${(44.31281 + metres / DEGREE).toFixed(6)}, -122.87131
${more}  prescription R1 cable
    for A
  prescription R2 reduce
    dose 5 %
    between ${between}
`;

const workspaceOf = (files: Readonly<Record<string, string>>, previous?: Workspace) =>
  buildWorkspace(
    Object.entries(files).map(([path, text]) => readFile(path, text, previous?.files.get(path))),
    previous,
  );

const near = (workspace: Workspace) =>
  checkWorkspace(workspace, TODAY).filter(({ rule }) => rule === 'nest-near');

describe('work near a nest in another tree', () => {
  // A robin: 100 ft, 30.5 m. Two positions may be off by 10 m each, and by their last digits.
  it.each([
    [5, 'exceeds'],
    [25, 'may exceed'],
    [45, 'may exceed'],
    [55, undefined],
  ])('%s m away: %s', (metres, grade) => {
    const text = `${SITE}\n${HOST}\n${worker(metres, '', '2026-06-20..2026-06-30')}`;
    expect(near(workspaceOf({ 'a.wood': text })).map(one => one.grade)).toEqual(grade ? [grade] : []);
  });

  it('reaches as near as the crowns do', () => {
    const text = `${SITE}\n${HOST}\n${worker(55, '  crown from 8 ft, 40 ft wide\n')}`;
    expect(near(workspaceOf({ 'a.wood': text }))).toHaveLength(1);
  });

  it('takes the office’s own error of positions', () => {
    const office = 'practice "Surveyed"\n  limit tree-position-error 0.1 m\n    because "total station"\n';
    const text = `${SITE}\n${office}\n${HOST}\n${worker(45)}`;
    expect(near(workspaceOf({ 'a.wood': text }))).toEqual([]);
  });

  it('counts over files and sites, and says which file', () => {
    const files = {
      'north/site.wood': `${SITE}\n${HOST}`,
      'south/site.wood': `${SITE}\n${worker(12)}`,
    };
    const [found] = near(workspaceOf(files));
    expect(found).toMatchObject({ file: 'south/site.wood', tree: '2', grade: 'may exceed' });
    expect(found!.message).toContain('tree 1 (site.wood)');
  });

  it('offers, in calendar and work orders too, only days after the season', () => {
    const workspace = workspaceOf({ 'a.wood': `${SITE}\n${worker(12)}\n${HOST}` });
    const file = workspace.files.get('a.wood')!;
    const [found] = near(workspace);
    expect(found!.remedy).toContain('2026-09-01..2026-09-12');
    const context = contextIn({ workspace, today: TODAY }, 'a.wood', file.trees[0]!.fact);
    const { open } = workDays(context, context.tree.prescriptions[1]!);
    expect(open.map(({ from, to }) => [formatDate(from), formatDate(to)])).toEqual([
      ['2026-09-01', '2026-09-12'],
    ]);
  });

  it('closes also the days that a nest check of the tree itself would open', () => {
    const checked = '  nest check 2026-05-31 from ground\n    found none\n';
    const text = `${SITE}\n${worker(12, checked, '2026-06-02..2026-06-05')}\n${HOST}`;
    const workspace = workspaceOf({ 'a.wood': text });
    const context = contextIn(
      { workspace, today: TODAY },
      'a.wood',
      workspace.files.get('a.wood')!.trees[0]!.fact,
    );
    const why = 'The nest found on 2026-05-28 in tree 1 (a.wood) closes the work.';
    expect(workDays(context, context.tree.prescriptions[1]!)).toMatchObject({ open: [], because: [{ why }] });
    const appointments = appointmentsOf(context).filter(({ subject }) => subject === 'R2');
    expect(appointments.map(({ kind }) => kind)).not.toContain('last day for work');
    expect(appointments.flatMap(({ notes }) => notes)).toContain(why);
  });

  it('names the hawk’s wider buffer, and a flight within it', () => {
    const flown = '  inspection 2026-05-30 from drone\n    level limited\n    flown 60 ft, stand-off 40 ft\n';
    const hawk = HOST.replace('Turdus migratorius', 'Buteo jamaicensis');
    const text = `${SITE}\n${hawk}\n${worker(90, flown, '2026-06-20..2026-06-30')}`;
    const workspace = workspaceOf({ 'a.wood': text });
    expect(near(workspace)[0]).toMatchObject({ grade: 'exceeds' });
    const flights = checkWorkspace(workspace, TODAY).filter(({ rule }) => rule === 'flight-near-nest');
    expect(flights[0]!.message).toMatch(
      /, \d+\.\.\d+ (?:ft|m) from a nest in use of Buteo jamaicensis in tree 1 \(a\.wood\)/,
    );
  });

  /** Region, bird, use, distance of the other tree, m, the work and its days: levels of nest-near. */
  it.each([
    // Bald eagles: 660 ft of work in season, and 330 ft of trees that stay at any date, in use or not.
    ['US-OR', 'active Haliaeetus leucocephalus', 170, 'reduce', '2026-06-20..2026-06-30', ['error']],
    ['US-OR', 'active Haliaeetus leucocephalus', 230, 'reduce', '2026-06-20..2026-06-30', []],
    ['US-OR', 'active Haliaeetus leucocephalus', 70, 'reduce', '2026-11-02..2026-11-06', []],
    ['US-OR', 'active Haliaeetus leucocephalus', 70, 'fell', '2026-11-02..2026-11-06', ['error']],
    ['US-OR', 'old Haliaeetus leucocephalus', 70, 'fell', '2026-11-02..2026-11-06', ['error']],
    ['US-OR', 'old Haliaeetus leucocephalus', 70, 'monolith', '2026-11-02..2026-11-06', ['warning']],
    ['US-OR', 'old Haliaeetus', 70, 'fell', '2026-11-02..2026-11-06', ['warning']],
    ['US-OR', 'old Haliaeetus leucocephalus', 130, 'fell', '2026-11-02..2026-11-06', []],
    // The same bird where the eagles nest in winter.
    ['US-FL', 'active Haliaeetus leucocephalus', 170, 'cable', '2026-06-20..2026-06-30', ['error']],
    ['US-FL', 'active Haliaeetus leucocephalus', 170, 'brace', '2026-11-02..2026-11-06', []],
    // 250 m, and to 500 m by the circumstances; empty nests keep no work away.
    ['GB-SCT', 'active Haliaeetus albicilla', 210, 'clean', '2026-06-20..2026-06-30', ['error']],
    ['GB-SCT', 'active Haliaeetus albicilla', 400, 'clean', '2026-06-20..2026-06-30', ['warning']],
    ['GB-SCT', 'active Haliaeetus albicilla', 560, 'clean', '2026-06-20..2026-06-30', []],
    ['GB-SCT', 'old Haliaeetus albicilla', 70, 'fell', '2026-11-02..2026-11-06', []],
    ['GB-ENG', 'active Haliaeetus albicilla', 230, 'clean', '2026-06-20..2026-06-30', []],
    // The months are from memory.
    ['AU-TAS', 'active Aquila audax', 450, 'clean', '2026-07-20..2026-07-30', ['warning']],
    ['AU-TAS', 'active Aquila audax', 900, 'clean', '2026-07-20..2026-07-30', ['warning']],
    ['AU-TAS', 'active Aquila audax', 1100, 'clean', '2026-07-20..2026-07-30', []],
  ])('%s: a nest found %s, %i m from %s on %s', (region, use, metres, kind, days, levels) => {
    const nest = HOST.replace('active Turdus migratorius', use);
    const job = `  prescription R1 ${kind}\n    between ${days}\n`;
    const other = `tree 2\n  position ${(44.31281 + metres / DEGREE).toFixed(6)}, -122.87131\n${job}`;
    const text = `${SITE.replace('US-OR', region)}\n${nest}\n${other}`;
    expect(near(workspaceOf({ 'a.wood': text })).map(({ level }) => level)).toEqual(levels);
  });

  it('has no distance for golden eagles in the United States until the office states one', () => {
    const nest = HOST.replace('active Turdus migratorius', 'active Aquila chrysaetos');
    const office = 'practice "Asked"\n  limit nest-buffer-eagle 1000 m\n    because "biologist"\n';
    const found = near(workspaceOf({ 'a.wood': `${SITE}\n${nest}` }));
    expect(found.map(({ message }) => message)).toEqual([
      expect.stringContaining('No distance between work and nests of Aquila chrysaetos is on record'),
    ]);
    expect(near(workspaceOf({ 'a.wood': `${SITE}\n${office}\n${nest}` }))).toEqual([]);
  });

  it('closes the days of work on a tree without a position beside a nest of its site', () => {
    const other =
      'tree 2\n  nest check 2026-05-31 from ground\n    found none\n  prescription R2 clean\n    between 2026-06-02..2026-06-05\n';
    const workspace = workspaceOf({ 'a.wood': `${SITE}\n${other}\n${HOST}` });
    expect(near(workspace).map(({ level }) => level)).toEqual(['warning']);
    const tree = workspace.files.get('a.wood')!.trees[0]!.fact;
    const context = contextIn({ workspace, today: TODAY }, 'a.wood', tree);
    const { open, because } = workDays(context, context.tree.prescriptions[0]!);
    expect(open).toEqual([]);
    expect(because.map(({ why }) => why)).toContain(
      'The nest found on 2026-05-28 in tree 1 (a.wood), at an unknown distance, closes the work.',
    );
  });

  it('follows the edits of the other tree', () => {
    const files = { 'a.wood': `${SITE}\n${HOST}`, 'b.wood': worker(5) };
    const before = workspaceOf(files);
    const count = (workspace: Workspace) =>
      checkFile(workspace, workspace.files.get('b.wood')!, TODAY).filter(({ rule }) => rule === 'nest-near')
        .length;
    expect(count(before)).toBe(1);
    const left = workspaceOf({ ...files, 'a.wood': files['a.wood'].replace('active', 'old') }, before);
    expect(count(left)).toBe(0);
    const back = workspaceOf(files, left);
    expect(count(back)).toBe(1);
  });
});
