import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aircraftRule, aircraftRules } from '../../server/practice/aircraft.ts';
import {
  approachDistance,
  approachDistanceInProportion,
  lineClearanceDistance,
} from '../../server/practice/electricity.ts';

const INCH = 0.0254;

describe('approach distance', () => {
  it.each([
    [120, 120, 120],
    [50_000, 120, 120],
    [69_000, 127.6, 128],
    [72_500, 129, 132],
    [115_000, 146, 148],
    [121_000, 148.4, 152],
    [145_000, 158, 160],
    [230_000, 192, 192],
    [242_000, 196.8, 200],
    [345_000, 238, 240],
    [362_000, 244.8, 248],
    [550_000, 320, 320],
    [800_000, 420, 420],
  ])('at %i V is %f in in proportion and %i in by steps', (volts, proportional, stepped) => {
    expect(approachDistanceInProportion(volts)).toBeCloseTo(proportional * INCH, 9);
    expect(approachDistance(volts)).toBeCloseTo(stepped * INCH, 9);
  });

  it('by steps is the stricter, by less than a step, and never falls', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1_200_000 }),
        fc.integer({ min: 0, max: 50_000 }),
        (volts, more) => {
          const excess = approachDistance(volts) - approachDistanceInProportion(volts);
          expect(excess).toBeGreaterThanOrEqual(-1e-12);
          expect(excess).toBeLessThan(4 * INCH);
          expect(approachDistance(volts + more)).toBeGreaterThanOrEqual(approachDistance(volts));
        },
      ),
    );
  });

  it('of qualified arborists is known for the table’s voltages only, and always nearer', () => {
    expect(lineClearanceDistance(300)).toBeUndefined();
    expect(lineClearanceDistance(12_470)).toBe(0.65);
    expect(lineClearanceDistance(15_000)).toBe(0.65);
    expect(lineClearanceDistance(15_001)).toBe(0.77);
    expect(lineClearanceDistance(115_000)).toBeUndefined();
    for (const volts of [400, 4_160, 25_000, 46_000, 69_000]) {
      expect(lineClearanceDistance(volts)).toBeLessThan(approachDistance(volts));
    }
  });
});

describe('small unmanned aircraft', () => {
  it('has the figures of 14 CFR 107 in SI units', () => {
    expect(aircraftRule('107.51(b)')).toMatchObject({ dimension: 'length', direction: 'at most' });
    expect(aircraftRule('107.51(b)')?.value).toBeCloseTo(121.92, 9);
    expect(aircraftRule('107.51(a)')?.value).toBeCloseTo(44.704, 9);
    expect(aircraftRule('107.51(c)')?.value).toBeCloseTo(4828.032, 9);
    expect(aircraftRule('107.3')?.value).toBeCloseTo(24.9476, 4);
    expect(aircraftRule('107.999')).toBeUndefined();
  });

  it('states each section once', () => {
    expect(new Set(aircraftRules.map(({ section }) => section)).size).toBe(aircraftRules.length);
    for (const rule of aircraftRules) {
      expect(rule.value === undefined).toBe(rule.direction === undefined);
      expect(rule.value === undefined).toBe(rule.dimension === undefined);
    }
  });
});
