import { describe, expect, test } from 'vitest';
import { densityOf, salvageOf } from '../../server/assess/salvage.ts';
import { treeIn } from './inventory.ts';

const salvage = (lines: string) => {
  const { tree, settings } = treeIn(`tree 1\n${lines}\n`);
  return salvageOf(tree, settings);
};
const density = (lines: string) => {
  const { tree, settings } = treeIn(`tree 1\n${lines}\n`);
  return densityOf(tree, settings);
};

describe('the volume of a stem', () => {
  /**
   * Form factors of 31 measured black cherries (Ryan, Joiner and Ryan 1976): the least is 19.1 cu ft of 12.0 in by
   * 75 ft, the greatest 24.2 cu ft of 11.3 in by 79 ft.
   */
  const LEAST = 19.1 / ((Math.PI / 4) * 1 ** 2 * 75);
  const GREATEST = 24.2 / ((Math.PI / 4) * (11.3 / 12) ** 2 * 79);

  test('is the form factor times the basal area times the height', () => {
    const { volume } = salvage('dbh 1 m\nheight 20 m')!;
    expect(volume.low).toBeCloseTo(LEAST * (Math.PI / 4) * 20, 9);
    expect(volume.high).toBeCloseTo(GREATEST * (Math.PI / 4) * 20, 9);
  });

  test('of several stems is that of their basal area: 0.6 and 0.8 m are 1 m', () => {
    expect(salvage('dbh 0.6 m, 0.8 m\nheight 20 m')!.volume.low).toBeCloseTo(LEAST * (Math.PI / 4) * 20, 9);
  });

  test.each(['dbh 1 m', 'height 20 m', 'dbh > 1 m\nheight 20 m', 'dbh 1 m\nheight unseen'])(
    'is none of %j',
    lines => {
      expect(salvage(lines)).toBeUndefined();
    },
  );
});

describe('the weight of green wood', () => {
  test('is a margin of 10 % about what is published of the species, and of 20 % about that of its genus', () => {
    for (const [species, knownBy, margin] of [
      ['Quercus garryana', 'species', 0.1],
      ['Quercus frainetto', 'genus', 0.2],
    ] as const) {
      const { range, known } = density(`species ${species}`);
      expect(known!.knownBy).toBe(knownBy);
      expect(range.low).toBeCloseTo(known!.density * (1 - margin), 9);
      expect(range.high).toBeCloseTo(known!.density * (1 + margin), 9);
    }
  });

  test('goes down to that of dry wood in a dead tree: its specific gravity times water', () => {
    const { range, known } = density('species Quercus garryana\nvigor dead');
    expect(range.low).toBeCloseTo(known!.specificGravity * 1000 * 0.9, 9);
    expect(range.high).toBeCloseTo(known!.density * 1.1, 9);
  });

  test('is that of any wood where no species is written, and no mass is told then', () => {
    const { range, known } = density('dbh 1 m');
    expect(known).toBeUndefined();
    for (const species of ['Quercus garryana', 'Acer macrophyllum', 'Tilia cordata']) {
      const one = density(`species ${species}`);
      expect(range.low).toBeLessThanOrEqual(one.known!.density);
      expect(range.high).toBeGreaterThanOrEqual(one.known!.density);
    }
    expect(salvage('dbh 1 m\nheight 20 m')!.mass).toBeUndefined();
  });

  test('times the volume is the mass', () => {
    const lines = 'species Quercus garryana\ndbh 1 m\nheight 20 m';
    const { volume, mass } = salvage(lines)!;
    const { range } = density(lines);
    expect(mass!.low).toBeCloseTo(volume.low * range.low, 6);
    expect(mass!.high).toBeCloseTo(volume.high * range.high, 6);
  });
});
