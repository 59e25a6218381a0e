/**
 * Genera and species common in temperate towns, with the traits that rules use. A name that is not listed is unknown,
 * not wrong. Sizes are generous upper limits of plausibility, from memory: a reading above is more likely an error than
 * a record tree.
 */

import { type Citation, type Confidence, cite, type SourceId } from './citation.ts';
import { genera } from './genera.ts';
import type { WoundPest } from './law/law-row.ts';
import { broadleavedSpecies } from './species-broadleaved.ts';
import { needleleavedSpecies } from './species-needleleaved.ts';
import { oakSpecies } from './species-oaks.ts';
import type {
  Compartmentalisation,
  Genus,
  LeafCycle,
  LeafType,
  OakGroup,
  RootLossTolerance,
  SpeciesRow,
} from './traits.ts';

export interface Species {
  /** Binomial, hybrids with ×: `Acer macrophyllum`, `Platanus × hispanica`. */
  readonly botanical: string;
  readonly common: string;
  readonly genus: string;
  readonly family: string;
  readonly leaf: LeafType;
  readonly cycle: LeafCycle;
  /** How well it walls off decay. */
  readonly compartmentalisation: {
    readonly grade: Compartmentalisation;
    readonly citation?: Citation;
    readonly confidence?: Confidence;
  };
  /** Oaks only. The red group dies of oak wilt within weeks. */
  readonly oakGroup: OakGroup | undefined;
  /** How well it tolerates root loss, if known. */
  readonly rootLoss:
    | {
        readonly tolerance: RootLossTolerance;
        readonly citation: Citation;
        readonly confidence: Confidence;
      }
    | undefined;
  /** Upper limit of plausibility, m. */
  readonly greatestHeight: number;
  /** Upper limit of plausibility, m. */
  readonly greatestDiameter: number;
  readonly hostOf: readonly WoundPest[];
  /** Palms have no branches and no cambium: rules on cuts and decay do not apply. */
  readonly palm: boolean;
}

const genusByName = new Map(genera.map(genus => [genus.name, genus]));

function graded(grade: Compartmentalisation, source: SourceId | undefined): Species['compartmentalisation'] {
  if (source === undefined) return { grade };
  const citation = cite(source);
  return { grade, citation, confidence: citation.confidence };
}

function speciesOf(row: SpeciesRow): Species {
  const genusName = row.botanical.split(' ')[0]!;
  const genus = genusByName.get(genusName)!;
  return {
    botanical: row.botanical,
    common: row.common,
    genus: genusName,
    family: genus.family,
    leaf: genus.leaf,
    cycle: row.cycle ?? genus.cycle,
    compartmentalisation: row.compartmentalisation
      ? graded(row.compartmentalisation, 'uf-compartmentalisation')
      : graded(genus.compartmentalisation, genus.compartmentalisationSource),
    oakGroup: row.oakGroup,
    rootLoss: row.rootLoss && {
      tolerance: row.rootLoss,
      citation: cite('matheny-clark-1998'),
      confidence: 'from memory',
    },
    greatestHeight: row.height,
    greatestDiameter: row.diameter,
    hostOf: row.hostOf ?? genus.hostOf,
    palm: genus.palm,
  };
}

export const speciesTable: readonly Species[] = [
  ...broadleavedSpecies,
  ...oakSpecies,
  ...needleleavedSpecies,
].map(speciesOf);

const speciesByName = new Map(speciesTable.map(species => [species.botanical, species]));

/** @param binomial canonical: single spaces, × for hybrids */
export const lookupSpecies = (binomial: string): Species | undefined => speciesByName.get(binomial);

export const lookupGenus = (name: string): Genus | undefined => genusByName.get(name);

export const genusNames: readonly string[] = genera.map(({ name }) => name);
export const speciesNames: readonly string[] = speciesTable.map(({ botanical }) => botanical);
