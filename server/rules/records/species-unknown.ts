import { near } from '../../../grammar/nearest.ts';
import type { SpeciesName } from '../../../grammar/species.ts';
import { cite } from '../../practice/citation.ts';
import { genusNames, lookupGenus, lookupSpecies, speciesNames } from '../../practice/species.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Greatest edit distance that counts as a typing error. */
const SLIP = 2;
/** Shorter epithets allow a distance of 1 only: different ones often differ by two letters. */
const SHORT = 6;

function nearestOf(word: string, candidates: readonly string[]): string | undefined {
  const allowed = word.length < SHORT ? 1 : SLIP;
  return near(word, candidates)
    .filter(({ apart }) => apart <= allowed)
    .sort((a, b) => a.apart - b.apart)[0]?.candidate;
}

/** The name with its likely correction; undefined where nothing is near. */
function meant({ genus, binomial, name }: SpeciesName): string | undefined {
  if (lookupGenus(genus)) {
    if (binomial === undefined) return undefined;
    const epithet = (full: string) => full.split(' ').at(-1)!;
    const siblings = speciesNames.filter(candidate => candidate.startsWith(`${genus} `));
    const nearest = nearestOf(epithet(binomial), siblings.map(epithet));
    const sibling = siblings.find(candidate => epithet(candidate) === nearest);
    return sibling && name.replace(binomial, sibling);
  }
  const known = nearestOf(genus, genusNames);
  return known && name.replace(genus, known);
}

function check({ tree: { species, tag } }: TreeContext): readonly RuleReport[] {
  if (!species) return NOTHING;
  const { genus, binomial, name } = species.value;
  if (binomial === undefined ? lookupGenus(genus) : lookupSpecies(binomial)) return NOTHING;
  const nearest = meant(species.value);
  // A species not in the table takes the traits of its genus.
  if (nearest === undefined && lookupGenus(genus)) return NOTHING;
  return [
    {
      at: spanOf(species),
      grade: 'stated',
      ...(nearest === undefined ? { level: 'note' } : {}),
      subject: tag.value,
      message:
        nearest === undefined
          ? `The genus ${genus} is not in the species table, so no data on its wood, pests or growth are available.`
          : `${name} is not in the species table. Did you mean ${nearest}?`,
      remedy:
        nearest === undefined
          ? 'Check the spelling. A rare genus may stay as it is; rules on species do not apply to it.'
          : `If so, write ${nearest}.`,
      ...(nearest === undefined ? {} : { fix: nearest }),
    },
  ];
}

export const speciesUnknown: Rule = {
  name: 'species-unknown',
  group: 'records',
  level: 'warning',
  summary: 'a botanical name that is unknown, or nearly matches another',
  sources: [cite('practice')],
  explanation:
    'Looks up the species, or the genus where only that is stated. A name that differs by a letter or two from one in the table is probably a typing error, and the likely name is suggested. A genus not in the table is a note: rules on pests, cuts and wood have no data for it.',
  limitations: 'Species not in the table with a genus that is: the traits of the genus apply.',
  acceptable: true,
  examples: [
    {
      title: 'A letter off, in the epithet and in the genus; an unknown genus',
      text: `tree 441
  species Acer macrophylum #! stated

tree 442
  species Querkus garryana #! stated

tree 443
  species Wollemia nobilis #! note stated
`,
    },
    {
      title: 'Known, known by genus, no species stated',
      text: `tree 444
  species Acer platanoides 'Crimson King'

tree 445
  species Acer sterculiaceum

tree 446
  species Platanus sp.

tree 447
`,
    },
  ],
  check,
};
