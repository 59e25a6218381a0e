/** Nests, bats and pests by the rows of each place: what a row closes is found, and what lies beside it is not. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

interface About {
  readonly species?: string;
  /** Lines of the tree. */
  readonly tree?: string;
  readonly kind?: string;
  readonly between?: string;
  /** Lines of the prescription. */
  readonly more?: string;
}

const indented = (lines: string, by: string): string =>
  lines
    .split(';')
    .filter(Boolean)
    .map(line => `${by}${line.trimEnd().startsWith(' ') ? line : line.trim()}\n`)
    .join('');

/** What a rule says of work on a tree in a region, checked on the first day of the year. */
function told(rule: string, region: string, about: About) {
  const { species = 'Acer campestre', tree = '', kind = 'fell', between, more = '' } = about;
  const text = `site "Somewhere"
${region && `  region ${region}\n`}  grounds garden

tree 1
  species ${species}
  position 44.31281, -122.87131
${indented(tree, '  ')}  prescription R1 ${kind}
${kind === 'fell' ? '' : '    dose 5 %\n'}${between ? `    between ${between}..${between}\n` : ''}${indented(more, '    ')}`;
  const found = checkWorkspace(buildWorkspace([readFile('a.wood', text)]), parseDate('2026-01-01')!);
  expect(
    found.filter(({ grade }) => grade === 'syntax'),
    text,
  ).toEqual([]);
  return found.filter(finding => finding.rule === rule);
}

const levels = (...of: Parameters<typeof told>) => told(...of).map(({ level }) => level);

/** Region, the last day before the season, its first and last day, the first day after it. */
const NESTING = [
  ['', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['AT', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['AU', '2026-07-31', '2026-08-01', '2027-02-28', '2027-03-01'],
  ['AU-QLD', '2026-07-31', '2026-08-01', '2027-02-28', '2027-03-01'],
  ['BE-VLG', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['CA-BC', '2026-03-14', '2026-03-15', '2026-08-31', '2026-09-01'],
  ['CA-QC', '2026-03-14', '2026-03-15', '2026-08-31', '2026-09-01'],
  ['CH', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['DE', '2026-02-28', '2026-03-01', '2026-09-30', '2026-10-01'],
  ['DK', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['ES', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['FR', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['GB-ENG', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['GB-NIR', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['GB-SCT', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['IE', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['IT', '2026-02-28', '2026-03-01', '2026-07-31', '2026-08-01'],
  ['NL', '2026-03-14', '2026-03-15', '2026-07-15', '2026-07-16'],
  ['NZ', '2026-07-31', '2026-08-01', '2027-02-28', '2027-03-01'],
  ['PL', '2026-02-28', '2026-03-01', '2026-10-15', '2026-10-16'],
  ['SE', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['US-CA', '2026-01-31', '2026-02-01', '2026-08-31', '2026-09-01'],
  ['US-FL', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['US-OR', '2026-01-31', '2026-02-01', '2026-08-31', '2026-09-01'],
  ['US-TX', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['US-WA', '2026-01-31', '2026-02-01', '2026-08-31', '2026-09-01'],
  ['ZA', '2026-07-31', '2026-08-01', '2027-03-31', '2027-04-01'],
] as const;

describe('nesting seasons', () => {
  test.each(NESTING)('%s: not on %s, from %s to %s, not on %s', (region, before, first, last, after) => {
    const on = (between: string) => levels('nest-check-missing', region, { kind: 'reduce', between });
    expect([on(before), on(first), on(last), on(after)]).toEqual([[], ['error'], ['error'], []]);
  });

  test('birds breed all year in Singapore', () => {
    for (const between of ['2026-01-15', '2026-06-15', '2026-11-15'])
      expect(levels('nest-check-missing', 'SG', { kind: 'reduce', between })).toEqual(['error']);
  });

  test('A10: an unknown region has no season, and says so as an error', () => {
    for (const region of ['BR', 'KE', 'JP']) {
      expect(levels('nest-check-missing', region, { between: '2026-06-15' })).toEqual([]);
      expect(levels('region-without-pack', region, { between: '2026-06-15' })).toEqual(['error']);
    }
  });

  test('a nest in use counts where no season is on record, until a check finds it left', () => {
    const active = 'nest check 2025-12-20 from drone;  found active Turdus rufiventris';
    const left = `${active};nest check 2025-12-28 from drone;  found old Turdus rufiventris`;
    const on = (tree: string, between: string) =>
      levels('nest-active', 'BR', { kind: 'reduce', tree, between });
    expect(on(active, '2026-01-15')).toEqual(['warning']);
    expect(on(active, '2026-07-15')).toEqual(['warning']);
    expect(on(left, '2026-01-15')).toEqual([]);
  });

  test('A8: eagles in Florida nest from October to mid-May, other birds do not', () => {
    const on = (bird: string, between: string) => {
      const tree = `nest check 2025-12-20 from drone;  found active ${bird}`;
      return levels('nest-active', 'US-FL', { kind: 'reduce', tree, between });
    };
    const eagle = 'Haliaeetus leucocephalus';
    expect(on(eagle, '2026-02-10')).toEqual(['error']);
    expect(on(eagle, '2026-05-15')).toEqual(['error']);
    // In use out of its season: another check settles it.
    expect(on('Turdus migratorius', '2026-02-10')).toEqual(['warning']);
  });
});

/** Region, a bird whose empty nest stays, one whose nest does not; undefined where all stay. */
const EMPTY = [
  ['US', 'Haliaeetus leucocephalus', 'error', 'Turdus migratorius'],
  ['US-OR', 'Aquila chrysaetos', 'error', 'Turdus migratorius'],
  ['US-FL', 'Haliaeetus leucocephalus', 'error', 'Turdus migratorius'],
  ['GB-ENG', 'Pandion haliaetus', 'error', 'Turdus merula'],
  ['GB-WLS', 'Aquila chrysaetos', 'error', 'Turdus merula'],
  ['GB-SCT', 'Haliaeetus albicilla', 'warning', 'Turdus merula'],
  ['GB-NIR', 'Tyto alba', 'error', 'Turdus merula'],
  ['CA', 'Dryocopus pileatus', 'error', 'Turdus migratorius'],
  ['CA-ON', 'Ardea herodias', 'error', 'Turdus migratorius'],
  ['CA-BC', 'Pandion haliaetus', 'error', 'Turdus migratorius'],
  ['DK', 'Milvus milvus', 'error', 'Turdus merula'],
  ['DE', 'Turdus merula', 'error', undefined],
  ['HK', 'Turdus merula', 'error', undefined],
  ['FR', 'Turdus merula', 'warning', undefined],
] as const;

describe('A6, B7: empty nests', () => {
  const fell = (region: string, bird: string, more = '') => {
    const tree = `nest check 2025-12-20 from drone;  found old ${bird}`;
    return levels('empty-nest', region, { tree, between: '2026-01-20', more });
  };

  test.each(EMPTY)('%s: of %s: %s; of %s nothing', (region, bird, level, other) => {
    expect(fell(region, bird)).toEqual([level]);
    expect(fell(region, bird, 'permit P-1, until 2026-12-31')).toEqual([]);
    if (other) expect(fell(region, other)).toEqual([]);
  });

  test.each(['IE', 'NL', 'SE', 'NZ', 'ZA', 'BR', 'CH'])('%s keeps no empty nest on record', region => {
    expect(fell(region, 'Turdus merula')).toEqual([]);
  });

  // Of the birds of Schedule 1 seven nest in trees.
  test.each([
    ['Dryocopus pileatus', 36],
    ['Ardea alba', 24],
    ['Ardea herodias', 24],
    ['Bubulcus ibis', 24],
    ['Butorides virescens', 24],
    ['Egretta thula', 24],
    ['Nycticorax nycticorax', 24],
  ])('A7: in Canada that of %s is free %i months after notice', (bird, months) => {
    const years = 2026 - months / 12;
    expect(fell('CA-QC', bird, `notice ${years}-01-20`)).toEqual([]);
    expect(fell('CA-QC', bird, `notice ${years}-01-21`)).toEqual(['error']);
  });
});

/** Region, the last open day for felling a tree with a cavity, the first and the last closed, the first open. */
const BATS = [
  ['NZ', '2027-04-30', '2026-05-01', '2026-09-30', undefined],
  ['US-NY', '2026-03-31', '2026-04-01', '2026-10-31', '2026-11-01'],
  ['US-PA', '2026-03-31', '2026-04-01', '2026-11-15', '2026-11-16'],
  ['US-IL', '2026-03-31', '2026-04-01', '2026-09-30', '2026-10-01'],
  ['US-FL', '2026-04-15', '2026-04-16', '2026-08-14', '2026-08-15'],
  ['US-OR', '2026-04-14', '2026-04-15', '2026-08-31', '2026-09-01'],
  ['GB-ENG', '2026-04-30', '2026-05-01', '2026-08-31', '2026-09-01'],
  ['DE', '2026-04-30', '2026-05-01', '2026-08-31', '2026-09-01'],
  ['AU-VIC', '2026-09-30', '2026-10-01', '2027-02-28', '2027-03-01'],
  ['ZA', '2026-09-30', '2026-10-01', '2027-02-28', '2027-03-01'],
] as const;

describe('bats', () => {
  const fell = (region: string, between: string) =>
    told('bat-check-missing', region, { tree: 'defect A cavity', between });

  test.each(BATS)('%s: closed from %s, the day after, to %s', (region, before, first, last, after) => {
    const grade = (day: string | undefined) => day && fell(region, day).map(one => one.grade)[0];
    expect([grade(before), grade(first), grade(last), grade(after)]).toEqual([
      'stated',
      'exceeds',
      'exceeds',
      after && 'stated',
    ]);
  });

  test('A5: the remedy of New Zealand names days of March and April, and none of May to September', () => {
    const [found] = fell('NZ', '2026-06-15');
    const named = [...found!.remedy.matchAll(/\d{4}-(\d{2})-\d{2}/g)].map(([, month]) => Number(month));
    expect(named.length).toBeGreaterThan(0);
    for (const month of named) expect([3, 4]).toContain(month);
  });

  test('B6: in New York winter is the window, by the guidance for bats that roost in trees', () => {
    const [found] = fell('US-NY', '2026-06-15');
    expect(found!.message).toContain('the closed season for trees with bats 04-01..10-31');
    expect(found!.remedy).toMatch(/2026-12-|2027-01-|2027-02-/);
  });
});

/** Region, species, level, the last open day, the first and the last closed, the first open. */
const PESTS = [
  ['CA-AB', 'Ulmus americana', 'warning', '2026-03-31', '2026-04-01', '2026-09-30', '2026-10-01'],
  ['CA-SK', 'Ulmus americana', 'error', '2026-03-31', '2026-04-01', '2026-08-31', '2026-09-01'],
  ['CA-MB', 'Ulmus americana', 'warning', '2026-03-31', '2026-04-01', '2026-07-31', '2026-08-01'],
  ['US-TX', 'Quercus rubra', 'error', '2026-01-31', '2026-02-01', '2026-06-30', '2026-07-01'],
  ['US-NY', 'Quercus rubra', 'error', '2026-02-28', '2026-03-01', '2026-09-30', '2026-10-01'],
  ['US-MI', 'Quercus rubra', 'error', '2026-04-14', '2026-04-15', '2026-07-15', '2026-07-16'],
  ['US-MN', 'Quercus rubra', 'error', '2026-03-31', '2026-04-01', '2026-07-31', '2026-08-01'],
  ['US-WI', 'Quercus rubra', 'error', '2026-03-31', '2026-04-01', '2026-07-31', '2026-08-01'],
  ['US-IA', 'Quercus rubra', 'error', '2026-03-14', '2026-03-15', '2026-10-01', '2026-10-02'],
  ['US-MO', 'Quercus rubra', 'error', '2026-03-14', '2026-03-15', '2026-06-30', '2026-07-01'],
  ['US-OH', 'Quercus rubra', 'error', '2026-03-31', '2026-04-01', '2026-10-15', '2026-10-16'],
  ['GB-ENG', 'Ulmus glabra', 'warning', '2026-03-31', '2026-04-01', '2026-08-31', '2026-09-01'],
  ['NZ', 'Ulmus glabra', 'warning', '2026-09-30', '2026-10-01', '2027-02-28', '2027-03-01'],
  ['US-CA', 'Pinus radiata', 'warning', '2026-01-31', '2026-02-01', '2026-09-30', '2026-10-01'],
] as const;

describe('A12: pests of fresh wounds', () => {
  test.each(PESTS)('%s, %s: %s', (region, species, level, before, first, last, after) => {
    const on = (between: string) => levels('pruning-season', region, { species, kind: 'reduce', between });
    expect([on(before), on(first), on(last), on(after)]).toEqual([[], [level], [level], []]);
    // No other tree, and no other country.
    expect(
      levels('pruning-season', region, { species: 'Tilia cordata', kind: 'reduce', between: first }),
    ).toEqual([]);
    expect(levels('pruning-season', 'BR', { species, kind: 'reduce', between: first })).toEqual([]);
  });
});

/** Region, host, what is said of wood that leaves, and of nothing that is said, by felling. */
const WOOD = [
  ['CA-SK', 'Ulmus americana', 'error', 'warning'],
  ['CA-AB', 'Ulmus americana', 'error', 'warning'],
  ['CA-MB', 'Ulmus americana', 'warning', 'warning'],
  ['CA-ON', 'Fraxinus americana', 'warning', 'note'],
  ['US-MA', 'Acer rubrum', 'warning', 'note'],
  ['US-CA', 'Quercus agrifolia', 'warning', 'note'],
  ['US-TX', 'Quercus texana', 'warning', 'note'],
  ['GB-ENG', 'Picea abies', 'warning', 'note'],
  ['FR', 'Platanus hispanica', 'warning', 'note'],
  ['AU-WA', 'Tilia cordata', 'warning', 'note'],
] as const;

describe('wood under quarantine', () => {
  test.each(WOOD)(
    '%s, %s: %s where it leaves, %s where nothing is said',
    (region, species, leaves, unsaid) => {
      const on = (more: string) => levels('wood-under-quarantine', region, { species, more });
      expect([on('wood leaves'), on(''), on('wood stays'), on('wood leaves;permit P-1')]).toEqual([
        [leaves],
        [unsaid],
        [],
        [],
      ]);
    },
  );

  test.each(['US-OR', 'DE', 'NZ', 'ZA', 'BR', ''])('%s keeps no wood on record', region => {
    for (const species of ['Ulmus americana', 'Fraxinus americana', 'Picea abies', 'Platanus hispanica'])
      expect(levels('wood-under-quarantine', region, { species, more: 'wood leaves' })).toEqual([]);
  });
});
