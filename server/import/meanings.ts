/** What a column of a table may mean, and how a mapping says it. */

import { unitMeant, unitOf } from '../base/quantity.ts';
import { TREE_FIELDS, type TreeField } from '../facts/facts.generated.ts';
import type { DateOrder } from '../practice/date-orders.ts';

export const LENGTH_UNITS = ['in', 'ft', 'mm', 'cm', 'm'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];

/** Meanings that need a unit in a mapping (`dbh in`). */
export const SIZES = ['dbh', 'girth', 'height', 'crown', 'crown-radius', 'crown-base'] as const;
export type Size = (typeof SIZES)[number];

/** Meanings whose cells are days; a mapping may state their order (`planted day-first`). */
const DAYS = ['planted', 'felled', 'inspected'] as const;
export type DayMeaning = (typeof DAYS)[number];

/** Meanings of the two halves of a position on a plane; a mapping states their grid (`easting EPSG:2263`). */
const GRID = ['easting', 'northing'] as const;

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
  /** Whether there is a tree at all, and alive. */
  'status',
  /** How many trees a row stands for. */
  'count',
  /** What is to be done. */
  'job',
  'note',
  /** Says again, in other words, what another column says: not read. */
  'repeated',
] as const;
type OwnMeaning = (typeof OWN_MEANINGS)[number];

/** All other fields of a tree: their cells hold what the notation has behind the same word. */
export type WrittenMeaning = Exclude<TreeField, Size | OwnMeaning | DayMeaning>;
export const WRITTEN_MEANINGS: readonly WrittenMeaning[] = TREE_FIELDS.filter(
  (word): word is WrittenMeaning =>
    !([...SIZES, ...OWN_MEANINGS, ...DAYS] as readonly string[]).includes(word),
);

export type PlainMeaning = OwnMeaning | WrittenMeaning | DayMeaning | (typeof GRID)[number];
export const PLAIN_MEANINGS: readonly PlainMeaning[] = [
  ...OWN_MEANINGS,
  ...DAYS,
  ...GRID,
  ...WRITTEN_MEANINGS,
];
export type Kind = Size | PlainMeaning;

/** Which half of a position comes first in a cell that has both. */
export type PointOrder = 'latitude-first' | 'longitude-first';
export const POINT_ORDERS: readonly PointOrder[] = ['latitude-first', 'longitude-first'];

export interface Meaning {
  readonly kind: Kind;
  /** Of sizes. */
  readonly unit?: LengthUnit;
  /** Of eastings and northings, and of positions on a grid: `EPSG:2263`. */
  readonly crs?: string;
  /** Of positions. */
  readonly order?: PointOrder;
  /** Of days written with numbers alone. */
  readonly days?: DateOrder;
  /** What words of the column mean, where the program does not know it or someone decided otherwise. */
  readonly values?: ReadonlyMap<string, string>;
  /** Not settled: somebody has to say. */
  readonly isOpen?: boolean;
}

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
export const isDay = (kind: string): kind is DayMeaning => (DAYS as readonly string[]).includes(kind);
export const isGrid = (kind: string): boolean => (GRID as readonly string[]).includes(kind);
export const isPlainMeaning = (kind: string): kind is PlainMeaning =>
  (PLAIN_MEANINGS as readonly string[]).includes(kind);
export const isWrittenMeaning = (kind: string): kind is WrittenMeaning =>
  (WRITTEN_MEANINGS as readonly string[]).includes(kind);
export const isLengthUnit = (unit: string): unit is LengthUnit =>
  (LENGTH_UNITS as readonly string[]).includes(unit);
