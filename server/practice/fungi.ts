/**
 * Wood-decay fungi by the part of the tree that they decay. A fruiting body shows where a fungus lives, not how much
 * wood is lost, so the table has no quantities.
 */

import { type Citation, type Confidence, cite, type SourceId } from './citation.ts';

/** `butt`: the lower trunk and the root collar. */
type DecayedPart = 'roots' | 'butt' | 'stem' | 'limbs';

interface FungusRow {
  /** Genus, or binomial if species of the genus differ. */
  readonly name: string;
  readonly parts: readonly DecayedPart[];
  readonly rot: 'white' | 'brown' | 'soft';
  readonly source: SourceId;
  readonly confidence: Confidence;
}

export interface Fungus extends Omit<FungusRow, 'source'> {
  readonly citation: Citation;
}

const fungus = (
  name: string,
  parts: readonly DecayedPart[],
  rot: FungusRow['rot'],
  source: SourceId,
  confidence: Confidence = cite(source).confidence,
): FungusRow => ({ name, parts, rot, source, confidence });

const rows: readonly FungusRow[] = [
  fungus('Ganoderma', ['roots', 'butt'], 'white', 'fungi-guide'),
  fungus('Ganoderma applanatum', ['roots', 'butt'], 'white', 'umass-fungi'),
  fungus('Kretzschmaria', ['roots', 'butt'], 'soft', 'fungi-guide'),
  fungus('Ustulina', ['roots', 'butt'], 'soft', 'fungi-guide'),
  fungus('Armillaria', ['roots', 'butt'], 'white', 'fungi-guide'),
  fungus('Desarmillaria', ['roots', 'butt'], 'white', 'practice', 'from memory'),
  fungus('Heterobasidion', ['roots', 'butt'], 'white', 'fungi-guide'),
  fungus('Meripilus', ['roots', 'butt'], 'white', 'meripilus-2021'),
  fungus('Inonotus dryadeus', ['roots', 'butt'], 'white', 'practice', 'from memory'),
  fungus('Pseudoinonotus dryadeus', ['roots', 'butt'], 'white', 'practice', 'from memory'),
  fungus('Phaeolus', ['roots', 'butt'], 'brown', 'practice', 'from memory'),
  fungus('Grifola', ['roots', 'butt'], 'white', 'practice', 'from memory'),
  fungus('Rigidoporus', ['roots', 'butt'], 'white', 'practice', 'from memory'),
  fungus('Perenniporia', ['roots', 'butt'], 'white', 'practice', 'from memory'),
  fungus('Phytophthora', ['roots', 'butt'], 'soft', 'practice', 'from memory'),
  fungus('Laetiporus', ['butt', 'stem'], 'brown', 'umass-fungi'),
  fungus('Climacodon', ['stem'], 'white', 'umass-fungi'),
  fungus('Fomes', ['stem', 'limbs'], 'white', 'fungi-guide'),
  fungus('Inonotus', ['stem', 'limbs'], 'white', 'fungi-guide'),
  fungus('Inonotus hispidus', ['stem', 'limbs'], 'white', 'fungi-guide'),
  fungus('Phellinus', ['stem'], 'white', 'practice', 'from memory'),
  fungus('Porodaedalea', ['stem'], 'white', 'practice', 'from memory'),
  fungus('Fomitopsis', ['stem'], 'brown', 'practice', 'from memory'),
];

export const fungi: readonly Fungus[] = rows.map(({ source, ...row }) => ({
  ...row,
  citation: cite(source),
}));

const byName = new Map(fungi.map(fungus => [fungus.name, fungus]));

/** By species, else by genus. */
export const findFungus = (genus: string, binomial: string | undefined): Fungus | undefined =>
  (binomial === undefined ? undefined : byName.get(binomial)) ?? byName.get(genus);

/** Whether it decays roots or root collar. */
export const rotsRoots = ({ parts }: Fungus): boolean => parts.includes('roots') || parts.includes('butt');
