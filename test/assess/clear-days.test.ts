import { describe, expect, test } from 'vitest';
import { parseDate } from '../../grammar/dates.ts';
import { clearDays, clearWindow, closedWindows, keepClear } from '../../server/assess/clear-days.ts';
import { showDays } from '../../server/assess/days.ts';
import { treeIn } from './inventory.ts';

const days = (from: string, to: string) => ({ from: parseDate(from)!, to: parseDate(to)! });

function windowsOf(region: string, lines: string, kind = 'thin') {
  const { tree, settings } = treeIn(`site "Fernhollow Court"
  region ${region}

practice "Office limits"
  season pruning 09-01..09-10
    because "leaf fall"
  season bat maternity 04-15..09-20
    because "two late years"

tree 1
${lines}  prescription R1 ${kind}
`);
  return closedWindows(tree, tree.prescriptions[0]!, settings);
}

describe('in California, in the nesting season from 02-01 to 08-31', () => {
  const { tree, settings } = treeIn(
    'site "Fernhollow Court"\n  region US-CA\n\ntree 1\n  prescription R1 fell\n',
  );
  const windows = closedWindows(tree, tree.prescriptions[0]!, settings);

  test('the next window that is clear, or the first day where none is as long', () => {
    expect(clearWindow(days('2026-06-01', '2026-06-10'), windows)).toBe('2026-09-01..2026-09-10');
    expect(clearWindow(days('2026-10-01', '2026-10-10'), windows)).toBe('2026-10-01..2026-10-10');
    expect(clearWindow(days('2026-03-01', '2026-12-31'), windows)).toBe(
      'a shorter window from 2026-09-01 on',
    );
  });

  test('the clear days of the window itself come first', () => {
    const told = (from: string, to: string) => keepClear(days(from, to), windows);
    expect(told('2026-12-01', '2027-02-15')).toBe('Keep the work to 2026-12-01..2027-01-31');
    expect(told('2026-01-20', '2026-09-10')).toBe(
      'Keep the work to 2026-01-20..2026-01-31 or 2026-09-01..2026-09-10',
    );
    expect(told('2026-06-01', '2026-08-31')).toBe('Move the work to 2026-09-01..2026-12-01');
  });
});

describe('everything that closes days counts at once', () => {
  const june = days('2026-06-08', '2026-06-12');

  test('the season of nests; the weeks of the office for cuts, not for felling', () => {
    expect(keepClear(june, windowsOf('US-OR', '', 'fell'))).toBe('Move the work to 2026-09-01..2026-09-05');
    expect(keepClear(june, windowsOf('US-OR', ''))).toBe('Move the work to 2026-09-11..2026-09-15');
  });

  test('bats, where the work meets what they may roost in', () => {
    const hollow = '  defect A cavity\n    on trunk at 9 ft\n';
    expect(keepClear(june, windowsOf('US-OR', hollow, 'fell'))).toBe(
      'Move the work to 2026-09-21..2026-09-25',
    );
  });

  test('pests of its kind; felling leaves no wounds, nor does a dead tree suffer from them', () => {
    const pine = '  species Pinus ponderosa\n';
    const thinned = windowsOf('US-CA', pine);
    expect(keepClear(june, thinned)).toBe('Move the work to 2026-10-01..2026-10-05');
    expect(clearDays(days('2026-08-20', '2026-11-10'), thinned).map(showDays)).toEqual([
      '2026-10-01..2026-11-10',
    ]);
    const untouched = [
      windowsOf('US-CA', pine, 'fell'),
      windowsOf('US-CA', `${pine}  vigor dead\n`, 'clean'),
    ];
    for (const windows of untouched)
      expect(keepClear(june, windows)).toBe('Move the work to 2026-09-01..2026-09-05');
  });

  test('a year that is closed throughout leaves it to a permit', () => {
    expect(clearWindow(june, [{ from: { month: 1, day: 1 }, to: { month: 12, day: 31 } }])).toBe(
      'a day that a local permit allows',
    );
  });
});
