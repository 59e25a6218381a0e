/** Density of green logs, for the mass of pieces. It varies by a fifth either way within a species. */

import { type Citation, type Confidence, cite } from './citation.ts';

export interface GreenDensity {
  /** kg/m³ of green log. */
  readonly density: number;
  /** Whether the source names the species or only its genus. */
  readonly of: 'species' | 'genus';
  readonly citation: Citation;
  readonly confidence: Confidence;
}

const KILOGRAMS_PER_CUBIC_METRE_PER_POUND_PER_CUBIC_FOOT = 16.01846337396;

/** lb/ft³ by the source's names, read as species or genera. */
const bySpecies: ReadonlyMap<string, number> = new Map(
  Object.entries({
    'Acer rubrum': 50,
    'Carya illinoinensis': 61,
    'Celtis occidentalis': 50,
    'Diospyros virginiana': 63,
    'Fagus grandifolia': 54,
    'Gleditsia triacanthos': 61,
    'Juglans nigra': 58,
    'Larix laricina': 47,
    'Liriodendron tulipifera': 38,
    'Maclura pomifera': 62,
    'Picea rubens': 34,
    'Populus deltoides': 49,
    'Prunus serotina': 45,
    'Quercus alba': 62,
    'Quercus rubra': 63,
    'Quercus velutina': 62,
    'Quercus virginiana': 76,
    'Sassafras albidum': 44,
    'Tsuga canadensis': 50,
    'Ulmus americana': 54,
  }),
);

const byGenus: ReadonlyMap<string, number> = new Map(
  Object.entries({
    Betula: 57,
    Carya: 64,
    Castanea: 55,
    Fraxinus: 48,
    Magnolia: 59,
    Malus: 55,
  }),
);

/** Their names are broken in the copy that was read: black gum and red gum by its order. */
const readFromBrokenNames: ReadonlyMap<string, number> = new Map(
  Object.entries({
    'Liquidambar styraciflua': 50,
    'Nyssa sylvatica': 45,
  }),
);

const entry = (pounds: number, of: GreenDensity['of'], confidence: Confidence): GreenDensity => ({
  density: pounds * KILOGRAMS_PER_CUBIC_METRE_PER_POUND_PER_CUBIC_FOOT,
  of,
  citation: cite('nps-tree-workers'),
  confidence,
});

/** Of a species by name, else of its genus where the source gives that; undefined where it gives neither. */
export function greenDensity(botanical: string): GreenDensity | undefined {
  const own = bySpecies.get(botanical);
  if (own !== undefined) return entry(own, 'species', 'published');
  const broken = readFromBrokenNames.get(botanical);
  if (broken !== undefined) return entry(broken, 'species', 'from memory');
  const genus = byGenus.get(botanical.split(' ')[0]!);
  return genus === undefined ? undefined : entry(genus, 'genus', 'published');
}
