import { describe, expect, it } from 'vitest';
import { keepsRaptorSeason, lookupBird, nestBuffer } from '../../server/practice/birds.ts';
import { birdGenera } from '../../server/practice/birds-table.ts';
import { limit } from '../../server/practice/limits.ts';
import {
  genusNames,
  lookupGenus,
  lookupSpecies,
  speciesNames,
  speciesTable,
} from '../../server/practice/species.ts';

describe('species', () => {
  it('are many, each once, in the form of a binomial', () => {
    expect(speciesTable.length).toBeGreaterThanOrEqual(220);
    expect(genusNames.length).toBeGreaterThanOrEqual(90);
    expect(new Set(speciesNames).size).toBe(speciesNames.length);
    expect(new Set(genusNames).size).toBe(genusNames.length);
    for (const name of speciesNames) expect(name).toMatch(/^[A-Z][a-z]+ (× )?[a-z]+(-[a-z]+)*$/);
    for (const name of genusNames) expect(name).toMatch(/^[A-Z][a-z]+$/);
  });

  it('have each a common name of their own', () => {
    expect(new Set(speciesTable.map(({ common }) => common)).size).toBe(speciesTable.length);
  });

  it('belong to a genus of the table, and each genus has a species', () => {
    for (const { genus } of speciesTable) expect(lookupGenus(genus)?.name).toBe(genus);
    const used = new Set(speciesTable.map(({ genus }) => genus));
    expect(genusNames.filter(name => !used.has(name))).toEqual([]);
  });

  it('stand in order within their tables', () => {
    const oaks = speciesTable.filter(({ genus }) => genus === 'Quercus').map(({ botanical }) => botanical);
    expect(oaks).toEqual([...oaks].sort());
  });

  it('have sizes that trees can have', () => {
    for (const { botanical, greatestHeight, greatestDiameter } of speciesTable) {
      expect(greatestHeight, botanical).toBeGreaterThanOrEqual(5);
      expect(greatestHeight, botanical).toBeLessThanOrEqual(120);
      expect(greatestDiameter, botanical).toBeGreaterThanOrEqual(0.3);
      expect(greatestDiameter, botanical).toBeLessThanOrEqual(10);
    }
  });

  it('have an oak group if and only if they are oaks', () => {
    for (const { genus, oakGroup, botanical } of speciesTable) {
      expect(oakGroup !== undefined, botanical).toBe(genus === 'Quercus');
    }
    expect(lookupSpecies('Quercus rubra')?.oakGroup).toBe('red');
    expect(lookupSpecies('Quercus garryana')?.oakGroup).toBe('white');
    expect(lookupSpecies('Quercus virginiana')?.oakGroup).toBe('white');
  });

  it('say who grades their compartmentalisation, or nothing', () => {
    for (const { compartmentalisation, botanical } of speciesTable) {
      const graded = compartmentalisation.grade !== 'unknown';
      expect(compartmentalisation.citation !== undefined, botanical).toBe(graded);
      expect(compartmentalisation.confidence !== undefined, botanical).toBe(graded);
    }
    expect(lookupSpecies('Acer rubrum')?.compartmentalisation).toMatchObject({
      grade: 'weak',
      confidence: 'published',
    });
    expect(lookupSpecies('Acer macrophyllum')?.compartmentalisation).toMatchObject({
      grade: 'weak',
      confidence: 'from memory',
    });
    expect(lookupSpecies('Quercus nigra')?.compartmentalisation.grade).toBe('weak');
    expect(lookupSpecies('Quercus robur')?.compartmentalisation.grade).toBe('strong');
    expect(lookupSpecies('Pseudotsuga menziesii')?.compartmentalisation).toEqual({ grade: 'unknown' });
  });

  it('know their leaves', () => {
    expect(lookupSpecies('Acer macrophyllum')).toMatchObject({ leaf: 'broadleaved', cycle: 'deciduous' });
    expect(lookupSpecies('Larix decidua')).toMatchObject({ leaf: 'needleleaved', cycle: 'deciduous' });
    expect(lookupSpecies('Quercus agrifolia')).toMatchObject({ leaf: 'broadleaved', cycle: 'evergreen' });
    expect(lookupSpecies('Washingtonia robusta')?.palm).toBe(true);
  });

  it('are looked up by the whole name only', () => {
    expect(lookupSpecies('Platanus × hispanica')?.common).toBe('London plane');
    expect(lookupSpecies('Acer macrophylum')).toBeUndefined();
    expect(lookupSpecies('Acer')).toBeUndefined();
    expect(lookupGenus('Acer')?.family).toBe('Sapindaceae');
    expect(lookupGenus('acer')).toBeUndefined();
  });
});

describe('birds', () => {
  it('are many, each genus once, and no tree', () => {
    expect(birdGenera.length).toBeGreaterThanOrEqual(60);
    expect(new Set(birdGenera.map(({ genus }) => genus)).size).toBe(birdGenera.length);
    expect(birdGenera.filter(({ genus }) => genusNames.includes(genus))).toEqual([]);
  });

  it('have the buffer of their group', () => {
    expect(nestBuffer('Turdus migratorius')).toBe('nest-buffer-passerine');
    expect(nestBuffer('Colaptes auratus')).toBe('nest-buffer-passerine');
    expect(nestBuffer('Accipiter cooperii')).toBe('nest-buffer-raptor');
    expect(nestBuffer('Bubo virginianus')).toBe('nest-buffer-raptor');
    expect(nestBuffer('Haliaeetus leucocephalus')).toBe('nest-buffer-eagle');
    expect(nestBuffer('Ardea herodias')).toBe('nest-buffer-colony');
    expect(nestBuffer('Buteo swainsoni')).toBe('nest-buffer-swainsons-hawk');
    expect(nestBuffer('Buteo jamaicensis')).toBe('nest-buffer-raptor');
  });

  it('are raptors until known to be something else', () => {
    expect(nestBuffer(undefined)).toBe('nest-buffer-raptor');
    expect(nestBuffer('Ignotus avis')).toBe('nest-buffer-raptor');
    expect(keepsRaptorSeason(undefined)).toBe(true);
    expect(keepsRaptorSeason('Ignotus avis')).toBe(true);
    expect(keepsRaptorSeason('Strix varia')).toBe(true);
    expect(keepsRaptorSeason('Colaptes auratus')).toBe(false);
    expect(limit('nest-buffer-raptor').value).toBeGreaterThan(limit('nest-buffer-passerine').value);
  });

  it('that nest in holes are known as such', () => {
    expect(lookupBird('Colaptes auratus')).toMatchObject({ group: 'woodpecker', cavity: true });
    expect(lookupBird(' Aix  sponsa')).toMatchObject({ group: 'waterfowl', cavity: true });
    expect(lookupBird('Zenaida')).toMatchObject({ group: 'dove', cavity: false });
    expect(lookupBird('')).toBeUndefined();
  });
});
