import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import schema from '../../server/show/history.schema.json';
import { sampleFiles } from '../samples/sample-files.ts';
import { folderWith } from './folder.ts';

const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);

const fernhollow = () =>
  folderWith(Object.fromEntries(sampleFiles('fernhollow').map(({ path, text }) => [path, text])));

const LIME = `site "Court"
  interval 2 years

person RV "Ruth Varga"

tree 1 "Lime"
  species     Tilia cordata
  vigor       good
  dbh         19 in

  inspection 2016-05-04 from ground
    by        RV
    dbh       20 in
    height    50 ft

  defect A cavity
    on        trunk at 4 ft
    diameter  20 in
    wall      6 in at N, 6 in at E, 6 in at S, 6 in at W
    photo     photos/a.jpg

  prescription R1 raise
    between   2016-09-15..2016-11-30
    because   "headroom"
    permit    TR-7, until 2017-01-31

  work R1 2016-10-12
    unfinished "the limb toward the house"

  inspection 2026-05-04 from ground
    dbh       22 in
    height    54 ft

  defect A cavity
    wall      5 in at N, 5.6 in at E, 6 in at S, 6 in at W

  inspection 2028-05-04 from ground
`;

interface Told {
  readonly events: readonly { on: string; kind: string; what: string; says: string }[];
  readonly growth: readonly { size: string; rate: readonly [number, number] }[];
  readonly contradicted: readonly string[];
  readonly changes: readonly {
    of: string;
    rate: readonly [number, number] | null;
    limitFrom: string | null;
  }[];
  readonly decay: readonly { change: readonly [number, number]; limitFrom: string }[];
  readonly promised: readonly { what: string; due: string; overdue: boolean; left: string | null }[];
  readonly hasLater: boolean;
}

async function told(text: string, ...args: string[]): Promise<Told> {
  const folder = await folderWith({ 'court.wood': text });
  const { code, out } = await folder.run('history', '1', '--format', 'json', ...args);
  expect(code).toBe(0);
  const report = JSON.parse(out);
  expect(validate(report), JSON.stringify(validate.errors)).toBe(true);
  return report.trees[0];
}

describe('a lime seen in two years', () => {
  test('what happened, by day, in the words of the record', async () => {
    const { events, hasLater } = await told(LIME);
    expect(events.map(({ on, kind, what }) => `${on} ${kind}: ${what}`)).toEqual([
      '2016-05-04 inspection: inspection from ground',
      '2016-05-04 reading: defect A cavity',
      '2016-05-04 prescription: prescription R1 raise',
      '2016-05-04 permit: permit TR-7 for raise R1',
      '2016-05-04 photograph: photograph of defect A cavity',
      '2016-10-12 work: raise R1 done in part',
      '2017-01-31 permit: end of permit TR-7 for raise R1',
      '2026-05-04 inspection: inspection from ground',
      '2026-05-04 reading: defect A cavity',
    ]);
    expect(events[8]!.says).toBe('wall 5 in at N, 5.6 in at E, 6 in at S, 6 in at W');
    expect(hasLater).toBe(true);
  });

  test('growth: two inches in ten years, give or take 3 % of twenty inches', async () => {
    const { growth } = await told(LIME);
    const inch = 0.0254;
    const [diameter, height] = growth;
    expect(diameter!.size).toBe('diameter');
    expect(diameter!.rate[0] / inch).toBeCloseTo((2 - 0.6) / 10, 3);
    expect(diameter!.rate[1] / inch).toBeCloseTo((2 + 0.6) / 10, 3);
    // 10 % of 50 ft is more than it grew.
    expect(height!.rate[0] / 0.3048).toBeCloseTo((4 - 5) / 10, 3);
    expect(height!.rate[1] / 0.3048).toBeCloseTo((4 + 5) / 10, 3);
  });

  test('a height before a storm tells no growth; a stem does not shrink', async () => {
    const stormy = await told(LIME.replace('interval 2 years', 'interval 2 years\n  storm 2020-01-13'));
    expect(stormy.growth.map(({ size }) => size)).toEqual(['diameter']);
    const slow = await told(LIME.replace('22 in', '20.1 in'));
    expect(slow.growth[0]!.rate[0]).toBe(0);
  });

  test('decay: the fastest and the slowest bearing', async () => {
    const [course] = (await told(LIME)).decay;
    expect(course!.change[0] / 0.0254).toBeCloseTo(-0.1, 3);
    expect(course!.change[1]).toBeCloseTo(0, 6);
  });

  test('what was promised and not done', async () => {
    const { promised } = await told(LIME);
    expect(promised[0]).toEqual({
      what: 'raise R1',
      due: '2016-11-30',
      overdue: true,
      left: 'the limb toward the house',
    });
    expect(promised.find(({ what }) => what === 'next inspection')).toMatchObject({
      // With an open defect, a year, whatever the site asks of sound trees.
      due: '2027-05-04',
      overdue: false,
    });
    const done = `${LIME}\n  work R1 2026-05-20\n`;
    expect((await told(done)).promised.map(({ what }) => what)).not.toContain('raise R1');
  });

  test('a lean, a dieback and a share: rates with their error, and sizes that contradict each other', async () => {
    const { changes, contradicted, growth } = await told(
      LIME.replace('dbh       22 in', 'dbh       18 in\n    lean      6 deg toward N, steady')
        .replace('height    50 ft', 'lean      5 deg toward N\n    dieback   10 %')
        .replace('height    54 ft', 'dieback   15 %'),
    );
    expect(contradicted).toEqual(['diameter']);
    expect(growth).toEqual([]);
    const [lean, dieback] = changes;
    expect(lean).toMatchObject({ of: 'lean', limit: 15, unit: 'deg' });
    expect(lean!.rate![0]).toBeCloseTo(-0.1, 3);
    expect(lean!.rate![1]).toBeCloseTo(0.3, 3);
    // 9 degrees at 0.3 a year.
    expect(lean!.limitFrom).toMatch(/^2056-05-0/);
    expect(dieback!.rate![1]).toBeCloseTo(0.015, 5);
  });

  test('the next inspection is sooner where the readings ask for it', async () => {
    const slow = LIME.replace(/ {2}defect A(.|\n)*?\n\n/g, '');
    const leaning = slow
      .replace('2016-05-04 from ground', '2024-05-04 from ground\n    lean      9 deg toward N, steady')
      .replace('2026-05-04 from ground', '2026-05-04 from ground\n    lean      11 deg toward N, steady');
    const next = ({ promised }: Told) => promised.find(({ what }) => what.startsWith('next inspection'))!;
    expect(next(await told(slow)).due).toBe('2028-05-03');
    // 4 degrees at 2 a year: 2 years, half of it.
    expect(next(await told(leaning))).toMatchObject({
      what: 'next inspection (the lean may reach its limit as early as 2028-05-03)',
      due: '2027-05-04',
    });
  });

  test('up to another day', async () => {
    const { events, growth } = await told(LIME, '--date', '2016-10-01');
    expect(events.at(-1)!.on).toBe('2016-05-04');
    expect(growth).toEqual([]);
  });
});

test('as text, for all trees or for one', async () => {
  const folder = await fernhollow();
  const { code, out } = await folder.run('history', 'V-01');
  expect(code).toBe(0);
  expect(out).toContain('  January 9, 2022    removal of limb L2: broke off in the January storm\n');
  expect(out).toContain('  March 12, 2026     defect B wound: state healed\n');
  expect(out).toContain('Diameter: 27.4 in on May 16, 2023, 28 in on March 12, 2026: 0–0.51 in a year');
  expect(out).not.toContain('Tree V-02');
  expect(out.split('\n').filter(line => line.length > 96)).toEqual([]);
  expect((await folder.run('history')).out).toContain('Tree V-02');
});

test('a timeline is of one tree, and marks differ in shape', async () => {
  const folder = await fernhollow();
  expect(await folder.run('history', '--format', 'svg')).toMatchObject({
    code: 2,
    out: '',
    err: expect.stringContaining('--format svg draws a single tree'),
  });
  const { code, out } = await folder.run('history', 'V-01', '--format', 'svg');
  expect(code).toBe(0);
  expect(out).toMatch(/^<svg .*viewBox="0 0 320 \d+" width="320"/);
  expect(out).toContain('work: October 12, 2021 and November 16, 2021');
  expect(out).toContain('may be down to its limit from September 5, 2051');
  const marks = [
    ...out.matchAll(/<path class="(?:solid|void|ink)" stroke-width="1.5" d="M[\d. -]+([a-z][^"]*)"/g),
  ];
  expect(new Set(marks.map(([, path]) => path)).size).toBeGreaterThan(3);
});

test('a tag that is not there is told, with the nearest', async () => {
  const folder = await folderWith({ 'court.wood': 'tree 12\n' });
  expect(await folder.run('history', '13')).toMatchObject({
    code: 2,
    err: expect.stringContaining('there is no tree 13'),
  });
});

test('a wall that was below its limit when it was read is to be measured now', async () => {
  const folder = await folderWith({
    'a.wood':
      'site "Court"\n  region GB-ENG\n\ntree 1\n  species Tilia cordata\n  age mature\n  dbh 80 cm\n\n  inspection 2026-05-04 from ground\n\n  defect A cavity\n    on trunk at 1 m\n    diameter 80 cm\n    wall 5 cm at N, 5 cm at E, 5 cm at S, 5 cm at W\n',
  });
  const { out } = await folder.run('history', '.', '--date', '2026-11-30');
  expect(out.replace(/\s+/g, ' ')).toContain(
    'It is already below a sixth of the diameter; measure it again now.',
  );
});
