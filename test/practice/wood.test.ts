import { describe, expect, it } from 'vitest';
import { anyWood, greenDensities, greenDensity } from '../../server/practice/density.ts';
import { dragOf } from '../../server/practice/drag.ts';
import { logRuleValue, logRuleValues } from '../../server/practice/logs.ts';
import { lookupSpecies, speciesTable } from '../../server/practice/species.ts';
import { greenStrength, wood, woodsOf, woodTable } from '../../server/practice/wood.ts';

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

const named = (binomial: string) => ({ genus: binomial.split(' ')[0]!, binomial });

describe('green wood', () => {
  it('has the densities of all kinds of the inventory’s table', () => {
    const kinds = greenDensities();
    expect(kinds.size).toBeGreaterThanOrEqual(426);
    for (const [name, { density, wood, barkShare, specificGravity }] of kinds) {
      expect(density, name).toBeGreaterThan(400);
      expect(density, name).toBeLessThan(1300);
      expect(wood, name).toBeGreaterThan(1000 * specificGravity);
      expect(barkShare, name).toBeGreaterThan(0.03);
      expect(barkShare, name).toBeLessThan(0.35);
    }
  });

  it('weighs what the table says of the species, of one near it, or of its genus', () => {
    // Tulip tree and tupelo: 22 % more than an older list of log weights had.
    expect(greenDensity(named('Liriodendron tulipifera'))).toMatchObject({ knownBy: 'species' });
    expect(greenDensity(named('Liriodendron tulipifera'))?.density).toBeCloseTo(791, 0);
    expect(greenDensity(named('Nyssa sylvatica'))?.density).toBeCloseTo(904, 0);
    expect(greenDensity(named('Acer macrophyllum'))?.density).toBeCloseTo(778, 0);
    expect(greenDensity(named('Quercus robur'))?.knownBy).toBe('another species');
    expect(greenDensity(named('Tilia platyphyllos'))?.knownBy).toBe('genus');
    expect(greenDensity({ genus: 'Tilia', binomial: undefined })?.knownBy).toBe('genus');
    expect(greenDensity({ ...named('Acer freemanii'), binomial: 'Acer × freemanii' })?.knownBy).toBe('genus');
  });

  it('is found under the name that the trade uses today', () => {
    for (const name of [
      'Notholithocarpus densiflorus',
      'Callitropsis nootkatensis',
      'Carya tomentosa',
      'Quercus montana',
      'Populus trichocarpa',
    ])
      expect(greenDensity(named(name))?.knownBy, name).toBe('species');
  });

  it('of other kinds is not known', () => {
    expect(greenDensity(named('Eucalyptus globulus'))).toBeUndefined();
    expect(greenDensity({ genus: 'constructor', binomial: undefined })).toBeUndefined();
    const { low, high } = anyWood();
    expect(low).toBeGreaterThan(250);
    expect(low).toBeLessThan(320);
    for (const { density } of greenDensities().values()) expect(density).toBeLessThan(high / 1.19);
  });

  it('is known for most kinds of the species table', () => {
    const known = speciesTable.filter(({ genus, botanical }) => greenDensity({ genus, binomial: botanical }));
    expect(known.length).toBeGreaterThan(270);
    for (const name of ['Pseudotsuga menziesii', 'Quercus garryana', 'Thuja plicata', 'Sequoia sempervirens'])
      expect(greenDensity(named(name))?.knownBy, name).toBe('species');
  });
});

describe('strength of one tree', () => {
  it('in compression lies 30 % about the row of its species', () => {
    const { compression, woods } = greenStrength(named('Quercus alba'), 'broadleaved')!;
    expect(woods).toHaveLength(1);
    expect(compression.low / 1e6).toBeCloseTo(0.7 * 24.54, 1);
    expect(compression.high / 1e6).toBeCloseTo(1.3 * 24.54, 1);
  });

  it('without a row follows from the density of its wood, with a wider range', () => {
    const { compression, woods } = greenStrength(named('Tilia cordata'), 'broadleaved')!;
    const gravity = greenDensity(named('Tilia cordata'))!.specificGravity;
    expect(woods).toEqual([]);
    expect(compression.low / 1e6).toBeCloseTo(0.69 * 49 * gravity ** 1.11, 6);
    expect(compression.high / 1e6).toBeCloseTo(1.44 * 49 * gravity ** 1.11, 6);
    expect(greenStrength(named('Eucalyptus globulus'), 'broadleaved')).toBeUndefined();
  });

  it('of redwood reaches from the weaker row to the stronger', () => {
    expect(greenStrength(named('Sequoia sempervirens'), 'needleleaved')!.woods).toHaveLength(2);
  });
});

describe('drag', () => {
  it('of conifers may be twice that of broadleaved crowns, and holds what is usual for a genus', () => {
    expect(dragOf('Acer', 'broadleaved')).toMatchObject({ low: 0.15, high: 0.3, usual: 0.25 });
    expect(dragOf('Pseudotsuga', 'needleleaved')).toMatchObject({ low: 0.2, high: 0.6, usual: 0.3 });
    expect(dragOf('Aesculus', 'broadleaved')).toMatchObject({ low: 0.15, high: 0.35, usual: 0.35 });
    expect(dragOf('constructor', 'broadleaved').usual).toBe(0.25);
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
