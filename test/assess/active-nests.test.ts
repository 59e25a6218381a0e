import { describe, expect, test } from 'vitest';
import { activeNests, nestDays } from '../../server/assess/active-nests.ts';
import { nestingSeasons } from '../../server/assess/nesting.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { treeIn } from './inventory.ts';

const day = (text: string): number => parseDate(text)!;
/** The nesting season of the practice block is the only one that counts: February to the end of August. */
const PRACTICE = 'practice "Office"\n  season nesting 02-01..08-31\n    because "county permit"\n\n';
const treeWith = (checks: string) => treeIn(`${PRACTICE}tree 1\n${checks}`);
const check = (on: string, found: string) => `  nest check ${on} from ground\n    found ${found}\n`;

describe('a nest', () => {
  const nests = (checks: string) =>
    activeNests(treeWith(checks).tree).map(({ use, seen, freed }) => [
      use,
      formatDate(seen),
      freed === undefined ? undefined : formatDate(freed),
    ]);

  test('is in use from the check that found it active, or could not tell', () => {
    expect(nests(check('2026-05-04', 'active'))).toEqual([['active', '2026-05-04', undefined]]);
    expect(nests(check('2026-05-04', 'unclear'))).toEqual([['unclear', '2026-05-04', undefined]]);
    expect(nests(check('2026-05-04', 'old') + check('2026-05-05', 'none'))).toEqual([]);
  });

  test('is free from the next check that found all nests old or none', () => {
    const active = check('2026-05-04', 'active');
    expect(nests(active + check('2026-06-10', 'none'))).toEqual([['active', '2026-05-04', '2026-06-10']]);
    expect(nests(active + check('2026-06-10', 'old\n    found unclear'))[0]![2]).toBeUndefined();
    // A check without a finding, and one before, free nothing.
    expect(nests(`${active}  nest check 2026-06-10 from ground\n`)[0]![2]).toBeUndefined();
    expect(nests(check('2026-05-01', 'none') + active)[0]![2]).toBeUndefined();
  });
});

describe('days of work on which a nest is in use', () => {
  const days = (checks: string, from: string, to: string) => {
    const { tree, settings } = treeWith(checks);
    const found = nestDays(
      activeNests(tree)[0]!,
      { from: day(from), to: day(to) },
      nestingSeasons(tree, settings),
    );
    return found && [formatDate(found.from), formatDate(found.to), found.grade];
  };
  const MAY = check('2026-05-04', 'active');

  test('reach to the end of the season that the check fell in', () => {
    expect(days(MAY, '2026-06-01', '2026-08-31')).toEqual(['2026-06-01', '2026-08-31', 'exceeds']);
    expect(days(MAY, '2026-08-01', '2026-09-30')).toEqual(['2026-08-01', '2026-08-31', 'may exceed']);
    expect(days(MAY, '2026-09-01', '2026-09-30')).toBeUndefined();
  });

  test('end before the check that freed it', () => {
    expect(days(MAY + check('2026-06-10', 'none'), '2026-06-01', '2026-06-30')).toEqual([
      '2026-06-01',
      '2026-06-09',
      'may exceed',
    ]);
  });

  test('are never certain of a nest that was unclear, or was seen out of season', () => {
    expect(days(check('2026-05-04', 'unclear'), '2026-06-01', '2026-06-30')![2]).toBe('may exceed');
    expect(days(check('2026-12-04', 'active'), '2027-03-01', '2027-03-31')).toEqual([
      '2027-03-01',
      '2027-03-31',
      'may exceed',
    ]);
  });
});
