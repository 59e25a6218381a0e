import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contains, exact, interval } from '../../server/base/interval.ts';
import { BLACK_CHERRIES } from '../../server/mechanics/black-cherry.ts';
import {
  boardFeet,
  FORM_FACTOR,
  formFactor,
  greenMass,
  huberVolume,
  type LogRule,
  longestPiece,
  newtonVolume,
  smalianVolume,
  stemVolume,
} from '../../server/mechanics/timber.ts';
import { between, inside, ranges, share } from './arbitrary.ts';

const INCH = 0.0254;
const FOOT = 0.3048;
const RULES: readonly LogRule[] = ['Doyle', 'International 1/4-inch', 'Scribner'];
const log = (inches: number, feet: number) => ({ smallEnd: inches * INCH, length: feet * FOOT });

describe('log volume', () => {
  it('agrees between the three formulas on a cylinder', () => {
    const cylinder = { length: 3, smallEnd: 0.4 };
    const volume = 3 * Math.PI * 0.04;
    for (const figure of [smalianVolume, huberVolume, newtonVolume])
      expect(figure(cylinder)).toBeCloseTo(volume, 12);
  });

  it('by Newton is exact for a cone’s frustum', () => {
    const frustum = { length: 5, smallEnd: 0.3, largeEnd: 0.5 };
    const exactly = ((Math.PI * 5) / 12) * (0.3 ** 2 + 0.3 * 0.5 + 0.5 ** 2);
    expect(newtonVolume(frustum)).toBeCloseTo(exactly, 12);
    expect(huberVolume(frustum)).toBeLessThan(exactly);
    expect(smalianVolume(frustum)).toBeGreaterThan(exactly);
  });

  it('loses the hollow as a cylinder, and no more than there is', () => {
    const hollow = { length: 2, smallEnd: 0.5, largeEnd: 0.6, hollow: 0.2 };
    const { hollow: _, ...sound } = hollow;
    expect(smalianVolume(sound) - smalianVolume(hollow)).toBeCloseTo(2 * Math.PI * 0.01, 12);
    expect(huberVolume({ length: 2, smallEnd: 0.5, hollow: 0.6 })).toBe(0);
  });

  it('refuses a log of no size', () => {
    for (const bad of [
      { length: 0, smallEnd: 0.3 },
      { length: 2, smallEnd: -0.1 },
      { length: Number.NaN, smallEnd: 0.3 },
      { length: 2, smallEnd: 0.3, hollow: -0.1 },
      { length: 2, smallEnd: 0.3, middle: Infinity },
    ]) {
      expect(() => smalianVolume(bad)).toThrow(RangeError);
      expect(() => boardFeet('Doyle', bad)).toThrow(RangeError);
    }
  });
});

describe('board feet', () => {
  it('are nothing for the thinnest logs, never less', () => {
    expect(boardFeet('Doyle', log(4, 16))).toBe(0);
    for (const rule of RULES) expect(boardFeet(rule, log(1, 16))).toBe(0);
  });

  it('by International give the closed form of 16 ft', () => {
    const formula = (d: number) => 0.905 * (0.88 * d * d - 1.52 * d - 1.36);
    for (const d of [8, 12, 20, 36])
      expect(boardFeet('International 1/4-inch', log(d, 16))).toBeCloseTo(formula(d), 6);
  });

  it('lose the hollow at twelve to the cubic foot', () => {
    // A hollow of 12 in over 16 ft: π/4 · 16 ft³ · 12.
    const whole = log(30, 16);
    expect(boardFeet('Doyle', whole) - boardFeet('Doyle', { ...whole, hollow: 12 * INCH })).toBeCloseTo(
      (Math.PI / 4) * 16 * 12,
      6,
    );
    expect(boardFeet('Doyle', { ...whole, hollow: 29 * INCH })).toBe(0);
  });

  it('rise with diameter and with length', () => {
    fc.assert(
      fc.property(
        between(2, 60),
        between(0, 10),
        between(2, 40),
        between(0, 10),
        fc.constantFrom(...RULES),
        (d, thicker, feet, longer, rule) => {
          const least = boardFeet(rule, log(d, feet));
          expect(boardFeet(rule, log(d + thicker, feet))).toBeGreaterThanOrEqual(least - 1e-6);
          expect(boardFeet(rule, log(d, feet + longer))).toBeGreaterThanOrEqual(least - 1e-6);
        },
      ),
    );
  });
});

describe('stem volume by form factor', () => {
  it('holds each of the 31 measured black cherries', () => {
    expect(BLACK_CHERRIES).toHaveLength(31);
    for (const { diameter, height, volume } of BLACK_CHERRIES) {
      const { low, high } = stemVolume(exact(diameter), exact(height));
      expect(volume).toBeGreaterThanOrEqual(low * (1 - 1e-12));
      expect(volume).toBeLessThanOrEqual(high * (1 + 1e-12));
    }
  });

  it('comes out within 1 % for all of them together by the mean form factor', () => {
    const mean = BLACK_CHERRIES.reduce((sum, tree) => sum + formFactor(tree), 0) / 31;
    const total = BLACK_CHERRIES.reduce((sum, { volume }) => sum + volume, 0);
    const figured = BLACK_CHERRIES.reduce(
      (sum, { diameter, height }) => sum + stemVolume(exact(diameter), exact(height), exact(mean)).low,
      0,
    );
    expect(Math.abs(figured / total - 1)).toBeLessThan(0.01);
    expect(contains(FORM_FACTOR, mean)).toBe(true);
  });

  it('holds what every pair of readings allows, and refuses nothing', () => {
    fc.assert(
      fc.property(ranges(0.2, 1), ranges(5, 30), share, share, share, (d, h, i, j, k) => {
        const one = stemVolume(exact(inside(d, i)), exact(inside(h, j)), exact(inside(FORM_FACTOR, k)));
        const { low, high } = stemVolume(d, h);
        expect(contains(interval(low * (1 - 1e-12), high * (1 + 1e-12)), one.low)).toBe(true);
      }),
    );
    expect(() => stemVolume(exact(0), exact(10))).toThrow(RangeError);
  });
});

describe('mass', () => {
  it('is volume times density', () => {
    expect(greenMass(interval(1, 2), interval(800, 1000))).toEqual(interval(800, 2000));
    expect(() => greenMass(exact(1), exact(0))).toThrow(RangeError);
    expect(() => greenMass(exact(-1), exact(900))).toThrow(RangeError);
  });

  it('of the longest piece is the limit', () => {
    fc.assert(
      fc.property(
        between(20, 2000),
        ranges(0.1, 1.5),
        ranges(500, 1300),
        share,
        share,
        (limit, d, rho, i, j) => {
          const piece = longestPiece(limit, d, rho);
          const mass = (length: number) => length * (Math.PI / 4) * inside(d, i) ** 2 * inside(rho, j);
          expect(mass(piece.low)).toBeLessThanOrEqual(limit * (1 + 1e-12));
          expect(mass(piece.high)).toBeGreaterThanOrEqual(limit * (1 - 1e-12));
        },
      ),
    );
  });

  it('has no longest piece without a limit, a diameter or a density', () => {
    expect(() => longestPiece(0, exact(0.3), exact(900))).toThrow(RangeError);
    expect(() => longestPiece(100, exact(0), exact(900))).toThrow(RangeError);
    expect(() => longestPiece(100, exact(0.3), exact(0))).toThrow(RangeError);
  });
});
