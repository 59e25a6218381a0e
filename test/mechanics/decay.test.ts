import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, interval } from '../../server/base/interval.ts';
import { measuredChange, nextLook, wallAfter, wallChange, yearsTo } from '../../server/mechanics/decay.ts';
import { between, inside, ranges, share } from './arbitrary.ts';

const RUNS = Number(process.env.PROPERTY_RUNS ?? 300);

describe('a wall over the years', () => {
  it('holds every course that the readings allow', () => {
    fc.assert(
      fc.property(
        ranges(0.02, 0.3),
        ranges(0, 0.004),
        ranges(0, 0.01),
        ranges(0.01, 0.2),
        fc.tuple(share, share, share, share),
        between(0, 40),
        (wall, growth, advance, limit, [i, j, k, l], years) => {
          const [w, g, a, end] = [inside(wall, i), inside(growth, j), inside(advance, k), inside(limit, l)];
          const change = wallChange(growth, advance);
          const after = wallAfter(wall, change, years);
          const exactly = Math.max(0, w + (g - a) * years);
          expect(exactly).toBeGreaterThanOrEqual(after.low - 1e-12);
          expect(exactly).toBeLessThanOrEqual(after.high + 1e-12);
          const until = w <= end ? 0 : a > g ? (w - end) / (a - g) : Number.POSITIVE_INFINITY;
          const bounds = yearsTo(limit, wall, change);
          expect(until).toBeGreaterThanOrEqual(bounds.low * (1 - 1e-9));
          expect(until).toBeLessThanOrEqual(bounds.high * (1 + 1e-9));
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('comes to its limit no later where decay is faster', () => {
    fc.assert(
      fc.property(ranges(0.1, 0.3), ranges(0, 0.01), between(0, 0.005), (wall, advance, more) => {
        const rings = interval(0.001, 0.002);
        const slow = yearsTo(exact(0.05), wall, wallChange(rings, advance));
        const fast = yearsTo(
          exact(0.05),
          wall,
          wallChange(rings, interval(advance.low + more, advance.high + more)),
        );
        expect(fast.low).toBeLessThanOrEqual(slow.low);
        expect(fast.high).toBeLessThanOrEqual(slow.high);
      }),
      { numRuns: RUNS },
    );
  });

  it('is read again before it may be at its limit', () => {
    fc.assert(
      fc.property(ranges(0, 50), between(0.5, 5), (toLimit, most) => {
        const look = nextLook(toLimit, most);
        expect(look).toBeLessThanOrEqual(Math.max(toLimit.low, 0));
        expect(look).toBeLessThanOrEqual(most);
      }),
    );
  });

  it('gives back the change between two readings', () => {
    const change = measuredChange(interval(0.1, 0.12), interval(0.09, 0.11), 5);
    expect(contains(change, (0.1 - 0.11) / 5)).toBe(true);
    expect(change.low).toBeCloseTo(-0.006, 12);
    expect(() => measuredChange(exact(1), exact(1), 0)).toThrow(RangeError);
  });
});
