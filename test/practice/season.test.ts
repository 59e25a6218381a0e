import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarDate, type MonthDay } from '../../server/base/dates.ts';
import {
  covers,
  type DaySpan,
  inWindow,
  overlap,
  type YearlyWindow,
} from '../../server/base/yearly-window.ts';

/** By the platform's calendar. */
const dayNumber = (year: number, month: number, day: number): number =>
  Date.UTC(year, month - 1, day) / 86_400_000;

const DAYS_OF_MONTH = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

const monthDay: fc.Arbitrary<MonthDay> = fc
  .integer({ min: 1, max: 12 })
  .chain(month => fc.integer({ min: 1, max: DAYS_OF_MONTH[month - 1]! }).map(day => ({ month, day })));
/** Ends near the leap day as often as anywhere else. */
const end = fc.oneof(
  monthDay,
  fc.constantFrom({ month: 2, day: 28 }, { month: 2, day: 29 }, { month: 3, day: 1 }),
);
const window: fc.Arbitrary<YearlyWindow> = fc.record({ from: end, to: end });
/** 1896 to 2108: with the century that has no leap day on either side, and the one that has. */
const day = fc.integer({ min: dayNumber(1896, 1, 1), max: dayNumber(2108, 12, 31) });

/** By walking the calendar of a year that has every day, from the window's first day to its last. */
function namesInWindow({ from, to }: YearlyWindow): ReadonlySet<string> {
  const names = DAYS_OF_MONTH.flatMap((length, month) =>
    Array.from({ length }, (_, index) => `${month + 1}-${index + 1}`),
  );
  const start = names.indexOf(`${from.month}-${from.day}`);
  // A window to the end of February ends there in every year.
  const last = to.month === 2 && to.day === 28 ? '2-29' : `${to.month}-${to.day}`;
  const found = new Set<string>();
  for (let step = 0; step < names.length; step++) {
    const name = names[(start + step) % names.length]!;
    found.add(name);
    if (name === last) break;
  }
  return found;
}

const nameOf = (at: number): string => {
  const date = new Date(at * 86_400_000);
  return `${date.getUTCMonth() + 1}-${date.getUTCDate()}`;
};

const daysOf = (spans: readonly DaySpan[]): number[] =>
  spans.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, index) => from + index));

describe('day numbers', () => {
  it('lead back to the date', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 9999 }), monthDay, (year, { month, day }) => {
        fc.pre(month !== 2 || day !== 29 || new Date(Date.UTC(year, 1, 29)).getUTCMonth() === 1);
        const number = dayNumber(year, month, day);
        expect(calendarDate(number)).toEqual({ year, month, day });
      }),
    );
  });
});

describe('windows', () => {
  const winter: YearlyWindow = { from: { month: 11, day: 15 }, to: { month: 2, day: 29 } };

  it('cross the year’s end and end on the last of February', () => {
    expect(inWindow(dayNumber(2026, 12, 31), winter)).toBe(true);
    expect(inWindow(dayNumber(2027, 1, 1), winter)).toBe(true);
    expect(inWindow(dayNumber(2027, 2, 28), winter)).toBe(true);
    expect(inWindow(dayNumber(2027, 3, 1), winter)).toBe(false);
    expect(inWindow(dayNumber(2028, 2, 29), winter)).toBe(true);
    expect(inWindow(dayNumber(2027, 11, 14), winter)).toBe(false);
  });

  it('to 28 February hold the leap day: birds of the south do not leave the nest for it', () => {
    const southern: YearlyWindow = { from: { month: 8, day: 1 }, to: { month: 2, day: 28 } };
    expect(inWindow(dayNumber(2028, 2, 29), southern)).toBe(true);
    expect(inWindow(dayNumber(2028, 3, 1), southern)).toBe(false);
    expect(overlap(dayNumber(2028, 2, 20), dayNumber(2028, 3, 10), southern)).toEqual([
      { from: dayNumber(2028, 2, 20), to: dayNumber(2028, 2, 29) },
    ]);
    expect(overlap(dayNumber(2027, 2, 20), dayNumber(2027, 3, 10), southern)).toEqual([
      { from: dayNumber(2027, 2, 20), to: dayNumber(2027, 2, 28) },
    ]);
  });

  it('cover one another where every day of the one lies in the other', () => {
    const yearly = (from: [number, number], to: [number, number]): YearlyWindow => ({
      from: { month: from[0], day: from[1] },
      to: { month: to[0], day: to[1] },
    });
    expect(covers(yearly([2, 1], [8, 31]), yearly([3, 1], [8, 31]))).toBe(true);
    expect(covers(yearly([3, 1], [8, 31]), yearly([2, 1], [8, 31]))).toBe(false);
    expect(covers(yearly([11, 1], [3, 31]), yearly([12, 1], [2, 28]))).toBe(true);
    expect(covers(yearly([1, 1], [2, 28]), yearly([2, 28], [2, 29]))).toBe(true);
    expect(covers(yearly([6, 1], [6, 1]), yearly([2, 1], [8, 31]))).toBe(false);
  });

  it('hold the days that walking the calendar finds', () => {
    fc.assert(
      fc.property(day, window, (at, each) => {
        expect(inWindow(at, each)).toBe(namesInWindow(each).has(nameOf(at)));
      }),
      { numRuns: 500 },
    );
  });
});

describe('overlap', () => {
  it('is the days of the span in the window, as whole stretches in order', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: 0, max: 900 }), window, (from, length, each) => {
        const spans = overlap(from, from + length, each);
        const names = namesInWindow(each);
        const byDay = daysOf([{ from, to: from + length }]).filter(at => names.has(nameOf(at)));
        expect(daysOf(spans)).toEqual(byDay);
        for (const [index, span] of spans.entries()) {
          expect(span.from).toBeLessThanOrEqual(span.to);
          // Whole stretches: two that touch would be one.
          if (index > 0) expect(span.from).toBeGreaterThan(spans[index - 1]!.to + 1);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('cuts the window to the span', () => {
    const nesting: YearlyWindow = { from: { month: 2, day: 1 }, to: { month: 8, day: 31 } };
    expect(overlap(dayNumber(2026, 8, 15), dayNumber(2026, 10, 1), nesting)).toEqual([
      { from: dayNumber(2026, 8, 15), to: dayNumber(2026, 8, 31) },
    ]);
    expect(overlap(dayNumber(2026, 9, 15), dayNumber(2026, 11, 30), nesting)).toEqual([]);
  });
});
