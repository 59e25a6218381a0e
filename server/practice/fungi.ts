/**
 * Wood-decay fungi by the part of the tree that they decay and how it then fails. A fruiting body shows where a fungus lives, not how much
 * wood is lost, so the table has no quantities.
 */

import { type Citation, type Confidence, cite, type SourceId } from './citation.ts';

/** `butt`: the lower trunk and the root collar. */
type DecayedPart = 'roots' | 'butt' | 'stem' | 'limbs';

/** How it makes a tree fail: the wood breaks, or the root plate gives way. */
type FailsBy = 'fracture' | 'uprooting';

interface FungusRow {
  /** Genus, or binomial if species of the genus differ. */
  readonly name: string;
  readonly parts: readonly DecayedPart[];
  readonly rot: 'white' | 'brown' | 'soft';
  readonly fails: readonly FailsBy[];
  /** Without bending first; only where a source says so. */
  readonly brittle: boolean;
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
  fails: readonly FailsBy[],
  source: SourceId,
  confidence: Confidence = cite(source).confidence,
): FungusRow => ({ name, parts, rot, fails, brittle: BRITTLE.has(name), source, confidence });

/** Snaps without bending first, by the source of its row. */
const BRITTLE: ReadonlySet<string> = new Set(['Laetiporus']);

const BOTH: readonly FailsBy[] = ['fracture', 'uprooting'];
const FALLS: readonly FailsBy[] = ['uprooting'];
const BREAKS: readonly FailsBy[] = ['fracture'];

const rows: readonly FungusRow[] = [
  fungus('Ganoderma', ['roots', 'butt'], 'white', BOTH, 'fungi-guide'),
  fungus('Ganoderma applanatum', ['roots', 'butt'], 'white', BOTH, 'umass-fungi'),
  fungus('Kretzschmaria', ['roots', 'butt'], 'soft', BOTH, 'fungi-guide'),
  fungus('Ustulina', ['roots', 'butt'], 'soft', BOTH, 'fungi-guide'),
  fungus('Armillaria', ['roots', 'butt'], 'white', FALLS, 'fungi-guide'),
  fungus('Desarmillaria', ['roots', 'butt'], 'white', FALLS, 'practice', 'from memory'),
  fungus('Heterobasidion', ['roots', 'butt'], 'white', BOTH, 'fungi-guide'),
  fungus('Meripilus', ['roots', 'butt'], 'white', FALLS, 'meripilus-2021'),
  fungus('Inonotus dryadeus', ['roots', 'butt'], 'white', FALLS, 'practice', 'from memory'),
  fungus('Pseudoinonotus dryadeus', ['roots', 'butt'], 'white', FALLS, 'practice', 'from memory'),
  fungus('Phaeolus', ['roots', 'butt'], 'brown', FALLS, 'practice', 'from memory'),
  fungus('Grifola', ['roots', 'butt'], 'white', FALLS, 'practice', 'from memory'),
  fungus('Rigidoporus', ['roots', 'butt'], 'white', [], 'practice', 'from memory'),
  fungus('Perenniporia', ['roots', 'butt'], 'white', [], 'practice', 'from memory'),
  fungus('Phytophthora', ['roots', 'butt'], 'soft', [], 'practice', 'from memory'),
  fungus('Laetiporus', ['butt', 'stem'], 'brown', BREAKS, 'umass-fungi'),
  fungus('Climacodon', ['stem'], 'white', BREAKS, 'umass-fungi'),
  fungus('Fomes', ['stem', 'limbs'], 'white', BREAKS, 'fungi-guide'),
  fungus('Inonotus', ['stem', 'limbs'], 'white', BREAKS, 'fungi-guide'),
  fungus('Inonotus hispidus', ['stem', 'limbs'], 'white', BREAKS, 'fungi-guide'),
  fungus('Phellinus', ['stem'], 'white', BREAKS, 'practice', 'from memory'),
  fungus('Porodaedalea', ['stem'], 'white', BREAKS, 'practice', 'from memory'),
  fungus('Fomitopsis', ['stem'], 'brown', BREAKS, 'practice', 'from memory'),
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

/** `uprooting`, `brittle fracture`, `fracture or uprooting`; undefined where no source says. */
export const failsWords = ({ fails, brittle }: Fungus): string | undefined =>
  fails.length === 0
    ? undefined
    : fails.map(how => (brittle && how === 'fracture' ? 'brittle fracture' : how)).join(' or ');
