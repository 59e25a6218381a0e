/**
 * The form of botanical names. Examples of the International Code of Nomenclature for algae, fungi, and plants
 * (Shenzhen Code, 2018, Arts. 20–24, H.1–H.3) and of cultivar epithets (ICNCP), from memory.
 */

import { describe, expect, test } from 'vitest';
import { readSpecies, type SpeciesPart } from '../../grammar/species.ts';

/** Words, and cultivars in single quotes. */
const read = (text: string) =>
  readSpecies(
    [...text.matchAll(/'[^']*'|\S+/g)].map(
      ([part]): SpeciesPart => ({
        kind: part.startsWith("'") ? 'cultivar' : 'word',
        text: part,
      }),
    ),
  );

describe('a name is read to its end', () => {
  test.each([
    ['Quercus', 'Quercus', 'Quercus', undefined, 1],
    ['Quercus garryana', 'Quercus garryana', 'Quercus', 'Quercus garryana', 2],
    ['Platanus × hispanica', 'Platanus × hispanica', 'Platanus', 'Platanus × hispanica', 3],
    ['Platanus x hispanica', 'Platanus × hispanica', 'Platanus', 'Platanus × hispanica', 3],
    ['× Cuprocyparis leylandii', '× Cuprocyparis leylandii', 'Cuprocyparis', 'Cuprocyparis leylandii', 3],
    ['Fagus sylvatica f. purpurea', 'Fagus sylvatica f. purpurea', 'Fagus', 'Fagus sylvatica', 4],
    ['Pinus nigra subsp. laricio', 'Pinus nigra subsp. laricio', 'Pinus', 'Pinus nigra', 4],
    ["Acer rubrum 'October Glory'", "Acer rubrum 'October Glory'", 'Acer', 'Acer rubrum', 3],
    ["Malus 'Evereste'", "Malus 'Evereste'", 'Malus', undefined, 2],
    ['Crataegus sp.', 'Crataegus sp.', 'Crataegus', undefined, 2],
    ['Isoëtes lacustris', 'Isoëtes lacustris', 'Isoëtes', 'Isoëtes lacustris', 2],
  ])('%s', (text, name, genus, binomial, length) => {
    expect(read(text)).toEqual({ name: { name, genus, binomial }, length });
  });
});

test.each(['quercus', 'QUERCUS', 'Q. garryana', 'x', '', '12 in', "'October Glory'"])('%j is none', text => {
  expect(read(text)).toBeUndefined();
});

test('words of the notation behind a genus are no epithet, nor is a capital or a rank without one', () => {
  expect(read('Colaptes at 30')).toMatchObject({ length: 1, name: { binomial: undefined } });
  expect(read('Quercus Garryana')!.length).toBe(1);
  expect(read('Fagus sylvatica var.')!.length).toBe(2);
  expect(read('Platanus ×')!.length).toBe(1);
});
