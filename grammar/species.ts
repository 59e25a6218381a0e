/**
 * The form of a botanical name: genus, or binomial, hybrids with × (or x), infraspecific ranks, 'Cultivar'.
 * Form only: whether the name is known is a matter of the species table.
 * International Code of Nomenclature for algae, fungi, and plants (Shenzhen Code, 2018), Arts. 20-24, H.1-H.3.
 */

import { FORM_WORDS } from './fields.ts';

/** Ranks below the species, and `sp.` for an unknown species. */
const RANKS = ['subsp.', 'var.', 'f.', 'sp.', 'spp.'] as const;
const ranks = new Set<string>(RANKS);

const GENUS = /^[A-Z][a-zë-]+$/;
const EPITHET = /^[a-zë][a-zë-]+$/;
/** A fixed word of the notation that follows a genus is no epithet. */
const isEpithet = (word: string) => EPITHET.test(word) && !FORM_WORDS.has(word);

export interface SpeciesName {
  /** Canonical print: single spaces, × for hybrids. */
  readonly name: string;
  readonly genus: string;
  /** Genus and epithet (`Quercus garryana`, `Platanus × hispanica`); undefined for a genus alone. */
  readonly binomial: string | undefined;
}

export type SpeciesPart = { readonly kind: 'word' | 'cultivar'; readonly text: string };

/**
 * How many of the parts make a botanical name, from the first on, and the name they make.
 * Returns undefined if the first part is not a genus.
 */
export function readSpecies(
  parts: readonly SpeciesPart[],
): { name: SpeciesName; length: number } | undefined {
  let index = 0;
  const shown: string[] = [];
  const word = () => (parts[index]?.kind === 'word' ? parts[index]!.text : undefined);
  const hybrid = () => {
    if (word() !== 'x' && word() !== '×') return false;
    index++;
    return true;
  };
  if (hybrid()) shown.push('×');
  const genus = word();
  if (genus === undefined || !GENUS.test(genus)) return undefined;
  shown.push(genus);
  index++;
  let binomial: string | undefined;
  const beforeEpithet = index;
  const isHybrid = hybrid();
  const epithet = word();
  if (
    epithet !== undefined &&
    (isEpithet(epithet) || ranks.has(epithet)) &&
    !(isHybrid && ranks.has(epithet))
  ) {
    if (isHybrid) shown.push('×');
    shown.push(epithet);
    index++;
    if (!ranks.has(epithet)) binomial = isHybrid ? `${genus} × ${epithet}` : `${genus} ${epithet}`;
    while (
      ranks.has(word() ?? '') &&
      parts[index + 1]?.kind === 'word' &&
      isEpithet(parts[index + 1]!.text)
    ) {
      shown.push(word()!, parts[index + 1]!.text);
      index += 2;
    }
  } else {
    index = beforeEpithet;
  }
  if (parts[index]?.kind === 'cultivar') shown.push(parts[index++]!.text);
  return { name: { name: shown.join(' '), genus, binomial }, length: index };
}
