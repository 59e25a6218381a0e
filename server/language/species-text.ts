/** The traits of a species as Markdown. */

import type { SpeciesName } from '../../grammar/species.ts';
import { capital } from '../base/words.ts';
import { greenDensity } from '../practice/density.ts';
import { lookupGenus, lookupSpecies, type Species } from '../practice/species.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';

export function speciesText({ name, genus, binomial }: SpeciesName): string {
  const species = binomial === undefined ? undefined : lookupSpecies(binomial);
  if (species)
    return paragraphs(`_${escapeMarkdown(name)}_: ${escapeMarkdown(species.common)}`, traits(species));
  const known = lookupGenus(genus);
  if (!known)
    return paragraphs(
      `_${escapeMarkdown(name)}_`,
      'Not in the table of species, so rules that need its traits do not apply.',
    );
  const what = `${known.family}, ${known.leaf}, mostly ${known.cycle}; ${walling(known.compartmentalisation)}.`;
  return paragraphs(
    `_${escapeMarkdown(name)}_: a ${escapeMarkdown(known.common)}, not in the table. Its genus:`,
    escapeMarkdown(what),
  );
}

const walling = (grade: Species['compartmentalisation']['grade']): string =>
  grade === 'unknown'
    ? 'its compartmentalization of decay is not known'
    : `compartmentalizes decay ${WELL[grade]}`;

const WELL = { weak: 'weakly', moderate: 'moderately', strong: 'strongly' } as const;

function traits(species: Species): string {
  const { compartmentalisation, rootLoss, hostOf } = species;
  const density = greenDensity({ genus: species.genus, binomial: species.botanical });
  const lines = [
    `${species.family}, ${species.leaf}, ${species.cycle}${species.oakGroup ? `, ${species.oakGroup} oak group` : ''}.`,
    `${capital(walling(compartmentalisation.grade))}${compartmentalisation.citation ? ` (${compartmentalisation.citation.short}, ${compartmentalisation.confidence})` : ''}.`,
    rootLoss
      ? `Tolerance of root loss: ${rootLoss.tolerance} (${rootLoss.citation.short}, ${rootLoss.confidence}).`
      : '',
    hostOf.length > 0 ? `Wounds are an entry point for ${hostOf.join(', ')}.` : '',
    density
      ? `Green wood with bark ${Math.round(density.density)} kg per cubic meter (${density.citation.short}, ${density.knownBy === 'species' ? 'its own figures' : `by ${density.knownBy === 'genus' ? 'its genus' : 'a related species'}`}).`
      : '',
  ];
  return lines
    .filter(line => line !== '')
    .map(line => `- ${escapeMarkdown(line)}`)
    .join('\n');
}
