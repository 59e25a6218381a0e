/** What a column of a table may mean, by the words people head it with in everyday and trade English. */

import { unitMeant, unitOf } from '../base/quantity.ts';
import { TREE_FIELDS, type TreeField } from '../facts/facts.generated.ts';

export const LENGTH_UNITS = ['in', 'ft', 'mm', 'cm', 'm'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];

/** Meanings that need a unit in a mapping (`dbh in`). */
export const SIZES = ['dbh', 'girth', 'height', 'crown', 'crown-base'] as const;
export type Size = (typeof SIZES)[number];

/** Meanings that have headings of their own, or more than one column. */
const OWN_MEANINGS = [
  'tag',
  /** Tags that a tree had before. */
  'formerly',
  'name',
  'species',
  'common-name',
  /** The botanical name in columns of their own: genus, what follows it, cultivar. */
  'genus',
  'epithet',
  'cultivar',
  'latitude',
  'longitude',
  'position',
  'age',
  'vigor',
  'note',
  /** Says again, in other words, what another column says: not read. */
  'repeated',
] as const;
type OwnMeaning = (typeof OWN_MEANINGS)[number];

/** All other fields of a tree: their cells hold what the notation has behind the same word. */
export type WrittenMeaning = Exclude<TreeField, Size | OwnMeaning>;
const WRITTEN_MEANINGS: readonly WrittenMeaning[] = TREE_FIELDS.filter(
  (word): word is WrittenMeaning => !([...SIZES, ...OWN_MEANINGS] as readonly string[]).includes(word),
);

export type PlainMeaning = OwnMeaning | WrittenMeaning;
export const PLAIN_MEANINGS: readonly PlainMeaning[] = [...OWN_MEANINGS, ...WRITTEN_MEANINGS];

export type Meaning = { readonly kind: Size; readonly unit: LengthUnit } | { readonly kind: PlainMeaning };

export interface MeaningEntry {
  readonly kind: Size | PlainMeaning;
  /** Headings, lower case, words separated by one space; the longest one found in a heading decides. */
  readonly headings: readonly string[];
}

export const MEANINGS: readonly MeaningEntry[] = [
  { kind: 'name', headings: ['name', 'tree name', 'nickname'] },
  {
    kind: 'species',
    headings: [
      'species',
      'tree species',
      'botanical',
      'botanical name',
      'scientific name',
      'latin',
      'latin name',
      'species latin',
      'species botanical',
      'species name',
      'taxon',
      'scientific',
    ],
  },
  {
    kind: 'common-name',
    headings: [
      'common',
      'common name',
      'species common',
      'species common name',
      'vernacular name',
      'english name',
      'kind of tree',
    ],
  },
  { kind: 'genus', headings: ['genus', 'genus name'] },
  { kind: 'epithet', headings: ['epithet', 'specific epithet', 'species epithet'] },
  { kind: 'cultivar', headings: ['cultivar', 'cultivar name', 'variety', 'variety or cultivar'] },
  {
    kind: 'dbh',
    headings: [
      'dbh',
      'diameter',
      'diameter at breast height',
      'trunk diameter',
      'stem diameter',
      'tree diameter',
      'tree dbh',
      'diam',
      'breast height diameter',
      'trunk dbh',
    ],
  },
  {
    kind: 'girth',
    headings: [
      'girth',
      'circumference',
      'trunk circumference',
      'stem circumference',
      'trunk girth',
      'stem girth',
      'girth at breast height',
      'gbh',
      'cbh',
      'circumference at breast height',
      'circ',
    ],
  },
  { kind: 'height', headings: ['height', 'tree height', 'total height', 'overall height', 'ht'] },
  {
    kind: 'crown',
    headings: [
      'crown',
      'crown spread',
      'spread',
      'canopy spread',
      'crown width',
      'crown diameter',
      'canopy diameter',
      'canopy width',
      'diameter crown',
      'average spread',
      'mean crown spread',
      'mean spread',
    ],
  },
  {
    kind: 'crown-base',
    headings: [
      'crown base',
      'height of crown base',
      'crown base height',
      'crown clearance',
      'height to crown',
    ],
  },
  { kind: 'latitude', headings: ['latitude', 'lat', 'decimal latitude', 'y lat'] },
  { kind: 'longitude', headings: ['longitude', 'lon', 'long', 'lng', 'decimal longitude', 'x lon'] },
  {
    kind: 'position',
    headings: ['position', 'coordinates', 'lat lon', 'latitude longitude', 'location lat lon'],
  },
  { kind: 'age', headings: ['age', 'age class', 'life stage', 'stage of life', 'maturity'] },
  { kind: 'vigor', headings: ['vigor', 'vigour', 'condition', 'health', 'vitality'] },
  ...WRITTEN_MEANINGS.map(kind => ({ kind, headings: [kind.replace('-', ' ')] })),
  {
    kind: 'note',
    headings: ['note', 'notes', 'comment', 'comments', 'remark', 'remarks', 'observation', 'observations'],
  },
];

/** Marks for feet and inches, as in `Height (')`. */
const MARKS: ReadonlyMap<string, LengthUnit> = new Map([
  ['"', 'in'],
  ["'", 'ft'],
]);

/** The unit of length that a word in a heading or a cell means: `feet`, `cm`, `"`. */
export function unitOfWord(word: string): LengthUnit | undefined {
  const written = word.toLowerCase();
  const symbol = MARKS.get(written) ?? (unitOf(written) ?? unitMeant(written))?.symbol;
  return symbol !== undefined && isLengthUnit(symbol) ? symbol : undefined;
}

export const metresPer = (unit: LengthUnit): number => unitOf(unit)!.factor;

export const isSize = (kind: string): kind is Size => (SIZES as readonly string[]).includes(kind);
export const isPlainMeaning = (kind: string): kind is PlainMeaning =>
  (PLAIN_MEANINGS as readonly string[]).includes(kind);
export const isWrittenMeaning = (kind: string): kind is WrittenMeaning =>
  (WRITTEN_MEANINGS as readonly string[]).includes(kind);
export const isLengthUnit = (unit: string): unit is LengthUnit =>
  (LENGTH_UNITS as readonly string[]).includes(unit);
