import { describe, expect, test } from 'vitest';
import { activeNests, nestDays } from '../../server/assess/active-nests.ts';
import { seasonStanding } from '../../server/assess/days.ts';
import { lastCheckBy, nestingDays, nestingSeasons, showSeason } from '../../server/assess/nesting.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { treeIn } from './inventory.ts';

const day = (text: string) => parseDate(text)!;
const days = (from: string, to: string) => ({ from: day(from), to: day(to) });
const site = 'site "Fernhollow Court"\n  region US-CA\n\n';
const plain = treeIn(`${site}tree 1\n`);
const owl = treeIn(`${site}tree 1\n  nest check 2026-02-20 from rope\n    found old Bubo virginianus\n`);

describe('closed days', () => {
  const seasons = nestingSeasons(plain.tree, plain.settings);

  test('the season of the place, both ends closed', () => {
    expect(nestingDays(days('2026-08-20', '2026-09-20'), seasons)).toEqual([
      days('2026-08-20', '2026-08-31'),
    ]);
    expect(nestingDays(days('2026-09-01', '2027-01-31'), seasons)).toEqual([]);
    expect(nestingDays(days('2026-01-31', '2026-02-01'), seasons)).toEqual([
      days('2026-02-01', '2026-02-01'),
    ]);
  });

  test('birds of prey add their own season; stretches that meet are one', () => {
    const both = nestingSeasons(owl.tree, owl.settings);
    expect(both.map(({ name }) => name)).toEqual(['nesting season', 'nesting season of birds of prey']);
    expect(nestingDays(days('2026-08-20', '2026-09-20'), both)).toEqual([days('2026-08-20', '2026-09-15')]);
    expect(showSeason(nestingDays(days('2026-09-05', '2026-09-20'), both), both)).toBe(
      'the nesting season of birds of prey 01-01..09-15 (permit conditions, California)',
    );
  });

  test('a nest that nobody named counts as one of a bird of prey; none found does not', () => {
    const unnamed = treeIn('tree 1\n  nest check 2026-02-20 from rope\n    found active\n');
    const none = treeIn('tree 1\n  nest check 2026-02-20 from rope\n    found none\n');
    expect(nestingSeasons(unnamed.tree, unnamed.settings)).toHaveLength(2);
    expect(nestingSeasons(none.tree, none.settings)).toHaveLength(1);
  });

  test('three grades', () => {
    const whole = days('2026-06-01', '2026-06-30');
    expect(seasonStanding(whole, nestingDays(whole, seasons))).toBe('exceeds');
    const partly = days('2026-08-01', '2026-09-30');
    expect(seasonStanding(partly, nestingDays(partly, seasons))).toBe('may exceed');
    const clear = days('2026-10-01', '2026-10-30');
    expect(seasonStanding(clear, nestingDays(clear, seasons))).toBe('within');
  });
});

test('the last check by a day, that day included', () => {
  const { tree } = treeIn(`tree 1
  nest check 2026-05-30 from lift
    found none
  nest check 2026-03-14 from drone
    found none
`);
  const told = (text: string) => lastCheckBy(tree, day(text))?.from.value;
  expect([told('2026-03-13'), told('2026-03-14'), told('2026-05-29'), told('2026-06-30')]).toEqual([
    undefined,
    'drone',
    'drone',
    'lift',
  ]);
});

test('of two checks on one day the graver counts, whichever stands first; one without a result is none', () => {
  const checks = [
    '  nest check 2026-05-30 from lift\n    found none\n',
    '  nest check 2026-05-30 from ground\n    found active Turdus migratorius\n',
    '  nest check 2026-05-31 from lift\n',
  ];
  for (const order of [checks, checks.toReversed()]) {
    const { tree } = treeIn(`tree 1\n${order.join('')}`);
    expect(lastCheckBy(tree, day('2026-06-30'))?.found[0]?.use).toBe('active');
  }
});

describe('nests in use', () => {
  const grade = (checks: string, from: string, to: string) => {
    const { tree, settings } = treeIn(`${site}tree 1\n${checks}`);
    const found = nestDays(activeNests(tree)[0]!, days(from, to), nestingSeasons(tree, settings));
    return found && `${found.grade} ${formatDate(found.from)}..${formatDate(found.to)}`;
  };
  const flicker = '  nest check 2026-04-14 from lift\n    found active Colaptes auratus\n';

  test('to the end of the season they were found in', () => {
    expect(grade(flicker, '2026-05-01', '2026-05-10')).toBe('exceeds 2026-05-01..2026-05-10');
    expect(grade(flicker, '2026-08-25', '2026-09-10')).toBe('may exceed 2026-08-25..2026-08-31');
    expect(grade(flicker, '2026-09-01', '2026-09-10')).toBeUndefined();
    expect(grade(flicker, '2027-03-01', '2027-03-10')).toBeUndefined();
  });

  test('not before they were found', () => {
    expect(grade(flicker, '2026-04-01', '2026-04-13')).toBeUndefined();
    expect(grade(flicker, '2026-04-10', '2026-04-20')).toBe('may exceed 2026-04-14..2026-04-20');
  });

  test('until a check finds them old, or none; another active one frees nothing', () => {
    const left = `${flicker}  nest check 2026-05-20 from lift\n    found old Colaptes auratus\n`;
    expect(grade(left, '2026-05-20', '2026-05-30')).toBeUndefined();
    expect(grade(left, '2026-05-01', '2026-05-30')).toBe('may exceed 2026-05-01..2026-05-19');
    const mixed = `${flicker}  nest check 2026-05-20 from lift\n    found old Colaptes auratus\n    found active Turdus migratorius\n`;
    expect(grade(mixed, '2026-05-20', '2026-05-30')).toBe('exceeds 2026-05-20..2026-05-30');
  });

  test('out of season, or unclear: perhaps', () => {
    const dove = '  nest check 2026-10-14 from lift\n    found active Zenaida macroura\n';
    expect(grade(dove, '2026-10-20', '2026-10-25')).toBe('may exceed 2026-10-20..2026-10-25');
    const unclear = '  nest check 2026-04-14 from ground\n    found unclear Turdus migratorius\n';
    expect(grade(unclear, '2026-05-01', '2026-05-10')).toBe('may exceed 2026-05-01..2026-05-10');
  });
});
