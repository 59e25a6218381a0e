import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, type Interval, interval } from '../../server/base/interval.ts';
import type { Crown } from '../../server/mechanics/crown.ts';
import { offsettingReduction } from '../../server/mechanics/offsetting.ts';
import {
  doseBounds,
  momentRatio,
  momentRatioBounds,
  reducedCrown,
} from '../../server/mechanics/reduction.ts';
import type { WindSite } from '../../server/mechanics/wind.ts';
import { between, ranges } from './arbitrary.ts';

const B: WindSite = { exposure: 'B', edition: 'ASCE 7-10' };
const WINDS: readonly WindSite[] = (['B', 'C', 'D'] as const).map(exposure => ({ ...B, exposure }));
const crown: Crown = { base: 4, top: 18, spread: 11 };
const exactly = ({ base, top, spread }: Crown): Crown<Interval> => ({
  base: exact(base),
  top: exact(top),
  spread: exact(spread),
});
interface Weak {
  readonly height: number;
  readonly strengthLoss: number;
}
const offset = (sections: readonly Weak[], of = exactly(crown), sites: readonly WindSite[] = [B]) =>
  offsettingReduction({
    crown: of,
    sections: sections.map(({ height, strengthLoss }) => ({ height: exact(height), strengthLoss })),
    sites,
    seasonLimit: 0.25,
  });

/** Stress ratio of a section once the crown is reduced. */
const stress = (reduction: number, { height, strengthLoss }: Weak) => {
  const after = reducedCrown(crown, { top: 4 + 14 * (1 - reduction), spread: 11 * (1 - reduction) });
  return momentRatio([crown], [after], height, B) / (1 - strengthLoss);
};

describe('the reduction that offsets a loss', () => {
  it('is none for sound wood', () => {
    expect(offset([{ height: 1, strengthLoss: 0 }])).toEqual({
      reduction: 0,
      top: 18,
      spread: 11,
      dose: { low: 0, high: 0 },
      seasons: { low: 0, high: 0 },
      reach: 'one season',
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

  it('followed to the height and spread it names, is enough whatever the readings allow', () => {
    fc.assert(
      fc.property(
        fc.record({ base: ranges(2, 5), top: ranges(14, 20), spread: ranges(8, 12) }),
        ranges(0, 3),
        between(0.05, 0.5),
        (of, height, strengthLoss) => {
          const found = offsettingReduction({
            crown: of,
            sections: [{ height, strengthLoss }],
            sites: WINDS,
            seasonLimit: 0.25,
          });
          fc.pre(found.reduction < 1);
          const change = { top: exact(found.top), spread: exact(found.spread) };
          for (const wind of WINDS)
            expect(momentRatioBounds(of, change, height, wind).high).toBeLessThanOrEqual(1 - strengthLoss);
          expect(found.dose).toEqual(doseBounds(of, change));
        },
      ),
    );
  });

  it('perhaps is no more than surely, and the same where the crown is known', () => {
    const problem = {
      sections: [{ height: exact(1), strengthLoss: 0.3 }],
      sites: [B],
      seasonLimit: 0.25,
    };
    const known = { ...problem, crown: exactly(crown) };
    expect(offsettingReduction(known, 'perhaps')).toEqual(offsettingReduction(known));
    const loose = { ...problem, crown: { ...exactly(crown), top: interval(16, 20) } };
    expect(offsettingReduction(loose, 'perhaps').reduction).toBeLessThan(
      offsettingReduction(loose).reduction,
    );
  });

  it('serves the section that asks for most', () => {
    const sections = [
      { height: 1, strengthLoss: 0.1 },
      { height: 6, strengthLoss: 0.4 },
      { height: 2, strengthLoss: 0.2 },
    ];
    const all = offset(sections);
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

  it('says whether pruning reaches that far', () => {
    const mild = offset([{ height: 1, strengthLoss: 0.15 }]);
    expect(mild.reach).toBe('one season');
    expect(mild.seasons).toEqual({ low: 1, high: 1 });
    expect(offset([{ height: 1, strengthLoss: 0.4 }]).reach).toBe('staged');
    expect(offset([{ height: 1, strengthLoss: 0.55 }]).reach).toBe('perhaps out of reach');
    expect(offset([{ height: 1, strengthLoss: 0.8 }]).reach).toBe('out of reach');
  });

  it('is all of the crown where there is no wood below it', () => {
    const gone = offset([{ height: 1, strengthLoss: 1 }]);
    expect(gone).toMatchObject({ reduction: 1, dose: { low: 1, high: 1 }, reach: 'out of reach' });
    expect(gone.seasons.low).toBe(Infinity);
    // Inside the crown: down to the section.
    const above = offset([{ height: 11, strengthLoss: 1 }]).reduction;
    expect(above).toBeGreaterThanOrEqual(0.5);
    expect(above).toBeLessThan(0.501);
  });

  it('serves the wind that asks for most', () => {
    const section = [{ height: 1, strengthLoss: 0.3 }];
    const each = WINDS.map(wind => offset(section, exactly(crown), [wind]).reduction);
    expect(offset(section, exactly(crown), WINDS).reduction).toBe(Math.max(...each));
  });

  it('is refused without a crown above the section or for a loss beyond all', () => {
    expect(() => offset([{ height: 18, strengthLoss: 0.1 }])).toThrow(RangeError);
    expect(() => offset([{ height: 1, strengthLoss: 1.1 }])).toThrow(RangeError);
    expect(() => offset([{ height: 1, strengthLoss: Number.NaN }])).toThrow(RangeError);
  });
});

describe('crowns in whole feet and half metres', () => {
  // Their ends in metres, computed back and forth, may come out a last bit longer: once the end of the program.
  const every = function* (unit: number, step: number, most: number) {
    for (let base = step; base <= 40 * step; base += step)
      for (let top = base + 5 * step; top <= most; top += step) yield { base: base * unit, top: top * unit };
  };
  it.each([
    ['feet', 0.3048, 1, 150],
    ['metres', 1, 0.5, 45],
  ] as const)('are all offset, in %s', (_, unit, step, most) => {
    let trees = 0;
    for (const { base, top } of every(unit, step, most)) {
      const of = exactly({ base, top, spread: 10 });
      const { reduction } = offset([{ height: base / 2, strengthLoss: 0.02 }], of);
      expect(reduction).toBeGreaterThan(0);
      expect(reduction).toBeLessThan(0.1);
      expect(offset([{ height: base / 2, strengthLoss: 0 }], of).reduction).toBe(0);
      trees++;
    }
    expect(trees).toBeGreaterThan(2000);
  });
});
