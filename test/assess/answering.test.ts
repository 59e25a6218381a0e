import { describe, expect, test } from 'vitest';
import {
  type AnswerContext,
  answersTo,
  deadlineOf,
  isAnsweredOrLate,
  isRatedBelowHigh,
  NOTHING_OPEN,
  nothingOpenFor,
  ownDeadline,
} from '../../server/assess/answering.ts';
import { signsOf } from '../../server/assess/signs.ts';
import { formatDate } from '../../server/base/dates.ts';
import { dayContext } from './inventory.ts';

const PEOPLE = 'person RV "Ruth Varga"\n  qualified consulting arborist\n\nperson AP "Ana Pell"\n\n';
const HOLLOW = `  inspection 2026-05-04 from ground
    by RV
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    bark 0 in
    wall 3 in
`;
const contextOf = (...lines: readonly string[]): AnswerContext =>
  dayContext(`${PEOPLE}tree 1\n  height 60 ft\n${HOLLOW}${lines.map(line => `  ${line}\n`).join('')}`);
const signOf = (context: AnswerContext) => signsOf(context).find(({ subject }) => subject === 'A')!;
const answers = (...lines: readonly string[]) => {
  const context = contextOf(...lines);
  return answersTo(signOf(context), context).map(({ by, name, inTime }) => [by, name, inTime]);
};

describe('what acts on a hollow stem', () => {
  test('felling does, and a reduction that leaves too much stress, or work on limbs, does not', () => {
    expect(answers('prescription R1 fell')).toEqual([['work', 'fell R1', true]]);
    expect(answers('prescription R1 clean')).toEqual([]);
    expect(answers('prescription R1 reduce', 'height 60 ft to 58 ft')).toEqual([]);
    expect(answers()).toEqual([]);
  });

  test('a look acts where it measures the stem, not the roots', () => {
    expect(answers('follow-up F1 resistance drilling', 'due 2026-06-10')).toEqual([
      ['follow-up', 'resistance drilling F1', true],
    ]);
    expect(answers('follow-up F1 root inspection', 'due 2026-06-10')).toEqual([]);
    // Of a grave sign a look without a day, or one overdue, comes in no time.
    expect(answers('follow-up F1 resistance drilling')[0]![2]).toBe(false);
    expect(answers('follow-up F1 resistance drilling', 'due 2026-05-20')[0]![2]).toBe(false);
  });

  test('of two alternatives neither answers what the other leaves open', () => {
    expect(answers('prescription R1 fell', 'or R2', 'prescription R2 clean')).toEqual([]);
  });
});

test('work answers what was known when it was done, not a defect that was found later', () => {
  const standing = (seen: string) => {
    const context = dayContext(`${PEOPLE}tree 1
  vigor dead
  prescription R1 monolith
    height 60 ft to 20 ft
    dated 2024-03-02
  work R1 2024-10-22
    height 20 ft
  inspection ${seen} from ground
  defect A loose bark
    on trunk at 10 ft
    share 60 % of circumference
`);
    return answersTo(signOf(context), context).map(({ by }) => by);
  };
  expect(standing('2024-05-14')).toEqual(['done']);
  expect(standing('2026-02-18')).toEqual([]);
});

test('work whose window has ended is no response, and is told', () => {
  const told = (to: string) => {
    const context = contextOf('prescription R1 fell', `  between 2026-05-11..${to}`);
    return [isAnsweredOrLate(signOf(context), context), nothingOpenFor(signOf(context), context)];
  };
  expect(told('2026-06-20')).toEqual([true, NOTHING_OPEN]);
  expect(told('2026-05-22')).toEqual([
    false,
    'fell R1 was prescribed for it; its work window ended on 2026-05-22, and no work is on record',
  ]);
});

test('a cable answers the union of the stems that it holds, not another of the same fork', () => {
  const stem = (name: string, ...more: readonly string[]) => `  stem ${name}
    from 9 ft
    diameter 10 in
    height 40 ft
    crown from 12 ft, 15 ft wide
    ${more.join('')}
`;
  const answered = (names: string) => {
    const context = dayContext(`site "Tansy Creek"
  wind 92 mph, exposure B

${PEOPLE}tree 986
  species Acer rubrum
  dbh 18 in
  height 40 ft
  crown from 12 ft, 24 ft wide
${stem('North', 'union included bark, with South')}${stem('South')}${stem('West')}  support C1 cable
    holds ${names}
    fixed at 31 ft, 5 deg from horizontal
    rated 40000 lbf
    installed 2026-03-01 by RV
    inspected 2026-05-04 by RV
`);
    const union = signsOf(context).find(({ part }) => part === 'union')!;
    expect(union.members).toEqual(['North', 'South']);
    return answersTo(union, context).map(({ name }) => name);
  };
  expect(answered('North, South')).toEqual(['cable C1']);
  expect(answered('North, West')).toEqual([]);
});

describe('a deadline', () => {
  const deadline = (...lines: readonly string[]) => {
    const context = contextOf(...lines);
    const found = deadlineOf(signOf(context), context);
    return found && [formatDate(found.day), found.isUrgent];
  };
  const rated = (rating: string) => [
    'target "Path"',
    'distance 5 ft',
    'inspection 2026-05-04 from ground',
    'risk "Path" from A',
    `rating ${rating}`,
  ];

  test('runs from the day of the rating: extreme 1 day, high 42 days, moderate six months', () => {
    expect(deadline(...rated('extreme'))).toEqual(['2026-05-05', true]);
    expect(deadline(...rated('high'))).toEqual(['2026-06-15', true]);
    // 6 × 30.44 days.
    expect(deadline(...rated('moderate'))).toEqual(['2026-11-02', false]);
    expect(deadline(...rated('low'))).toBeUndefined();
    expect(deadline()).toBeUndefined();
  });

  test('makes later work late, and work before it in time', () => {
    const fell = (until: string) =>
      answers(...rated('high'), 'prescription R1 fell', `between 2026-06-01..${until}`);
    expect(fell('2026-06-15')).toEqual([['work', 'fell R1', true]]);
    expect(fell('2026-06-16')).toEqual([['work', 'fell R1', false]]);
    // Without a day it is in no time where a day has to be set at once.
    expect(answers(...rated('high'), 'prescription R1 fell')).toEqual([['work', 'fell R1', false]]);
  });

  test('is bridged where people are kept out until the work is done', () => {
    const [target, distance, ...risk] = rated('high');
    const closed = (until: string) =>
      answers(
        target!,
        distance!,
        `closed 2026-05-30, until ${until}, by RV`,
        ...risk,
        'prescription R1 fell',
        'between 2026-06-01..2026-08-31',
      );
    expect(closed('2026-08-31')[0]![2]).toBe(true);
    expect(closed('2026-08-30')[0]![2]).toBe(false);
  });

  test('comes from the prescription’s own priority as well', () => {
    const context = contextOf('prescription R1 fell', 'priority high');
    const own = ownDeadline(context.tree.prescriptions[0]!, context)!;
    expect(own).toMatchObject({ limit: 'deadline-high', isUrgent: true, isOwn: true });
  });

  test('that is past leaves the sign open; late work to come is reported elsewhere', () => {
    const past = contextOf(...rated('high'), 'prescription R1 fell', 'between 2026-05-05..2026-05-20');
    expect(isAnsweredOrLate(signOf(past), past)).toBe(false);
    const late = contextOf(...rated('high'), 'prescription R1 fell', 'between 2026-07-01..2026-07-20');
    expect(isAnsweredOrLate(signOf(late), late)).toBe(true);
  });
});

describe('a rating below high', () => {
  const below = (by: string, ...more: readonly string[]) => {
    const context = contextOf(
      'target "Path"',
      'distance 5 ft',
      ...more,
      'risk "Path" from A',
      'rating low',
      `by ${by}`,
    );
    return isRatedBelowHigh(signOf(context), context);
  };

  test('counts by a qualified person, for every target that the tree could reach', () => {
    expect(below('RV')).toBe(true);
    expect(below('AP')).toBe(false);
    expect(below('RV', 'target "Lawn"', 'distance 9 ft')).toBe(false);
    expect(below('RV', 'target "Lawn"', 'distance 90 ft')).toBe(true);
  });
});
