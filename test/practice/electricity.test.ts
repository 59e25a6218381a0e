import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aircraftRule, aircraftRules } from '../../server/practice/aircraft.ts';
import { approachDistance as distanceBy } from '../../server/practice/electricity.ts';
import { regionPack, regionPacks } from '../../server/practice/regions.ts';

const INCH = 0.0254;

/** Of unqualified people in a place. */
const approachDistance = (volts: number, region = 'US'): number =>
  distanceBy(volts, regionPack(region).pack.approach.value);

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

  it.each([
    ['DE', 20_000, 3],
    ['DE', 380_000, 5],
    ['FR', 63_000, 5],
    ['ES', 66_000, 3],
    ['ES', 88_000, 4],
    ['ES', 132_000, 5],
    ['IT', 15_000, 3.5],
    ['IT', 380_000, 7],
    ['BE', 70_000, 3.2],
    ['NZ', 11_000, 4],
    ['CA-AB', 69_000, 3.5],
    ['CA-QC', 735_000, 12],
    ['AU-WA', 66_000, 6],
    ['AU-SA', 132_000, 5],
    ['GB', 11_000, 10],
  ])('in %s at %i V is %f m', (region, volts, metres) => {
    expect(approachDistance(volts, region)).toBeCloseTo(metres, 9);
  });

  it('is no law of another country where none is on record, but the greatest on record', () => {
    for (const region of ['BR', 'ZA', '']) {
      expect(regionPack(region).pack.approach.citation.short).toContain('stand-in');
      expect(approachDistance(12_500, region)).toBe(4);
      expect(approachDistance(735_000, region)).toBe(12);
    }
    // Beyond the end of a table the stand-in goes on.
    expect(approachDistance(735_000, 'DE')).toBe(12);
  });

  it('never decreases with the voltage', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...regionPacks.map(({ code }) => code)),
        fc.integer({ min: 0, max: 1_200_000 }),
        fc.integer({ min: 0, max: 50_000 }),
        (region, volts, more) => {
          expect(approachDistance(volts + more, region)).toBeGreaterThanOrEqual(
            approachDistance(volts, region),
          );
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
