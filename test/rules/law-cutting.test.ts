/** Cutting bans by the land and the row of each place: on closed days they are found, beside them they are not. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

interface Work {
  readonly kind?: string;
  readonly more?: string;
  /** Lines of the tree itself. */
  readonly tree?: string;
}

/** What `cutting-ban` says of work on these days. */
function banned(
  region: string,
  grounds: string,
  days: string,
  { kind = 'fell', more = '', tree = '' }: Work = {},
) {
  const text = `site "Somewhere"
  region ${region}
${grounds === '' ? '' : `  grounds ${grounds}\n`}
tree 1
  species Fraxinus excelsior
${tree}  prescription R1 ${kind}
    dose 10 %
    between ${days}
${more}`.replace(kind === 'fell' || kind === 'monolith' ? '    dose 10 %\n' : '\0', '');
  const workspace = buildWorkspace([readFile('a.wood', text)]);
  const found = checkWorkspace(workspace, parseDate('2026-01-15')!);
  expect(found.filter(({ grade }) => grade === 'syntax')).toEqual([]);
  return found.filter(({ rule }) => rule === 'cutting-ban');
}

const levels = (...work: Parameters<typeof banned>) => banned(...work).map(({ level }) => level);

/** Region, land, kind of work, the last open day, the first and the last closed day, the first open one. */
const BANS = [
  ['DE', 'street', 'fell', '2026-02-28', '2026-03-01', '2026-09-30', '2026-10-01'],
  ['DE', 'open', 'monolith', '2026-02-28', '2026-03-01', '2026-09-30', '2026-10-01'],
  ['IE', 'open', 'fell', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['IE', 'farm', 'reduce', '2026-02-28', '2026-03-01', '2026-08-31', '2026-09-01'],
  ['BE-BRU', 'garden', 'fell', '2026-03-31', '2026-04-01', '2026-08-15', '2026-08-16'],
  ['FR-67', 'street', 'reduce', '2026-03-14', '2026-03-15', '2026-07-31', '2026-08-01'],
  ['FR-68', 'garden', 'fell', '2026-03-14', '2026-03-15', '2026-07-31', '2026-08-01'],
  ['FR-88', 'street', 'fell', '2026-03-15', '2026-03-16', '2026-08-15', '2026-08-16'],
  ['FR-90', 'open', 'thin', '2026-03-14', '2026-03-15', '2026-08-31', '2026-09-01'],
] as const;

describe.each(BANS)('%s, %s, %s', (region, grounds, kind, before, first, last, after) => {
  test('open up to the day before, and from the day after', () => {
    expect(levels(region, grounds, `${before}..${before}`, { kind })).toEqual([]);
    expect(levels(region, grounds, `${after}..${after}`, { kind })).toEqual([]);
  });

  test('closed from the first day to the last, and the remedy names open days', () => {
    for (const day of [first, last]) {
      const [finding] = banned(region, grounds, `${day}..${day}`, { kind });
      expect(finding?.level).toBe('error');
      expect(finding?.message).toContain(', law)');
      const named = finding!.remedy.match(/Move the work to (\d{4}-\d{2}-\d{2})/)?.[1];
      expect(named).toBeDefined();
      expect(levels(region, grounds, `${named}..${named}`, { kind })).toEqual([]);
    }
  });

  test('days half open may be kept', () => {
    expect(levels(region, grounds, `${before}..${first}`, { kind })).toEqual(['warning']);
  });
});

/** What is in the tree: region, lines of the tree, the last open day, the first and the last closed, the first open. */
const OF_TREES = [
  ['DK', 'defect A cavity', 'error', '2026-10-31', '2026-11-01', '2027-08-31', '2027-09-01'],
  ['DK', 'defect A woodpecker holes', 'error', '2026-10-31', '2026-11-01', '2027-08-31', '2027-09-01'],
  ['DK', 'defect A decay', 'warning', '2026-10-31', '2026-11-01', '2027-08-31', '2027-09-01'],
  ['DK', 'nest Ardea cinerea', 'error', '2026-01-31', '2026-02-01', '2026-07-31', '2026-08-01'],
  ['DK', 'nest Buteo buteo', 'error', '2026-01-31', '2026-02-01', '2026-08-31', '2026-09-01'],
  ['DK', 'nest', 'warning', '2026-01-31', '2026-02-01', '2026-08-31', '2026-09-01'],
  ['US-HI', 'height 15 ft', 'warning', '2026-05-31', '2026-06-01', '2026-09-15', '2026-09-16'],
  ['US-NY', 'defect A loose bark', 'warning', '2026-02-28', '2026-03-01', '2026-03-31', '2026-04-01'],
  ['US-NY', 'defect A loose bark', 'warning', '2026-10-31', '2026-11-01', '2026-11-30', '2026-12-01'],
] as const;

describe.each(OF_TREES)('%s, a tree with %s: %s', (region, about, level, before, first, last, after) => {
  const lines = about.startsWith('nest')
    ? `nest check 2026-01-10 from ground\n    found old${about.slice(4)}`
    : about;
  const tree = `  ${lines}\n  inspection 2026-01-10 from ground\n    level basic\n`;
  const on = (day: string) => levels(region, 'garden', `${day}..${day}`, { tree });

  test('closed from the first day to the last, and not beside', () => {
    expect([on(before), on(first), on(last), on(after)]).toEqual([[], [level], [level], []]);
  });
});

describe('trees', () => {
  test('a sound tree, a songbird’s nest and a low tree are free; a tree that nobody inspected is not known', () => {
    const inspected = '  inspection 2026-01-10 from ground\n    level basic\n';
    const nest = '  nest check 2026-01-10 from ground\n    found old Turdus merula\n';
    expect(levels('DK', 'garden', '2026-03-02..2026-03-02', { tree: nest + inspected })).toEqual([]);
    expect(levels('DK', 'garden', '2026-03-02..2026-03-02')).toEqual(['warning']);
    expect(levels('US-HI', 'garden', '2026-07-02..2026-07-02', { tree: '  height 14 ft\n' })).toEqual([]);
    const [unknown] = banned('US-HI', 'garden', '2026-07-02..2026-07-02', { kind: 'clean' });
    expect(unknown?.message).toContain('trees of 15 ft and more 06-01..09-15');
    expect(unknown?.message).toContain('the height of the tree is not on record');
  });

  test('the remedy for a hollow tree names September or October', () => {
    const more = '  defect A cavity\n';
    const [found] = banned('DK', 'garden', '2026-12-01..2026-12-03', { more });
    expect(found?.remedy).toContain('Move the work to 2027-09-01..2027-09-03');
  });

  test('a check for nests is not asked for where a ban closes the days whatever it finds', () => {
    const text = (land: string) =>
      `site "S"\n  region DE\n  grounds ${land}\ntree 1\n  prescription R1 fell\n    between 2026-05-04..2026-05-08\n`;
    const rulesFor = (land: string) =>
      checkWorkspace(buildWorkspace([readFile('a.wood', text(land))]), parseDate('2026-01-15')!)
        .map(({ rule }) => rule)
        .filter(rule => rule === 'cutting-ban' || rule === 'nest-check-missing');
    expect(rulesFor('street')).toEqual(['cutting-ban']);
    expect(rulesFor('garden')).toEqual(['nest-check-missing']);
    expect(rulesFor('private').toSorted()).toEqual(['cutting-ban', 'nest-check-missing']);
  });
});

describe('land', () => {
  const may = '2026-05-04..2026-05-08';

  test('gardens and forests are out of the German ban, streets are in, the rest is asked', () => {
    expect(levels('DE', 'garden', may)).toEqual([]);
    expect(levels('DE', 'forest', may)).toEqual([]);
    expect(levels('DE', 'private', may)).toEqual(['warning']);
    expect(levels('DE', '', may)).toEqual(['warning']);
    expect(banned('DE', '', may)[0]!.message).toContain('the land of the tree is not recorded');
  });

  test('in France the country has a season for farms with aid alone', () => {
    expect(levels('FR', 'street', may)).toEqual([]);
    expect(levels('FR', 'farm', may)).toEqual(['warning']);
    expect(banned('FR', 'farm', may)[0]!.message).toContain(
      'it binds only farmers with aid of the common policy',
    );
  });

  test('what is from memory is told as such, and never as an error', () => {
    expect(levels('GB-NIR', 'farm', may)).toEqual(['warning']);
    expect(levels('BE-VLG', 'forest', may)).toEqual(['warning']);
    expect(banned('BE-VLG', 'forest', may)[0]!.message).toContain('from memory');
    expect(levels('BE-VLG', 'street', may)).toEqual([]);
  });

  test.each(['US-OR', 'GB', 'GB-ENG', 'NL', 'CH', 'PL', 'NZ', 'ZA', 'AU-SA', 'SG', 'HK', 'CA', 'BR'])(
    '%s has no ban on record, and no other country’s',
    region => expect(levels(region, 'street', may)).toEqual([]),
  );
});

describe('work', () => {
  const may = '2026-05-04..2026-05-08';

  test('gentle cuts are free in Germany, a pollard may not be', () => {
    expect(levels('DE', 'street', may, { kind: 'clean' })).toEqual([]);
    expect(levels('DE', 'street', may, { kind: 'pollard' })).toEqual(['warning']);
  });

  test('pruning by hand is free in Brussels', () => {
    expect(levels('BE-BRU', 'street', may, { kind: 'reduce' })).toEqual(['warning']);
  });

  test('an exemption opens its days', () => {
    const until = (day: string) => ({ more: `    exemption "office, letter 44", until ${day}\n` });
    expect(levels('DE', 'street', may, until('2026-05-08'))).toEqual([]);
    expect(levels('DE', 'street', may, until('2026-05-06'))).toEqual(['warning']);
    expect(levels('DE', 'street', may, until('2026-04-30'))).toEqual(['error']);
  });

  test('what safety asks for at once is asked of the authority, where the law lets it pass', () => {
    const extreme = { more: '  defect A crack\n    on trunk at 1 m\n    state increasing\n' };
    const [finding] = banned('DE', 'street', may, extreme);
    expect(finding?.level).toBe('warning');
    expect(finding?.remedy).not.toContain('Move the work');
    expect(banned('FR-67', 'street', may, extreme)[0]?.level).toBe('error');
  });
});
