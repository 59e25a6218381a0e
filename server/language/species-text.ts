/** The traits of a species as Markdown. */

import type { SpeciesName } from '../../grammar/species.ts';
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
      'Not in the table of species: rules that ask for traits stay silent.',
    );
  const what = `${known.family}, ${known.leaf}, mostly ${known.cycle}; ${walling(known.compartmentalisation)}.`;
  return paragraphs(
    `_${escapeMarkdown(name)}_: a ${escapeMarkdown(known.common)} that the table does not hold; its genus:`,
    escapeMarkdown(what),
  );
}

const walling = (grade: Species['compartmentalisation']['grade']): string =>
  grade === 'unknown' ? 'how well it walls off decay is not known' : `walls off decay ${WELL[grade]}`;

const WELL = { weak: 'weakly', moderate: 'moderately', strong: 'strongly' } as const;

function traits(species: Species): string {
  const { compartmentalisation, rootLoss, hostOf } = species;
  const density = greenDensity({ genus: species.genus, binomial: species.botanical });
  const lines = [
    `${species.family}, ${species.leaf}, ${species.cycle}${species.oakGroup ? `, ${species.oakGroup} oak group` : ''}.`,
    `It ${walling(compartmentalisation.grade)}${compartmentalisation.citation ? ` (${compartmentalisation.citation.short}, ${compartmentalisation.confidence})` : ''}.`.replace(
      'It how',
      'How',
    ),
    rootLoss
      ? `Bears the loss of roots: ${rootLoss.tolerance} (${rootLoss.citation.short}, ${rootLoss.confidence}).`
      : '',
    hostOf.length > 0 ? `Wounds let in ${hostOf.join(', ')}.` : '',
    density
      ? `Green wood with bark ${Math.round(density.density)} kg per cubic metre (${density.citation.short}, ${density.knownBy === 'species' ? 'its own figures' : `by its ${density.knownBy === 'genus' ? 'genus' : 'near kin'}`}).`
      : '',
  ];
  return lines
    .filter(line => line !== '')
    .map(line => `- ${escapeMarkdown(line)}`)
    .join('\n');
}
