import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Crown } from '../../server/mechanics/crown.ts';
import { offsettingReduction, type WeakSection } from '../../server/mechanics/offsetting.ts';
import { momentRatio, reducedCrown } from '../../server/mechanics/reduction.ts';
import type { WindSite } from '../../server/mechanics/wind.ts';
import { between } from './arbitrary.ts';

const B: WindSite = { exposure: 'B', edition: 'ASCE 7-10' };
const crown: Crown = { base: 4, top: 18, spread: 11 };
type Weak = Pick<WeakSection, 'height' | 'strengthLoss'> & Partial<WeakSection>;
const offset = (sections: readonly Weak[]) =>
  offsettingReduction(
    sections.map(section => ({ crowns: [crown], site: B, ...section })),
    0.25,
  );

/** Stress ratio of a section once the crown is reduced. */
const stress = (reduction: number, { height, strengthLoss }: Weak) => {
  const after = reducedCrown(crown, { top: 4 + 14 * (1 - reduction), spread: 11 * (1 - reduction) });
  return momentRatio([crown], [after], height, B) / (1 - strengthLoss);
};

describe('the reduction that offsets a loss', () => {
  it('is none for sound wood', () => {
    expect(offset([{ height: 1, strengthLoss: 0 }])).toEqual({
      reduction: 0,
      dose: { low: 0, high: 0 },
      seasons: { low: 0, high: 0 },
      reach: 'one season',
      outOfReach: false,
    });
    expect(offset([]).reduction).toBe(0);
  });

  it('brings the stress ratio to one, and no less would do', () => {
    fc.assert(
      fc.property(between(0, 8), between(0.02, 0.9), (height, strengthLoss) => {
        const section = { height, strengthLoss };
        const { reduction } = offset([section]);
        expect(stress(reduction, section)).toBeLessThanOrEqual(1);
        expect(stress(reduction - 0.001, section)).toBeGreaterThan(1);
      }),
    );
  });

  it('serves the section that asks for most', () => {
    const sections = [
      { height: 1, strengthLoss: 0.1 },
      { height: 6, strengthLoss: 0.4 },
      { height: 2, strengthLoss: 0.2 },
    ];
    const all = offset(sections);
    expect(all.governing).toBe(1);
    expect(all.reduction).toBe(offset([sections[1]!]).reduction);
    for (const section of sections) expect(stress(all.reduction, section)).toBeLessThanOrEqual(1);
  });

  it('grows with the loss', () => {
    fc.assert(
      fc.property(between(0, 8), between(0, 0.9), between(0, 0.1), (height, strengthLoss, more) => {
        const less = offset([{ height, strengthLoss }]).reduction;
        expect(offset([{ height, strengthLoss: strengthLoss + more }]).reduction).toBeGreaterThanOrEqual(
          less,
        );
      }),
    );
  });

  it('takes from silhouette to volume, and says whether pruning reaches that far', () => {
    const mild = offset([{ height: 1, strengthLoss: 0.15 }]);
    expect(mild.dose.low).toBeCloseTo(1 - (1 - mild.reduction) ** 2, 12);
    expect(mild.dose.high).toBeCloseTo(1 - (1 - mild.reduction) ** 3, 12);
    expect(mild.reach).toBe('one season');
    expect(mild.seasons).toEqual({ low: 1, high: 1 });
    expect(offset([{ height: 1, strengthLoss: 0.4 }]).reach).toBe('staged');
    expect(offset([{ height: 1, strengthLoss: 0.55 }])).toMatchObject({
      reach: 'perhaps out of reach',
      outOfReach: false,
    });
    expect(offset([{ height: 1, strengthLoss: 0.8 }])).toMatchObject({
      reach: 'out of reach',
      outOfReach: true,
    });
  });

  it('is all of the crown where there is no wood below it', () => {
    const gone = offset([{ height: 1, strengthLoss: 1 }]);
    expect(gone).toMatchObject({ reduction: 1, dose: { low: 1, high: 1 }, outOfReach: true });
    expect(gone.seasons.low).toBe(Infinity);
    // Inside the crown: down to the section.
    const above = offset([{ height: 11, strengthLoss: 1 }]).reduction;
    expect(above).toBeGreaterThanOrEqual(0.5);
    expect(above).toBeLessThan(0.501);
  });

  it('serves the wind that asks for most', () => {
    const winds = (['B', 'C', 'D'] as const).map(exposure => ({ ...B, exposure }));
    const asked = winds.map(site => ({ height: 1, strengthLoss: 0.3, site }));
    const each = asked.map(section => offset([section]).reduction);
    expect(offset(asked).reduction).toBe(Math.max(...each));
    expect(offset(asked.toReversed()).reduction).toBe(Math.max(...each));
  });

  it('judges a leader’s section by the leader’s crown', () => {
    const leader = { base: 10, top: 18, spread: 5 };
    const own = offset([{ height: 8, strengthLoss: 0.3, crowns: [leader] }]);
    expect(own.reduction).not.toBe(offset([{ height: 8, strengthLoss: 0.3 }]).reduction);
  });

  it('is refused without a crown above the section or for a loss beyond all', () => {
    expect(() => offset([{ height: 18, strengthLoss: 0.1 }])).toThrow(RangeError);
    expect(() => offset([{ height: 1, strengthLoss: 1.1 }])).toThrow(RangeError);
    expect(() => offset([{ height: 1, strengthLoss: Number.NaN }])).toThrow(RangeError);
    expect(() => offset([{ height: 1, strengthLoss: 0.1, crowns: [] }])).toThrow(RangeError);
  });
});
