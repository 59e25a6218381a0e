/** Cutting bans by the land and the row of each place: on closed days they are found, beside them they are not. */

import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

interface Work {
  readonly kind?: string;
  readonly more?: string;
}

/** What `cutting-ban` says of work on these days. */
function banned(region: string, grounds: string, days: string, { kind = 'fell', more = '' }: Work = {}) {
  const text = `site "Somewhere"
  region ${region}
${grounds === '' ? '' : `  grounds ${grounds}\n`}
tree 1
  species Fraxinus excelsior
  prescription R1 ${kind}
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

describe('land', () => {
  const may = '2026-05-04..2026-05-08';

  test('gardens and forests are out of the German ban, streets are in, the rest is asked', () => {
    expect(levels('DE', 'garden', may)).toEqual([]);
    expect(levels('DE', 'forest', may)).toEqual([]);
    expect(levels('DE', 'private', may)).toEqual(['warning']);
    expect(levels('DE', '', may)).toEqual(['warning']);
    expect(banned('DE', '', may)[0]!.message).toContain('nothing says on what land the tree stands');
  });

  test('in France the country has a season for farms with aid alone', () => {
    expect(levels('FR', 'street', may)).toEqual([]);
    expect(levels('FR', 'farm', may)).toEqual(['warning']);
    expect(banned('FR', 'farm', may)[0]!.message).toContain('farmers with aid of the common policy alone');
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
