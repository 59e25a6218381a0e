import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aircraftRule, aircraftRules } from '../../server/practice/aircraft.ts';
import { approachDistance } from '../../server/practice/electricity.ts';

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
  ])('at %i V is at least %f in, and %i in by whole steps', (volts, proportional, stepped) => {
    expect(stepped).toBeGreaterThanOrEqual(proportional);
    expect(approachDistance(volts)).toBeCloseTo(stepped * INCH, 9);
  });

  it('never decreases with the voltage', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1_200_000 }),
        fc.integer({ min: 0, max: 50_000 }),
        (volts, more) => {
          expect(approachDistance(volts + more)).toBeGreaterThanOrEqual(approachDistance(volts));
        },
      ),
    );
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
