/**
 * Strain at which green wood is first crushed along the grain: compression strength over modulus of elasticity of the
 * Wood Handbook, and the catalogue of the University of Stuttgart (Wessolly and Erb 1998, from memory). The two differ by
 * up to a third for the same species.
 */

import type { Citation } from './citation.ts';
import { cite } from './citation.ts';
import type { BotanicalName } from './density.ts';
import { woodsOf, woodTable } from './wood.ts';

/** From memory, %. */
const CATALOGUE: Readonly<Record<string, number>> = {
  'Abies alba': 0.16,
  'Acer campestre': 0.43,
  'Acer negundo': 0.36,
  'Acer pseudoplatanus': 0.29,
  'Acer saccharinum': 0.33,
  'Acer saccharum': 0.37,
  'Aesculus hippocastanum': 0.27,
  'Ailanthus altissima': 0.25,
  'Betula pendula': 0.31,
  'Cedrus deodara': 0.2,
  'Chamaecyparis lawsoniana': 0.27,
  'Fagus sylvatica': 0.26,
  'Fraxinus excelsior': 0.42,
  'Larix decidua': 0.32,
  'Liriodendron tulipifera': 0.34,
  'Picea abies': 0.23,
  'Pinus sylvestris': 0.29,
  'Platanus × hispanica': 0.43,
  'Populus × canadensis': 0.33,
  'Populus nigra': 0.31,
  'Pseudotsuga menziesii': 0.2,
  'Quercus robur': 0.41,
  'Quercus rubra': 0.28,
  'Robinia pseudoacacia': 0.28,
  'Salix alba': 0.21,
  'Sequoiadendron giganteum': 0.4,
  'Tilia cordata': 0.24,
  'Tilia platyphyllos': 0.25,
  'Tilia tomentosa': 0.24,
  'Ulmus glabra': 0.35,
};
const PERCENT = 0.01;

/** Single trees around the mean of their species: as their compression strength (judged). */
const ONE_TREE = { low: 0.7, high: 1.3 };

export interface LimitStrain {
  readonly low: number;
  readonly high: number;
  /** What it is from, for the middle of a sentence. */
  readonly words: string;
  readonly citation: Citation;
}

const ratios = (rows: typeof woodTable): readonly number[] =>
  rows.map(({ compressionStrength, modulusOfElasticity }) => compressionStrength / modulusOfElasticity);

/** Of one tree; for a species in neither table the range of all woods of the handbook. */
export function limitStrain({ binomial }: BotanicalName): LimitStrain {
  const catalogued =
    binomial !== undefined && Object.hasOwn(CATALOGUE, binomial) ? CATALOGUE[binomial]! * PERCENT : undefined;
  const rows = binomial === undefined ? [] : ratios(woodsOf(binomial));
  const known = catalogued === undefined ? rows : [...rows, catalogued];
  const means = known.length > 0 ? known : ratios(woodTable);
  const handbook = `the ${cite('wood-handbook').short}`;
  const catalogue = `${cite('wessolly-erb-1998').short}, from memory`;
  const words =
    known.length === 0
      ? `that of all woods of ${handbook}, as none is known of this species`
      : catalogued === undefined
        ? handbook
        : rows.length === 0
          ? catalogue
          : `${handbook} and ${catalogue}`;
  return {
    low: ONE_TREE.low * Math.min(...means),
    high: ONE_TREE.high * Math.max(...means),
    words,
    citation: cite(rows.length > 0 || known.length === 0 ? 'wood-handbook' : 'wessolly-erb-1998'),
  };
}
