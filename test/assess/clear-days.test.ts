import { describe, expect, test } from 'vitest';
import { otherDays } from '../../server/assess/clear-days.ts';
import { dayContext } from './inventory.ts';

const PRACTICE = `practice "Office limits"
  season pruning 09-01..09-10
    because "leaf fall"
  season bat maternity 04-15..09-20
    because "two late years"

`;

interface Case {
  readonly region?: string;
  readonly lines?: string;
  readonly kind?: string;
  /** Fields of the prescription. */
  readonly terms?: string;
  readonly before?: string;
  readonly practice?: boolean;
  readonly days?: string;
}

/** What is said of the days of R1. */
function told({
  region = 'US-OR',
  lines = '',
  kind = 'thin',
  terms = '',
  before = '',
  practice = true,
  days = '2026-06-08..2026-06-12',
}: Case) {
  const context = dayContext(
    `site "Fernhollow Court"\n  region ${region}\n\n${practice ? PRACTICE : ''}${before}tree 1\n${lines}  prescription R1 ${kind}\n    between ${days}\n${terms}`,
  );
  const prescription = context.tree.prescriptions.find(({ id }) => id.value === 'R1')!;
  const { from, to } = prescription.between!;
  const { words, none } = otherDays(context, prescription, { from, to });
  return words ?? none;
}

describe('in California, in the nesting season from 02-01 to 08-31', () => {
  const california = (days: string) => told({ region: 'US-CA', kind: 'fell', practice: false, days });

  test('the next window that is clear, or the first clear stretch where none is as long', () => {
    expect(california('2026-06-01..2026-06-10')).toBe('Move the work to 2026-09-01..2026-09-10');
    expect(california('2026-03-01..2026-08-25')).toBe('Move the work to 2026-09-01..2027-01-31');
  });

  test('the clear days of the window itself come first', () => {
    expect(california('2026-12-01..2027-02-15')).toBe(
      'Keep the work to 2026-12-01..2027-01-31, or move it to 2027-09-01..2027-11-16',
    );
    expect(california('2026-01-20..2026-09-10')).toBe(
      'Keep the work to 2026-01-20..2026-01-31 or 2026-09-01..2026-09-10',
    );
  });
});

describe('everything that closes days counts at once', () => {
  const hollow = '  defect A cavity\n    on trunk at 9 ft\n';

  test('the season of nests; the weeks of the office for cuts, not for felling', () => {
    expect(told({ kind: 'fell' })).toBe('Move the work to 2026-09-01..2026-09-05');
    expect(told({})).toBe('Move the work to 2026-09-11..2026-09-15');
  });

  test('bats, where the work meets what they may roost in', () => {
    expect(told({ kind: 'fell', lines: hollow })).toBe('Move the work to 2026-09-21..2026-09-25');
  });

  test('a roost that was found, and a check that will not hold any more', () => {
    const check = (found: string) => `${hollow}  bat check 2026-05-30 from rope\n    found ${found}\n`;
    expect(told({ kind: 'fell', lines: check('roost in A') })).toBe(
      'Moving the work to a clear day is not possible: the bat check of 2026-05-30 found roost',
    );
    expect(told({ kind: 'fell', lines: check('none') })).toBe(
      'Moving the work to a clear day is not possible: the bat check of 2026-05-30 is valid until 2026-06-13',
    );
  });

  test('pests of its kind; felling leaves no wounds, nor does a dead tree suffer from them', () => {
    const region = 'US-CA';
    const pine = '  species Pinus ponderosa\n';
    expect(told({ region, lines: pine })).toBe('Move the work to 2026-10-01..2026-10-05');
    expect(told({ region, lines: pine, days: '2026-08-20..2026-11-10' })).toBe(
      'Keep the work to 2026-10-01..2026-11-10, or move it to 2026-10-01..2026-12-22',
    );
    expect(told({ region, lines: pine, kind: 'fell' })).toBe('Move the work to 2026-09-01..2026-09-05');
    expect(told({ region, lines: `${pine}  vigor dead\n`, kind: 'clean' })).toBe(
      'Move the work to 2026-09-01..2026-09-05',
    );
  });

  test('a permit that ends before the season does', () => {
    const terms = '    permit TR-7, until 2026-08-31\n';
    expect(told({ kind: 'fell', terms })).toBe(
      'Moving the work to a clear day is not possible: permit TR-7 ends on 2026-08-31',
    );
    expect(told({ kind: 'fell', terms: terms.replace('08-31', '09-02') })).toBe(
      'Move the work to 2026-09-01..2026-09-02',
    );
  });

  test('the recovery from a stress', () => {
    expect(told({ lines: '  stressed by drought, since 2026-01-10\n', practice: false })).toBe(
      'Move the work to 2027-01-11..2027-01-15',
    );
  });

  test('days on which the line is off, where the crew needs it', () => {
    const line = (days: string, distance = '3 ft') =>
      `  conductor "Lane"\n    voltage 12.5 kV\n    distance ${distance}\n    dead ${days}\n`;
    expect(told({ kind: 'clean', lines: line('2026-10-01..2026-10-03') })).toBe(
      'Move the work to 2026-10-01..2026-10-03',
    );
    expect(told({ kind: 'clean', lines: line('2026-06-08..2026-06-12') })).toBe(
      'Moving the work to a clear day is not possible: line Lane is de-energized only on 2026-06-08..2026-06-12',
    );
    const trained = `person MK "Mo Kerr"
  qualified line clearance
  certificate "line clearance 12", until 2026-08-31

crew LINE "Line crew"
  members MK

`;
    expect(
      told({
        kind: 'clean',
        before: trained,
        terms: '    with LINE\n',
        // Beyond the minimum of that crew, not beyond the distance of others.
        lines: line('2026-06-08..2026-06-12', '8 ft'),
      }),
    ).toBe(
      'Moving the work to a clear day is not possible: line-clearance certificates expire on 2026-08-31',
    );
  });

  test('other work that comes after it, and the priority', () => {
    const felled = '  prescription R2 fell\n    between 2026-09-01..2026-09-30\n';
    expect(told({ kind: 'clean', lines: felled })).toBe(
      'Moving the work to a clear day is not possible: fell R2 begins on 2026-09-01',
    );
    expect(
      told({ kind: 'fell', lines: '  inspection 2026-05-20 from ground\n', terms: '    priority high\n' }),
    ).toBe('Moving the work to a clear day is not possible: priority high requires it by 2026-07-01');
    expect(
      told({
        kind: 'fell',
        lines: '  inspection 2026-05-20 from ground\n',
        terms: '    priority moderate\n',
      }),
    ).toBe('Move the work to 2026-09-01..2026-09-05');
  });

  test('a year that is closed throughout', () => {
    const always = 'practice "Never"\n  season nesting 01-01..12-31\n    because "the tropics"\n\n';
    expect(told({ kind: 'fell', before: always, practice: false })).toMatch(
      /^Moving the work to a clear day is not possible: days in the nesting season 01-01\.\.12-31/,
    );
  });
});
