/** The kinds of living things that lines name: trees, birds and fungi. */

import type { SpeciesName } from '../../grammar/species.ts';
import { inUnit, unitOf } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import type { WrittenTree } from '../facts/types.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { lookupBird, nestBuffer } from '../practice/birds.ts';
import { birdGenera } from '../practice/birds-table.ts';
import { type Fungus, failsWords, findFungus, fungi } from '../practice/fungi.ts';
import { genusNames, lookupGenus, lookupSpecies, speciesTable } from '../practice/species.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';
import { speciesText } from './species-text.ts';

type Organism = 'tree' | 'bird' | 'fungus';

/** Where something other than a tree is named, by head and field. */
const NAMED: Readonly<Record<string, readonly Organism[]>> = {
  'nest check found': ['bird'],
  'defect species': ['fungus', 'bird'],
};

/** What the species of a line is of. */
export const organismsAt = (head: string, field: string): readonly Organism[] =>
  NAMED[`${head} ${field}`] ?? ['tree'];

export interface KnownOrganism {
  readonly species: SpeciesName;
  /** Common name, or what a fungus does. */
  readonly detail?: string | undefined;
}

const known = (name: string, detail: string): KnownOrganism => {
  const genus = name.split(' ')[0]!;
  return { species: { name, genus, binomial: name === genus ? undefined : name }, detail };
};

const KNOWN: Readonly<Record<Organism, readonly KnownOrganism[]>> = {
  tree: [
    ...speciesTable.map(({ botanical, common }) => known(botanical, common)),
    ...genusNames.map(name => known(name, `genus: ${lookupGenus(name)!.common}`)),
  ],
  bird: birdGenera.map(({ genus, common }) => known(genus, common)),
  fungus: fungi.map(fungus => known(fungus.name, rotText(fungus))),
};

export const knownOrganisms = (kinds: readonly Organism[]): readonly KnownOrganism[] =>
  kinds.flatMap(kind => KNOWN[kind]);

/** Those that trees name, each once. */
export function organismsIn(
  kinds: readonly Organism[],
  trees: FileSnapshot['trees'],
): readonly KnownOrganism[] {
  const found = new Map<string, SpeciesName>();
  for (const { fact } of trees)
    for (const species of namedIn(kinds, fact)) if (species) found.set(species.name, species);
  return [...found.values()].map(species => ({ species, detail: commonName(species) }));
}

const namedIn = (kinds: readonly Organism[], tree: WrittenTree): readonly (SpeciesName | undefined)[] => [
  ...(kinds.includes('tree') ? [tree.species?.value] : []),
  ...(kinds.includes('bird') ? tree.nestChecks.flatMap(({ found }) => found.map(nest => nest.species)) : []),
  ...(kinds.includes('fungus') ? tree.defects.map(({ species }) => species?.value) : []),
];

/** Of the species, else of its genus; of a tree or a bird. */
export const commonName = ({ genus, binomial }: SpeciesName): string | undefined =>
  (binomial === undefined ? undefined : lookupSpecies(binomial)?.common) ??
  lookupGenus(genus)?.common ??
  lookupBird(genus)?.common;

/** What the tables say of a name, as Markdown. */
export function organismText(kinds: readonly Organism[], species: SpeciesName, settings: Settings): string {
  if (kinds.includes('tree')) return speciesText(species);
  const { name, genus, binomial } = species;
  const fungus = kinds.includes('fungus') ? findFungus(genus, binomial) : undefined;
  if (fungus) return fungusText(name, fungus);
  const bird = kinds.includes('bird') ? birdText(name, settings) : undefined;
  return (
    bird ?? paragraphs(`_${escapeMarkdown(name)}_`, UNKNOWN[kinds.includes('fungus') ? 'fungus' : 'bird'])
  );
}

const UNKNOWN = {
  fungus: 'Not in the tables of fungi and birds, so nothing is concluded from the name.',
  bird: 'Not in the table of birds, so its nest is treated as that of a raptor.',
} as const;

/** Group, nest sites and the distance to keep from an active nest. */
function birdText(name: string, settings: Settings): string | undefined {
  const bird = lookupBird(name);
  if (!bird) return undefined;
  const { value, unit, citation } = settings.limit(nestBuffer(name));
  const distance = inUnit(value, unitOf(unit)!, 2);
  return paragraphs(
    `_${escapeMarkdown(name)}_: ${escapeMarkdown(bird.common)} (${bird.group})`,
    [
      ...(bird.cavity ? ['Also nests in cavities.'] : []),
      `Keep work at least ${distance} away from an active nest (${citation.short}, ${citation.confidence}).`,
      'The group and the nest sites of its genus are from memory.',
    ]
      .map(line => `- ${escapeMarkdown(line)}`)
      .join('\n'),
  );
}

function rotText(fungus: Fungus): string {
  const fails = failsWords(fungus);
  return `${fungus.rot} rot of ${fungus.parts.join(' and ')}${fails ? `; the tree fails by ${fails}` : ''}`;
}

const fungusText = (name: string, fungus: Fungus): string =>
  paragraphs(
    `_${escapeMarkdown(name)}_: ${escapeMarkdown(rotText(fungus))}`,
    escapeMarkdown(
      `A fruiting body shows where the fungus is, not how much wood has decayed (${fungus.citation.short}, ${fungus.confidence}).`,
    ),
  );
