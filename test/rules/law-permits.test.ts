/** Permits, notices and pruning shares by the rows of each place: beyond a row is found, within it is not. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

const TODAY = '2026-06-01';

interface Case {
  readonly species?: string;
  readonly tree?: string;
  readonly work?: string;
  readonly site?: string;
}

/** What the two rules say of one tree: their levels, and messages. */
function told(
  region: string,
  grounds: string,
  { species = 'Tilia cordata', tree = '', work = 'prescription R1 fell', site = '' }: Case,
) {
  const lines = (text: string, by: string) =>
    text
      .split(';')
      .filter(Boolean)
      .map(line => `${by}${line.trim()}\n`)
      .join('');
  const text = `site "Somewhere"
  region ${region}
${lines(`${grounds && `grounds ${grounds}`};${site}`, '  ')}
tree 1
  species ${species}
${lines(tree, '  ')}${lines(work, '  ')}`;
  const found = checkWorkspace(buildWorkspace([readFile('a.wood', text)]), parseDate(TODAY)!);
  expect(
    found.filter(({ grade }) => grade === 'syntax'),
    text,
  ).toEqual([]);
  return found.filter(({ rule }) => rule === 'permit-needed' || rule === 'share-by-law');
}

const levels = (...of: Parameters<typeof told>) => told(...of).map(({ level }) => level);

/** Region, land, species, size from which on, size below, the same size at a height that is not comparable. */
const SIZES = [
  ['AT-9', 'garden', 'Tilia cordata', 'girth 40 cm at 1 m', 'girth 39 cm at 1 m', 'girth 70 cm at 1.3 m'],
  ['PL', 'garden', 'Tilia cordata', 'girth 50 cm at 5 cm', 'girth 49 cm at 5 cm', 'girth 90 cm at 1.3 m'],
  ['PL', 'garden', 'Populus nigra', 'girth 80 cm at 5 cm', 'girth 79 cm at 5 cm', 'girth 90 cm at 1.3 m'],
  ['PL', 'garden', 'Acer negundo', 'girth 80 cm at 5 cm', 'girth 79 cm at 5 cm', 'girth 90 cm at 1.3 m'],
  ['PL', 'garden', 'Acer platanoides', 'girth 50 cm at 5 cm', 'girth 49 cm at 5 cm', 'girth 90 cm at 1.3 m'],
  [
    'PL',
    'garden',
    'Aesculus hippocastanum',
    'girth 65 cm at 5 cm',
    'girth 64 cm at 5 cm',
    'girth 90 cm at 1 m',
  ],
] as const;

describe.each(SIZES)('felling in %s, %s, %s', (region, grounds, species, from, below, elsewhere) => {
  test('from the size on', () => {
    expect(levels(region, grounds, { species, tree: from })).toEqual(['error']);
  });
  test('below it', () => {
    expect(levels(region, grounds, { species, tree: below })).toEqual([]);
  });
  test('at another height it is not comparable', () => {
    const [finding] = told(region, grounds, { species, tree: elsewhere });
    expect(finding?.level).toBe('warning');
    expect(finding?.message).toContain('not comparable');
  });
  test('with a permit', () => {
    const work = 'prescription R1 fell;  permit P-1, until 2026-12-31';
    expect(levels(region, grounds, { species, tree: from, work })).toEqual([]);
  });
});

describe('girth and diameter', () => {
  test('a diameter is at most the girth, which is at least twice as much, and nothing else is known', () => {
    const at = (dbh: string) => told('AT-9', 'garden', { tree: `dbh ${dbh} at 1 m` })[0];
    expect(at('20 cm')?.level).toBe('error');
    expect(at('19 cm')?.level).toBe('warning');
    expect(at('13 cm')?.message).toContain('not comparable');
  });

  test('a taped girth shows that a diameter is small, and where it is twice the threshold also that it is large', () => {
    const at = (girth: string) =>
      told('GB-ENG', 'garden', {
        tree: `girth ${girth}`,
        work: 'prescription R1 reduce;  dose 10 %',
        site: 'conservation-area "Mill Lane"',
      })[0]?.level;
    expect(at('14 cm')).toBeUndefined();
    expect(at('30 cm')).toBe('warning');
    expect(at('60 cm')).toBe('error');
  });

  test('a size at another height decides where it is twice the threshold, unless the height is unknown', () => {
    const at = (size: string) => told('AT-9', 'garden', { tree: size })[0]?.level;
    expect(at('girth 70 cm at 1.3 m')).toBe('warning');
    expect(at('girth 80 cm at 1.3 m')).toBe('error');
    expect(at('girth 80 cm at unseen')).toBe('warning');
  });

  test('no size on record is no small tree', () => {
    expect(levels('AT-9', 'garden', {})).toEqual(['warning']);
  });

  test('an unknown species takes the least size, and is told of', () => {
    const text = { species: 'Acer', tree: 'girth 60 cm at 5 cm' };
    expect(levels('PL', 'garden', text)).toEqual(['warning']);
  });
});

describe('what was not read is told as such, and is no error', () => {
  test.each([
    ['BE-BRU', 'garden', 'girth 90 cm at 1.5 m', 'second-hand'],
    ['BE-VLG', 'garden', 'girth 120 cm at 1 m', 'second-hand'],
    ['US-MA', 'street', 'dbh 20 in at 1 ft', 'from memory'],
    ['FR', 'street', 'dbh 40 cm', 'from memory'],
    ['GB-NIR', 'forest', 'dbh 40 cm', 'from memory'],
    ['GB-SCT', 'forest', 'dbh 40 cm', 'from memory'],
    ['HK', 'forest', 'dbh 40 cm', 'from memory'],
  ])('%s', (region, grounds, tree, words) => {
    const found = told(region, grounds, { tree });
    expect(found.map(({ level }) => level)).toEqual(['warning']);
    expect(found[0]!.message).toContain(words);
  });
});

describe('land', () => {
  test.each([
    ['CH', 'forest', ['error']],
    ['CH', 'garden', []],
    ['NL', 'farm', ['error']],
    ['NL', 'garden', []],
    ['US-MD', 'street', ['error']],
    ['US-MD', 'garden', []],
    ['IE', 'garden', []],
    ['IE', 'forest', ['warning']],
    ['GB-ENG', 'garden', []],
    ['GB-WLS', 'street', []],
    ['FR', 'garden', []],
    ['HK', 'garden', []],
  ])('%s, %s', (region, grounds, expected) => {
    expect(levels(region, grounds, { tree: 'dbh 40 cm at 1.3 m' })).toEqual(expected);
  });

  test('the license to fell in England looks at 8 cm at 1.3 m, and at the volume of the quarter', () => {
    expect(levels('GB-ENG', 'forest', { tree: 'dbh 7.9 cm at 1.3 m' })).toEqual([]);
    const [finding] = told('GB-ENG', 'forest', { tree: 'dbh 30 cm at 1.3 m' });
    expect(finding?.message).toContain('5 m³ in a calendar quarter');
  });

  test.each(['US-OR', 'GB', 'DE', 'DK', 'ES', 'IT', 'SE', 'CA', 'NZ', 'AU', 'US-FL'])(
    '%s has no permit on record, and no other country’s',
    region => expect(levels(region, 'street', { tree: 'dbh 90 cm' })).toEqual([]),
  );
});

describe('orders and conservation areas', () => {
  const reduce = (notice: string, days = '') =>
    `prescription R1 reduce;  dose 10 %${notice && `;  notice ${notice}`}${days && `;  between ${days}`}`;
  const area = (work: string) =>
    levels('GB-ENG', 'garden', { tree: 'dbh 40 cm', work, site: 'conservation-area "Mill Lane"' });

  test('six weeks from the notice, to the day', () => {
    expect(area(reduce(''))).toEqual(['error']);
    expect(area(reduce('2026-05-04', '2026-06-14..2026-06-16'))).toEqual(['error']);
    expect(area(reduce('2026-05-04', '2026-06-15..2026-06-16'))).toEqual([]);
  });

  test('the day that the remedy names is open', () => {
    const [finding] = told('GB-ENG', 'garden', {
      tree: 'dbh 40 cm',
      work: reduce('2026-05-04', '2026-06-10..2026-06-16'),
      site: 'conservation-area "Mill Lane"',
    });
    expect(finding?.message).toContain('2026-06-15');
    // Clear of the nesting season as well.
    expect(finding?.remedy).toMatch(/^Move the work to 2026-09-01/);
  });

  test('a tree of 75 mm at 1.5 m and more', () => {
    const of = (dbh: string) =>
      levels('GB-ENG', 'garden', { tree: `protected under conservation area;dbh ${dbh}`, work: reduce('') });
    expect(of('7.4 cm')).toEqual([]);
    expect(of('7.6 cm')).toEqual(['error']);
  });

  test('an order wants consent; for a dead tree five days’ notice are enough', () => {
    const of = (tree: string, notice: string) =>
      levels('GB-ENG', 'garden', {
        tree: `dbh 40 cm;protected under order by "order 12"${tree}`,
        work: `prescription R1 fell${notice}`,
      });
    expect(of('', '')).toEqual(['error']);
    expect(of('', ';  notice 2026-05-20')).toEqual(['error']);
    expect(of(';vigor dead', ';  notice 2026-05-20')).toEqual([]);
    expect(of(';vigor dead', ';  notice 2026-05-30;  between 2026-06-02..2026-06-03')).toEqual(['error']);
  });

  test('Singapore: girth over 1 m in a conservation area', () => {
    const of = (girth: string) =>
      levels('SG', 'open', { tree: `girth ${girth} at 0.5 m`, site: 'conservation-area "North"' });
    expect(of('1.1 m')).toEqual(['error']);
    expect(of('0.9 m')).toEqual([]);
    expect(levels('SG', 'open', { tree: 'girth 1.1 m at 0.5 m' })).toEqual([]);
  });
});

describe('shares of the crown', () => {
  const prune = (dose: string, before = '') => `${before}prescription R1 reduce;  dose ${dose}`;
  const earlier = (day: string, dose: string) =>
    `prescription R0 reduce;  dose ${dose};work R0 ${day};  dose ${dose};`;

  test('South Australia: 30 % in five years of a regulated tree', () => {
    const of = (girth: string, work: string) =>
      levels('AU-SA', 'garden', { tree: `girth ${girth} at 1 m`, work });
    expect(of('1.2 m', prune('29 %'))).toEqual([]);
    expect(of('1.2 m', prune('35 %'))).toEqual(['warning']);
    expect(of('1.2 m', prune('20 %', earlier('2023-07-01', '20 %')))).toEqual(['warning']);
    expect(of('1.2 m', prune('20 %', earlier('2020-07-01', '20 %')))).toEqual([]);
    expect(of('0.9 m', prune('35 %'))).toEqual([]);
  });

  test('South Africa: a quarter of a tree on the list', () => {
    const of = (tree: string, work: string) => levels('ZA', 'garden', { tree, work });
    expect(of('protected under list', prune('25 %'))).toEqual([]);
    expect(of('protected under list', prune('26 %'))).toEqual(['error']);
    expect(of('protected under list', 'prescription R1 fell')).toEqual(['error']);
    expect(of('', prune('26 %'))).toEqual([]);
  });

  test('Poland: 30 % in the whole life', () => {
    const of = (work: string) => levels('PL', 'garden', { work });
    expect(of(prune('30 %'))).toEqual([]);
    expect(of(prune('20 %', earlier('2009-07-01', '20 %')))).toEqual(['error']);
  });

  test.each(['US-OR', 'GB-ENG', 'DE', 'FR', 'NZ'])('%s states none', region => {
    expect(levels(region, 'street', { work: prune('60 %') })).toEqual([]);
  });
});
