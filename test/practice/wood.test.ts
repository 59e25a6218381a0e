import { describe, expect, it } from 'vitest';
import {
  greenDensity,
  logRuleValue,
  logRuleValues,
  lookupSpecies,
  wood,
  woodsOf,
  woodTable,
} from '../../server/practice/index.ts';

const PSI = 6894.757293168;

describe('wood', () => {
  // Typed again from the handbook's inch-pound rows: psi, million psi, psi, specific gravity.
  it.each([
    ['Pinus ponderosa', 5100, 1.0, 2450, 0.38],
    ['Pinus serotina', 7400, 1.28, 3660, 0.51],
    ['Pinus elliottii', 8700, 1.53, 3820, 0.54],
    ['Pinus lambertiana', 4900, 1.03, 2460, 0.34],
    ['Pinus virginiana', 7300, 1.22, 3420, 0.45],
    ['Pinus monticola', 4700, 1.19, 2430, 0.36],
  ])('%s is as verified', (botanical, rupture, elasticity, compression, specificGravity) => {
    const row = wood(botanical)!;
    expect(row.status).toBe('verified');
    expect(row.modulusOfRupture / PSI).toBeCloseTo(rupture, 6);
    expect(row.modulusOfElasticity / PSI / 1e6).toBeCloseTo(elasticity, 9);
    expect(row.compressionStrength / PSI).toBeCloseTo(compression, 6);
    expect(row.specificGravity).toBe(specificGravity);
  });

  it('of a species that is not in the table is unknown: nothing stands in', () => {
    expect(wood('Platanus × hispanica')).toBeUndefined();
    expect(wood('Tilia cordata')).toBeUndefined();
    expect(wood('Acer')).toBeUndefined();
    expect(wood('Eucalyptus globulus')).toBeUndefined();
    expect(woodsOf('Acer platanoides')).toEqual([]);
  });

  it('of redwood has two rows, and the weaker answers', () => {
    expect(woodsOf('Sequoia sempervirens').map(({ common }) => common)).toEqual([
      'Redwood, old-growth',
      'Redwood, young-growth',
    ]);
    expect(wood('Sequoia sempervirens')?.modulusOfRupture).toBeCloseTo(5900 * PSI, 3);
  });

  it('has each row once, with sane figures', () => {
    expect(new Set(woodTable.map(({ common }) => common)).size).toBe(woodTable.length);
    expect(woodTable).toHaveLength(98);
    for (const row of woodTable) {
      expect(row.modulusOfRupture, row.common).toBeGreaterThan(20e6);
      expect(row.modulusOfRupture, row.common).toBeLessThan(110e6);
      expect(row.modulusOfElasticity, row.common).toBeGreaterThan(3e9);
      expect(row.modulusOfElasticity, row.common).toBeLessThan(15e9);
      // Green wood is crushed long before it would break in bending: about 35 to 60 %.
      expect(row.compressionStrength / row.modulusOfRupture, row.common).toBeGreaterThan(0.35);
      expect(row.compressionStrength / row.modulusOfRupture, row.common).toBeLessThan(0.6);
    }
  });

  it('is mostly of species that the species table knows', () => {
    const unknown = woodTable.map(({ botanical }) => botanical).filter(name => !lookupSpecies(name));
    expect(unknown).toEqual(['Eucalyptus marginata', 'Eucalyptus diversicolor']);
  });
});

describe('green logs', () => {
  it('weigh what the source says of the species, else of the genus', () => {
    expect(greenDensity('Quercus virginiana')?.density).toBeCloseTo(1217.4, 1);
    expect(greenDensity('Quercus virginiana')?.of).toBe('species');
    expect(greenDensity('Fraxinus latifolia')).toMatchObject({ of: 'genus', confidence: 'published' });
    expect(greenDensity('Fraxinus latifolia')?.density).toBeCloseTo(768.9, 1);
    expect(greenDensity('Nyssa sylvatica')?.confidence).toBe('from memory');
    expect(wood('Acer rubrum')?.greenDensity?.density).toBeCloseTo(800.9, 1);
  });

  it('of other species have no density', () => {
    expect(greenDensity('Quercus garryana')).toBeUndefined();
    expect(greenDensity('Acer macrophyllum')).toBeUndefined();
    expect(greenDensity('constructor')).toBeUndefined();
    expect(wood('Acer macrophyllum')?.greenDensity).toBeUndefined();
  });
});

describe('log rules', () => {
  it('know the entries of the tables, and nothing between', () => {
    expect(logRuleValue('Doyle', 12, 16)?.value).toBe(64);
    expect(logRuleValue('Scribner Decimal C', 12, 16)?.value).toBe(8);
    expect(logRuleValue('International 1/4-inch', 12, 16)?.value).toBe(95);
    expect(logRuleValue('Scribner Decimal C', 13, 16)).toBeUndefined();
    expect(logRuleValue('Scribner Decimal C', 12, 14)).toBeUndefined();
  });

  it('agree with the formulas where the rule is one', () => {
    for (const { rule, diameter, length, value } of logRuleValues) {
      if (rule === 'Doyle') expect(value).toBe(((diameter - 4) / 4) ** 2 * length);
      if (rule === 'International 1/4-inch') {
        let feet = 0;
        for (let section = 0; section < length / 4; section++) {
          const d = diameter + section / 2;
          feet += 0.905 * (0.22 * d ** 2 - 0.71 * d);
        }
        expect(Math.abs(feet - value), `${diameter} by ${length}`).toBeLessThanOrEqual(5);
      }
    }
  });
});
