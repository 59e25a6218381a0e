import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, interval } from '../../server/base/interval.ts';
import { reducedCrown } from '../../server/mechanics/reduction.ts';
import { hiddenShareBounds, type SightLine, sightHeight } from '../../server/mechanics/sight.ts';
import { inside, ranges, share } from './arbitrary.ts';

const view: SightLine = { eye: 1.6, distance: 20, bottom: 3.6, top: 13.6, beyond: 20 };
const crown = { base: 2, top: 9, spread: 6 };

describe('a sight line', () => {
  it('passes the stem in proportion', () => {
    expect(sightHeight(view, 3.6)).toBeCloseTo(2.6, 12);
    expect(sightHeight(view, 13.6)).toBeCloseTo(7.6, 12);
    expect(sightHeight({ ...view, beyond: 0 }, 5)).toBe(5);
    expect(sightHeight({ ...view, eye: 20 }, 0)).toBe(10);
  });
});

/** Share of the object that lies behind the crown. */
function hiddenShare(
  line: SightLine,
  { base, top }: { readonly base: number; readonly top: number },
): number {
  const low = sightHeight(line, line.bottom);
  const high = sightHeight(line, line.top);
  return Math.max(0, Math.min(high, top) - Math.max(low, base)) / (high - low);
}

describe('what a crown hides', () => {
  const hidden = (of: Partial<typeof crown>) => {
    const { eye, distance, bottom, top, beyond } = view;
    const line = {
      eye: exact(eye),
      distance: exact(distance),
      bottom: exact(bottom),
      top: exact(top),
      beyond: exact(beyond),
    };
    const { base, top: crownTop, spread } = { ...crown, ...of };
    return hiddenShareBounds(line, { base: exact(base), top: exact(crownTop), spread: exact(spread) }).high;
  };

  it('is all, part or nothing of the object', () => {
    expect(hidden({})).toBe(1);
    expect(hidden({ base: 5.1 })).toBeCloseTo(0.5, 12);
    expect(hidden({ top: 3.6 })).toBeCloseTo(0.2, 12);
    expect(hidden({ base: 8 })).toBe(0);
  });

  it('shrinks with the crown that a prescription leaves', () => {
    expect(hidden(reducedCrown(crown, { top: 6.6 }))).toBeCloseTo(0.8, 12);
  });
});

describe('bounds of what a crown hides', () => {
  const readings = fc.record({
    eye: ranges(0, 12),
    distance: ranges(3, 40),
    bottom: ranges(0, 6),
    top: ranges(6, 20),
    beyond: ranges(0, 40),
    base: ranges(0, 8),
    crownTop: ranges(6, 20),
  });
  type Readings = typeof readings extends fc.Arbitrary<infer T> ? T : never;
  const boundsOf = ({ base, crownTop, ...seen }: Readings) =>
    hiddenShareBounds(seen, { base, top: crownTop, spread: exact(5) });
  const sample = (all: Readings, at: readonly number[]): number | undefined => {
    const names = Object.keys(all) as (keyof Readings)[];
    const one = Object.fromEntries(names.map((name, i) => [name, inside(all[name], at[i]!)])) as Record<
      keyof Readings,
      number
    >;
    if (one.bottom >= one.top || one.base >= one.crownTop) return undefined;
    return hiddenShare(one, { base: one.base, top: one.crownTop });
  };
  const shares = fc.array(share, { minLength: 7, maxLength: 7 });

  it('hold everything that the readings allow', () => {
    fc.assert(
      fc.property(readings, fc.array(shares, { minLength: 40, maxLength: 40 }), (all, samples) => {
        fc.pre(all.base.low < all.crownTop.high && all.bottom.low < all.top.high);
        const { low, high } = boundsOf(all);
        for (const at of samples) {
          const hidden = sample(all, at);
          if (hidden !== undefined) expect(contains(interval(low - 1e-9, high + 1e-9), hidden)).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('are reached: a fine grid comes within 2 % of both ends', () => {
    const all: Readings = {
      eye: interval(1.5, 4),
      distance: exact(20),
      bottom: interval(2, 5),
      top: interval(9, 12),
      beyond: exact(15),
      base: interval(3, 4),
      crownTop: exact(7),
    };
    const { low, high } = boundsOf(all);
    const steps = Array.from({ length: 41 }, (_, i) => i / 40);
    const seen = steps.flatMap(e =>
      steps.flatMap(b =>
        steps.map(t => [sample(all, [e, 0, b, t, 0, 0, 0])!, sample(all, [e, 0, b, t, 0, 1, 0])!]),
      ),
    );
    expect(Math.min(...seen.map(pair => pair[1]!)) - low).toBeLessThan(0.02);
    expect(high - Math.max(...seen.map(pair => pair[0]!))).toBeLessThan(0.02);
  });

  it('of exact readings are the share itself', () => {
    const of = (value: SightLine) =>
      hiddenShareBounds(
        {
          eye: exact(value.eye),
          distance: exact(value.distance),
          bottom: exact(value.bottom),
          top: exact(value.top),
          beyond: exact(value.beyond),
        },
        { base: exact(5.1), top: exact(9), spread: exact(6) },
      );
    expect(of(view).low).toBeCloseTo(0.5, 12);
    expect(of(view).high).toBeCloseTo(0.5, 12);
    expect(() => of({ ...view, top: 3 })).toThrow(RangeError);
  });
});
