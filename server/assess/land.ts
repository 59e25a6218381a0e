/** The land that a site may be, and whether a row of law covers it. */

import type { Site } from '../facts/types.ts';
import type { Land, OnLand } from '../practice/law/law-row.ts';

type Grounds = NonNullable<Site['grounds']>['value'];

/** A park may count as a garden: laws that leave out land kept as a garden do not say. */
const LANDS: Readonly<Record<Grounds, readonly Land[]>> = {
  garden: ['garden'],
  orchard: ['orchard'],
  churchyard: ['churchyard'],
  street: ['street'],
  forest: ['forest'],
  farm: ['farm'],
  open: ['open'],
  private: ['garden', 'orchard', 'churchyard', 'forest', 'farm', 'open'],
  'public park': ['open space', 'garden'],
  'national park': ['open space', 'forest', 'open'],
};

const ANY: readonly Land[] = [
  'garden',
  'orchard',
  'churchyard',
  'street',
  'open space',
  'forest',
  'farm',
  'open',
];

/** Whether a row covers the land of a site; `perhaps` where what is on record does not decide. */
export function coversLand({ land, notOn }: OnLand, site: Site | undefined): 'yes' | 'perhaps' | 'no' {
  const grounds = site?.grounds?.value;
  const lands = (grounds && LANDS[grounds]) ?? ANY;
  const isCovered = (one: Land): boolean => (land?.includes(one) ?? true) && !notOn?.includes(one);
  if (lands.every(isCovered)) return 'yes';
  return lands.some(isCovered) ? 'perhaps' : 'no';
}

/** Why it does not decide: `nobody stated the land`, `private land may be left out`. */
export function landDoubt(site: Site | undefined): string {
  const grounds = site?.grounds?.value;
  return grounds === undefined
    ? 'the land of the tree is not recorded'
    : `it covers only part of ${grounds === 'private' ? 'private land' : `a ${grounds}`}`;
}
