import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, type Interval, interval } from '../../server/base/interval.ts';
import { type Crown, sharesBelow } from '../../server/mechanics/crown.ts';
import {
  atLeastEffect,
  type CrownChange,
  doseBounds,
  momentRatio,
  momentRatioBounds,
  reducedCrown,
  seasonsNeeded,
  stressRatio,
} from '../../server/mechanics/reduction.ts';
import type { WindSite } from '../../server/mechanics/wind.ts';
import { between, inside, ranges, share } from './arbitrary.ts';
import { silhouetteWidth } from './silhouette.ts';

const C: WindSite = { exposure: 'C', edition: 'ASCE 7-16' };
const crown: Crown = { base: 4, top: 16, spread: 10 };
const exactly = ({ base, top, spread }: Crown): Crown<Interval> => ({
  base: exact(base),
  top: exact(top),
  spread: exact(spread),
});

describe('the crown that is left', () => {
  it('is cut off at its new ends, and between them as it was, drawn in by the ratio of the spreads', () => {
    const cut = reducedCrown(crown, { base: 6, top: 13, spread: 8 });
    expect(cut).toMatchObject({ base: 6, top: 13, spread: 8, uncut: { base: 4, top: 16 } });
    for (const height of [6, 8, 10, 12.9])
      expect(silhouetteWidth(cut, height)).toBeCloseTo(0.8 * silhouetteWidth(crown, height), 12);
    expect(silhouetteWidth(cut, 5.9)).toBe(0);
    expect(silhouetteWidth(cut, 13.1)).toBe(0);
    expect(reducedCrown({ ...crown, widest: 7 }, { top: 12 }).widest).toBe(7);
    expect(reducedCrown(crown, {})).toEqual(crown);
  });

  it('by two cuts is the crown by the lower one', () => {
    expect(reducedCrown(reducedCrown(crown, { top: 14 }), { top: 12 })).toEqual(
      reducedCrown(crown, { top: 12 }),
    );
  });

  it('forgives what computing adds to an end that stays', () => {
    expect(reducedCrown(crown, { top: 16 + 1e-12 })).toEqual(crown);
    expect(reducedCrown(crown, { base: 4 - 1e-12, spread: 10 + 1e-12 })).toEqual(crown);
  });

  it('is never more than there was, and never nothing', () => {
    expect(() => reducedCrown(crown, { top: 17 })).toThrow(RangeError);
    expect(() => reducedCrown(crown, { base: 3 })).toThrow(RangeError);
    expect(() => reducedCrown(crown, { spread: 11 })).toThrow(RangeError);
    expect(() => reducedCrown(crown, { top: 4 })).toThrow(RangeError);
    expect(() => reducedCrown(crown, { spread: Number.NaN })).toThrow(RangeError);
  });
});

describe('moment ratio', () => {
  it('is one for no change, and the ratio of widths where only the width changes', () => {
    expect(momentRatio([crown], [crown], 1, C)).toBe(1);
    expect(momentRatio([crown], [reducedCrown(crown, { spread: 6 })], 1, C)).toBeCloseTo(0.6, 12);
  });

  it('under constant pressure is area times arm over area times arm', () => {
    // All below 15 ft, cut at its widest level: a half ellipse with its centroid 4/(3π) of its height below that.
    const low = { base: 1, top: 4.5, spread: 3 };
    const after = reducedCrown(low, { top: 2.75, spread: 2 });
    const arm = 2.75 - (4 / (3 * Math.PI)) * 1.75;
    expect(momentRatio([low], [after], 0, C)).toBeCloseTo((0.5 * (2 / 3) * arm) / 2.75, 6);
  });

  it('is one above a raised base, and less below it', () => {
    const raised = reducedCrown(crown, { base: 7 });
    for (const height of [7, 8, 12, 15]) expect(momentRatio([crown], [raised], height, C)).toBe(1);
    fc.assert(
      fc.property(between(4.1, 15), between(0, 15), (base, height) => {
        const ratio = momentRatio([crown], [reducedCrown(crown, { base })], height, C);
        expect(ratio).toBeLessThanOrEqual(1 + 1e-12);
        if (height < base - 0.01) expect(ratio).toBeLessThan(1);
      }),
    );
  });

  it('leaves more than a squeezed ellipse would, and less at half the effect than without the cut', () => {
    fc.assert(
      // Above the widest level: of a sliver below it the squeezed ellipse would keep more.
      fc.property(between(10, 15.9), between(0, 4), (top, height) => {
        const cut = momentRatio([crown], [reducedCrown(crown, { top })], height, C);
        expect(cut).toBeGreaterThan(momentRatio([crown], [{ ...crown, top }], height, C));
        const half = atLeastEffect(exact(cut));
        expect(half.low).toBeCloseTo((1 + cut) / 2, 12);
      }),
    );
  });

  it('is nothing where all that stood above is gone', () => {
    expect(momentRatio([crown], [reducedCrown(crown, { top: 12 })], 13, C)).toBe(0);
    expect(() => momentRatio([crown], [crown], 16, C)).toThrow(RangeError);
  });

  it('falls as more is taken, and the higher the section', () => {
    fc.assert(
      fc.property(between(5, 16), share, between(0, 15), share, (top, lower, height, higher) => {
        const ratio = (to: number, h: number) =>
          momentRatio([crown], [reducedCrown(crown, { top: to })], h, C);
        expect(ratio(4 + (top - 4) * (0.2 + 0.8 * lower), height)).toBeLessThanOrEqual(
          ratio(top, height) + 1e-9,
        );
        expect(ratio(top, height + higher * (15.5 - height))).toBeLessThanOrEqual(ratio(top, height) + 1e-6);
      }),
    );
  });
});

const uncertain = fc.record({
  crown: fc
    .record({
      base: ranges(1, 6),
      top: ranges(10, 22),
      spread: ranges(4, 12),
      widest: fc.option(ranges(5, 12)),
    })
    .map(({ widest, ...rest }): Crown<Interval> => (widest ? { ...rest, widest } : rest)),
  change: fc
    .record({
      base: fc.option(ranges(1, 9)),
      top: fc.option(ranges(8, 20)),
      spread: fc.option(ranges(2, 10)),
    })
    .map(
      ({ base, top, spread }): CrownChange<Interval> => ({
        ...(base ? { base } : {}),
        ...(top ? { top } : {}),
        ...(spread ? { spread } : {}),
      }),
    ),
  height: ranges(0, 9),
  samples: fc.array(fc.array(share, { minLength: 8, maxLength: 8 }), { minLength: 12, maxLength: 40 }),
});

/** One crown and one change of it that the readings allow; undefined where they are not a reduction. */
function pick(all: Crown<Interval>, change: CrownChange<Interval>, at: readonly number[]) {
  const of = (reading: Interval | undefined, i: number) => reading && inside(reading, at[i]!);
  const defined = (values: object) =>
    Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));
  const one = defined({
    base: of(all.base, 0),
    top: of(all.top, 1),
    spread: of(all.spread, 2),
    widest: of(all.widest, 3),
  });
  const to = defined({ base: of(change.base, 4), top: of(change.top, 5), spread: of(change.spread, 6) });
  try {
    return { before: one as unknown as Crown, after: reducedCrown(one as unknown as Crown, to) };
  } catch {
    return undefined;
  }
}

describe('bounds', () => {
  it('of moment ratio and dose hold everything that the readings allow', () => {
    fc.assert(
      fc.property(uncertain, ({ crown: all, change, height, samples }) => {
        fc.pre((change.top?.low ?? 0) <= all.top.high && (change.spread?.low ?? 0) <= all.spread.high);
        fc.pre((change.base?.high ?? 99) >= all.base.low);
        fc.pre((change.base?.low ?? all.base.low) < (change.top?.high ?? all.top.high));
        const ratios = momentRatioBounds(all, change, height, C);
        const doses = doseBounds(all, change);
        for (const at of samples) {
          const one = pick(all, change, at);
          const h = inside(height, at[7]!);
          if (!one || h >= one.before.top) continue;
          const ratio = momentRatio([one.before], [one.after], h, C);
          expect(contains(interval(ratios.low - 1e-9, ratios.high + 1e-9), ratio)).toBe(true);
          const kw = one.after.spread / one.before.spread;
          for (const measure of ['silhouette', 'volume'] as const) {
            const below = (level: number) => sharesBelow(one.before, level)[measure];
            const left = below(one.after.top) - below(one.after.base);
            for (const taken of [1 - left * kw, 1 - left * kw * kw]) {
              expect(taken).toBeGreaterThanOrEqual(doses.low - 1e-9);
              expect(taken).toBeLessThanOrEqual(doses.high + 1e-9);
            }
          }
        }
      }),
      { numRuns: 40, endOnFailure: true },
    );
  });

  it('are no wider than a fine grid by more than 2 %', () => {
    const all = { base: interval(3, 6), top: interval(15, 18), spread: interval(9, 11) };
    const change = { top: interval(11, 13), spread: exact(8) };
    const found = momentRatioBounds(all, change, exact(1.3), C);
    const steps = Array.from({ length: 13 }, (_, i) => i / 12);
    const seen = steps.flatMap(base =>
      [0, 1].flatMap(top =>
        [0, 1].flatMap(spread =>
          [0, 1].map(to => {
            const one = pick(all, change, [base, top, spread, 0, 0, to, 0])!;
            return momentRatio([one.before], [one.after], 1.3, C);
          }),
        ),
      ),
    );
    expect(found.low).toBeLessThanOrEqual(Math.min(...seen) + 1e-12);
    expect(found.high).toBeGreaterThanOrEqual(Math.max(...seen) - 1e-12);
    expect(Math.min(...seen) - found.low).toBeLessThan(0.02 * found.high);
    expect(found.high - Math.max(...seen)).toBeLessThan(0.02 * found.high);
  });

  it('of exact readings are exact', () => {
    const change = { top: exact(13), spread: exact(8) };
    const ratio = momentRatio([crown], [reducedCrown(crown, { top: 13, spread: 8 })], 1, C);
    const found = momentRatioBounds(exactly(crown), change, exact(1), C);
    expect(found.low).toBeCloseTo(ratio, 12);
    expect(found.high).toBeCloseTo(ratio, 12);
    // kw 0.8; half way from the widest level to the top stand 80.4 % of the silhouette and 84.4 % of the volume.
    expect(doseBounds(exactly(crown), change).low).toBeCloseTo(1 - 0.84375 * 0.8, 9);
    expect(doseBounds(exactly(crown), change).high).toBeCloseTo(1 - 0.804499 * 0.64, 6);
  });

  it('know nothing to be taken where nothing changes', () => {
    const loose = { base: interval(3, 5), top: interval(15, 17), spread: interval(8, 10) };
    expect(doseBounds(loose, {})).toEqual(exact(0));
    expect(momentRatioBounds(loose, {}, exact(1), C)).toEqual(exact(1));
  });

  it('are refused where the crown would grow for certain', () => {
    expect(() => doseBounds(exactly(crown), { top: exact(17) })).toThrow(RangeError);
    expect(() => doseBounds(exactly(crown), { spread: exact(11) })).toThrow(RangeError);
    expect(() => momentRatioBounds(exactly(crown), { base: exact(3) }, exact(1), C)).toThrow(RangeError);
    expect(() => momentRatioBounds(exactly(crown), { top: exact(12) }, exact(16), C)).toThrow(RangeError);
  });
});

describe('stress ratio', () => {
  it('is the moment ratio over what is left of the strength', () => {
    expect(stressRatio(exact(0.6), exact(0.25)).low).toBeCloseTo(0.8, 12);
    expect(stressRatio(interval(0.5, 0.6), interval(0, 0.5))).toEqual(interval(0.5, 1.2));
  });

  it('has no upper end without wood, and is nothing without load', () => {
    expect(stressRatio(exact(0.5), interval(0.5, 1))).toEqual(interval(1, Infinity));
    expect(stressRatio(exact(0), exact(1))).toEqual(exact(0));
    expect(() => stressRatio(exact(-0.1), exact(0.5))).toThrow(RangeError);
    expect(() => stressRatio(exact(1), exact(1.1))).toThrow(RangeError);
  });
});

describe('seasons', () => {
  it('are as many as leave what is to be left', () => {
    expect(seasonsNeeded(0, 0.25)).toBe(0);
    expect(seasonsNeeded(0.25, 0.25)).toBe(1);
    expect(seasonsNeeded(0.26, 0.25)).toBe(2);
    // A quarter, and a quarter of three quarters.
    expect(seasonsNeeded(0.4375, 0.25)).toBe(2);
    expect(seasonsNeeded(0.5, 0.25)).toBe(3);
    expect(seasonsNeeded(1, 0.25)).toBe(Infinity);
    expect(seasonsNeeded(1, 1)).toBe(1);
    // Limits that an office may set: nothing in any season, and more than there is.
    expect(seasonsNeeded(0.2, 0)).toBe(Infinity);
    expect(seasonsNeeded(0, 0)).toBe(0);
    expect(seasonsNeeded(0.2, 100)).toBe(1);
  });

  it('need a share', () => {
    expect(() => seasonsNeeded(1.2, 0.25)).toThrow(RangeError);
    expect(() => seasonsNeeded(Number.NaN, 0.25)).toThrow(RangeError);
  });
});
