import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, type Interval, interval } from '../../server/base/interval.ts';
import type { Crown } from '../../server/mechanics/crown.ts';
import {
  criticalWind,
  type Exposure,
  groundMomentBounds,
  pressureCoefficient,
  safetyFactor,
  velocityPressure,
  type WindSite,
  windMoment,
  windMomentBounds,
} from '../../server/mechanics/wind.ts';
import { between, inside, ranges, share } from './arbitrary.ts';
import { silhouetteWidth } from './silhouette.ts';

const B: WindSite = { exposure: 'B', edition: 'ASCE 7-16' };
const FIFTEEN_FEET = 15 * 0.3048;

/** The moment by many thin slices: slow, and independent of the module's own integration. */
function slices(crown: Crown, height: number, speed: number, site: WindSite, drag: number): number {
  const count = 20_000;
  const step = (crown.top - crown.base) / count;
  let sum = 0;
  for (let i = 0; i < count; i++) {
    const z = crown.base + (i + 0.5) * step;
    if (z <= height) continue;
    sum += velocityPressure(z, speed, site) * silhouetteWidth(crown, z) * (z - height) * step;
  }
  return sum * drag;
}

const sites = fc.record({
  exposure: fc.constantFrom<Exposure>('B', 'C', 'D'),
  edition: fc.constantFrom('ASCE 7-10' as const, 'ASCE 7-16' as const, 'ASCE 7-22' as const),
});

describe('velocity pressure', () => {
  it('is constant up to 15 ft and rises from there, the more open the stronger', () => {
    expect(pressureCoefficient(0, B)).toBe(pressureCoefficient(FIFTEEN_FEET, B));
    fc.assert(
      fc.property(between(FIFTEEN_FEET, 60), between(0, 20), sites, (z, higher, site) => {
        expect(pressureCoefficient(z + higher, site)).toBeGreaterThanOrEqual(pressureCoefficient(z, site));
        expect(pressureCoefficient(z, { ...site, exposure: 'D' })).toBeGreaterThan(
          pressureCoefficient(z, { ...site, exposure: 'B' }),
        );
      }),
    );
  });

  it('grows with the square of the speed', () => {
    expect(velocityPressure(10, 40, B) / velocityPressure(10, 20, B)).toBeCloseTo(4, 12);
    expect(velocityPressure(10, 0, B)).toBe(0);
  });

  it('is refused below ground and for no speed', () => {
    expect(() => pressureCoefficient(-1, B)).toThrow(RangeError);
    expect(() => velocityPressure(10, Number.NaN, B)).toThrow(RangeError);
    expect(() => velocityPressure(10, -1, B)).toThrow(RangeError);
  });
});

describe('silhouette', () => {
  it('is an ellipse, or two halves about its widest level', () => {
    const crown = { base: 4, top: 14, spread: 8 };
    expect(silhouetteWidth(crown, 9)).toBe(8);
    expect(silhouetteWidth(crown, 4)).toBe(0);
    expect(silhouetteWidth(crown, 15)).toBe(0);
    expect(silhouetteWidth(crown, 12)).toBeCloseTo(8 * 0.8, 12);
    const pear = { ...crown, widest: 6 };
    expect(silhouetteWidth(pear, 6)).toBe(8);
    expect(silhouetteWidth(pear, 10)).toBeCloseTo(8 * Math.sqrt(0.75), 12);
    expect(silhouetteWidth({ ...crown, widest: 14 }, 14)).toBe(8);
  });

  it('is refused for a crown that cannot be', () => {
    for (const crown of [
      { base: 5, top: 5, spread: 3 },
      { base: -1, top: 5, spread: 3 },
      { base: 1, top: 5, spread: 0 },
      { base: 1, top: Number.NaN, spread: 3 },
      { base: 1, top: 5, spread: 3, widest: 6 },
    ])
      expect(() => silhouetteWidth(crown, 3)).toThrow(RangeError);
  });
});

describe('moment', () => {
  it('under constant pressure is area times arm', () => {
    // All of the crown below 15 ft.
    const crown = { base: 1, top: 4.5, spread: 3 };
    const area = (Math.PI / 4) * 3.5 * 3;
    const force = velocityPressure(0, 30, B) * 0.25 * area;
    expect(windMoment([crown], 0, 30, B)).toBeCloseTo(force * 2.75, 6);
    expect(windMoment([crown], 0.5, 30, B)).toBeCloseTo(force * 2.25, 6);
    // The upper half of an ellipse: centroid at 4/(3π) of its height.
    const upper = windMoment([crown], 2.75, 30, B);
    expect(upper / ((force / 2) * ((4 / (3 * Math.PI)) * 1.75))).toBeCloseTo(1, 5);
    // Widest on the ground line of the crown: one half ellipse as high as the crown.
    const dome = windMoment([{ ...crown, widest: 1 }], 0, 30, B);
    expect(dome / (force * (1 + (4 / (3 * Math.PI)) * 3.5))).toBeCloseTo(1, 5);
  });

  it('agrees with thin slices within 0.1 %', () => {
    const random = fc.record({
      base: between(0, 8),
      length: between(1, 25),
      spread: between(1, 20),
      widestAt: fc.option(share),
      heightAt: between(0, 0.95),
      site: sites,
    });
    fc.assert(
      fc.property(random, ({ base, length, spread, widestAt, heightAt, site }) => {
        const top = base + length;
        const crown = {
          base,
          top,
          spread,
          ...(widestAt === null ? {} : { widest: base + widestAt * length }),
        };
        const height = heightAt * top;
        const sliced = slices(crown, height, 40, site, 0.25);
        expect(windMoment([crown], height, 40, site) / sliced).toBeCloseTo(1, 3);
      }),
      { numRuns: 40 },
    );
  });

  it('is nothing above the crown, and adds up over leaders', () => {
    const leader = { base: 6, top: 16, spread: 5 };
    expect(windMoment([leader], 16, 40, B)).toBe(0);
    expect(windMoment([leader], 20, 40, B)).toBe(0);
    expect(windMoment([leader, leader], 3, 40, B)).toBeCloseTo(2 * windMoment([leader], 3, 40, B), 6);
  });

  it('is refused without a crown, a height or a wind', () => {
    const crown = { base: 2, top: 10, spread: 6 };
    expect(() => windMoment([], 1, 40, B)).toThrow(RangeError);
    expect(() => windMoment([crown], -1, 40, B)).toThrow(RangeError);
    expect(() => windMoment([crown], 1, Number.NaN, B)).toThrow(RangeError);
    expect(() => windMoment([crown], 1, 40, B, -0.1)).toThrow(RangeError);
    expect(() => windMomentBounds([], exact(1), exact(40), B, DRAG)).toThrow(RangeError);
  });
});

const DRAG = interval(0.2, 0.3);

/** A value at the share of the way through each reading; undefined where that is no crown. */
function crownInside(crown: Crown<Interval>, shares: readonly number[]): Crown | undefined {
  const [base, top, spread] = [crown.base, crown.top, crown.spread].map((a, i) => inside(a, shares[i]!));
  const widest = crown.widest && inside(crown.widest, shares[3]!);
  if (!(base! < top!) || (widest !== undefined && (widest < base! || widest > top!))) return undefined;
  return { base: base!, top: top!, spread: spread!, ...(widest === undefined ? {} : { widest }) };
}

const uncertainCrowns = fc
  .record({ base: ranges(0, 8), top: ranges(6, 25), spread: ranges(2, 15), widest: fc.option(ranges(3, 15)) })
  .map(({ widest, ...crown }): Crown<Interval> => (widest ? { ...crown, widest } : crown));

describe('bounds of the moment', () => {
  const shares = fc.array(share, { minLength: 7, maxLength: 7 });

  it('hold everything that the readings allow', () => {
    fc.assert(
      fc.property(
        uncertainCrowns,
        ranges(0, 12),
        ranges(20, 50),
        sites,
        fc.array(shares, { minLength: 8 }),
        (crown, height, speed, site, samples) => {
          fc.pre(crown.base.low < crown.top.high);
          const all = windMomentBounds([crown], height, speed, site, DRAG);
          for (const at of samples) {
            const one = crownInside(crown, at);
            if (!one) continue;
            const drag = inside(DRAG, at[6]!);
            const moment = windMoment([one], inside(height, at[4]!), inside(speed, at[5]!), site, drag);
            expect(contains(interval(all.low * (1 - 1e-9), all.high * (1 + 1e-9)), moment)).toBe(true);
          }
        },
      ),
      { numRuns: 100 },
    );
  });

  it('are no wider than what is sampled by more than 2 %', () => {
    const crown = { base: interval(2, 5), top: interval(14, 17), spread: interval(7, 9) };
    const all = windMomentBounds([crown], exact(1.3), exact(40), B, exact(0.25));
    const corners = [2, 3.5, 5].flatMap(base =>
      [14, 17].flatMap(top => [7, 9].map(spread => windMoment([{ base, top, spread }], 1.3, 40, B))),
    );
    const slack = 0.02 * Math.max(...corners);
    expect(Math.min(...corners) - all.low).toBeLessThan(slack);
    expect(all.high - Math.max(...corners)).toBeLessThan(slack);
  });

  it('of exact readings are exact but for the drag', () => {
    const crown = { base: exact(3), top: exact(15), spread: exact(8) };
    const { low, high } = windMomentBounds([crown], exact(1), exact(40), B, DRAG);
    expect(high / low).toBeCloseTo(1.5, 9);
    expect(low).toBeCloseTo(windMoment([{ base: 3, top: 15, spread: 8 }], 1, 40, B, 0.2), 6);
  });
});

describe('safety factor', () => {
  it('is strength times section over moment', () => {
    // 50 MPa, half a metre thick, 100 kN·m.
    const section = exact((Math.PI * 0.5 ** 3) / 32);
    expect(safetyFactor(exact(50e6), section, exact(100e3)).low).toBeCloseTo(6.1359, 4);
    expect(safetyFactor(interval(40e6, 50e6), section, interval(50e3, 100e3))).toEqual(
      interval((40e6 * section.low) / 100e3, (50e6 * section.low) / 50e3),
    );
  });

  it('has no upper end without wind', () => {
    expect(safetyFactor(exact(50e6), exact(0.01), exact(0))).toEqual(exact(Infinity));
    expect(() => safetyFactor(exact(-1), exact(0.01), exact(1))).toThrow(RangeError);
  });
});

describe('critical wind', () => {
  it('is the design wind at a factor of one, and lies between the two laws', () => {
    expect(criticalWind(40, exact(1))).toEqual(exact(40));
    const slow = criticalWind(40, exact(0.5));
    expect(slow.low).toBeCloseTo(40 * 0.5 ** (1 / 1.3), 9);
    expect(slow.high).toBeCloseTo(40 * Math.SQRT1_2, 9);
    expect(criticalWind(40, interval(0, Infinity))).toEqual(interval(0, Infinity));
    expect(() => criticalWind(40, interval(-1, 1))).toThrow(RangeError);
  });
});

describe('the moment at the ground', () => {
  it('lies within its bounds, and is exact for an exact crown', () => {
    const ups = fc.constantFrom(undefined, { rise: 0.4, fading: 0.03 }, { rise: 0.7, fading: 0.3 });
    fc.assert(
      fc.property(
        ranges(0, 8),
        ranges(9, 30),
        ranges(2, 20),
        fc.record({ exposure: fc.constantFrom<Exposure>('B', 'C', 'D'), hill: ups }),
        fc.tuple(share, share, share),
        (base, top, spread, { exposure, hill }, [a, b, c]) => {
          const site: WindSite = { exposure, edition: 'ASCE 7-16', hill };
          const wide = groundMomentBounds({ base, top, spread }, site);
          const crown = { base: inside(base, a), top: inside(top, b), spread: inside(spread, c) };
          const one = windMoment([crown], 0, 1, site, 1);
          expect(wide.low).toBeLessThanOrEqual(one * (1 + 1e-9));
          expect(wide.high).toBeGreaterThanOrEqual(one * (1 - 1e-9));
          const exactly = {
            base: exact(crown.base),
            top: exact(crown.top),
            spread: exact(crown.spread),
          };
          expect(groundMomentBounds(exactly, site).low).toBeCloseTo(one, 6);
        },
      ),
      { numRuns: Number(process.env.SAMPLES ?? 300) },
    );
  });
});
