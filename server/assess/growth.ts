/** Sizes of one tree on several days: how fast it grows; stems do not shrink, and height does not decrease by itself. */

import type { Span } from '../../grammar/text.ts';
import { clip, type Interval, interval } from '../base/interval.ts';
import { DAYS_PER_YEAR, type Quantity, showQuantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import { UNREAD } from '../facts/placed.ts';
import type { Setting, Settings } from '../facts/settings.ts';
import { asWritten } from '../facts/state.ts';
import type { Inspection, Placed, Prescription, Site, Tree, Work } from '../facts/types.ts';
import { measuredChange } from '../mechanics/decay.ts';
import { equivalentDiameter } from '../mechanics/stem.ts';
import { type Judged, judge } from './judge.ts';

export interface SizeRecord {
  /** -Infinity for the size of the tree itself, which has no day and is older than every record. */
  readonly day: number;
  readonly at: Span;
  /** m */
  readonly value: Interval;
  /** As written. */
  readonly words: string;
  /** In whose unit lengths like it are written. */
  readonly like: Quantity;
  /** Only sizes measured the same way are compared: number of stems, height of measurement. */
  readonly way: string;
}

/** From the first and the last size that can be compared. */
export interface Growth {
  readonly size: Shrunk['size'];
  readonly from: SizeRecord;
  readonly to: SizeRecord;
  /** m a year, with what measuring twice may be off. */
  readonly rate: Interval;
  /** That error, as a limit. */
  readonly error: Setting;
}

export interface Shrunk {
  readonly size: 'diameter' | 'height' | 'crown spread';
  readonly earlier: SizeRecord;
  readonly later: SizeRecord;
  /** As a share of the earlier size. */
  readonly loss: Judged;
}

const UNDATED = Number.NEGATIVE_INFINITY;
const LIMITS = {
  diameter: 'diameter-loss',
  height: 'height-loss',
  'crown spread': 'spread-loss',
} as const;

/** Kinds of work that do not change the height. */
const LEAVES_TOP: ReadonlySet<Prescription['kind']['value']> = new Set([
  'keep',
  'watch',
  'investigate',
  'cable',
  'brace',
  'prop',
  'guy',
  'raise',
  'thin',
]);

/** Decreases beyond measuring error without an event that explains them. */
export const shrunk = (tree: Tree, site: Site | undefined, settings: Settings): readonly Shrunk[] => [
  ...losses('diameter', diametersOf(tree, settings), [], settings),
  ...losses('height', heightsOf(tree, settings), topLost(tree, site), settings),
  ...losses('crown spread', spreadsOf(tree, settings), crownLost(tree, site), settings),
];

/** Years below which the error of two measurements hides all growth. */
const LEAST_APART = 1;

/**
 * A stem does not shrink: its rate is not below zero. The height counts from the last day on which the top may have been
 * lost. None of sizes that contradict each other.
 */
export function growthRates(tree: Tree, site: Site | undefined, settings: Settings): readonly Growth[] {
  const contradicted = new Set(shrunk(tree, site, settings).map(({ size }) => size));
  const cut = Math.max(UNDATED, ...topLost(tree, site));
  const diameter = rateOf('diameter', diametersOf(tree, settings), settings);
  const height = rateOf(
    'height',
    heightsOf(tree, settings).filter(({ day }) => day >= cut),
    settings,
  );
  return [
    ...(diameter ? [{ ...diameter, rate: clip(diameter.rate, NOT_BELOW_ZERO) }] : []),
    ...(height ? [height] : []),
  ].filter(({ size }) => !contradicted.has(size));
}

/** Diameters and heights that were read on two days or more, in one way, by their days. */
export const sizesOverYears = (
  tree: Tree,
  settings: Settings,
): readonly { readonly size: Shrunk['size']; readonly records: readonly SizeRecord[] }[] =>
  (['diameter', 'height'] as const).flatMap(size => {
    const all = (size === 'diameter' ? diametersOf : heightsOf)(tree, settings);
    const records = all.filter(({ day, way }) => Number.isFinite(day) && way === all.at(-1)!.way);
    return new Set(records.map(({ day }) => day)).size > 1 ? [{ size, records }] : [];
  });

const NOT_BELOW_ZERO = interval(0, Number.POSITIVE_INFINITY);

function rateOf(
  size: Shrunk['size'],
  sizes: readonly SizeRecord[],
  settings: Settings,
  leastYears = LEAST_APART,
): Growth | undefined {
  const to = sizes.at(-1);
  const from = sizes.find(({ day, way }) => Number.isFinite(day) && way === to?.way);
  if (!from || !to || to.day - from.day < leastYears * DAYS_PER_YEAR) return undefined;
  const error = settings.limit(LIMITS[size]);
  const off = error.value * from.value.high;
  const years = (to.day - from.day) / DAYS_PER_YEAR;
  const rate = measuredChange(from.value, to.value, years, off);
  return { size, from, to, rate, error };
}

/** Years that two diameters have to be apart to tell the width of rings. */
const APART = 3;

/** Width of the rings, m a year, from the first and the last diameter of the same way of measuring; undefined if too close. */
export function ringWidth(tree: Tree, settings: Settings): Interval | undefined {
  if (tree.inspections.length < 2) return undefined;
  const diameters = diametersOf(tree, settings);
  if (losses('diameter', diameters, [], settings).length > 0) return undefined;
  const found = rateOf('diameter', diameters, settings, APART);
  return found && interval(Math.max(0, found.rate.low) / 2, Math.max(0, found.rate.high) / 2);
}

function losses(
  size: Shrunk['size'],
  sizes: readonly SizeRecord[],
  /** Day numbers of events that reduce it. */
  explained: readonly number[],
  settings: Settings,
): readonly Shrunk[] {
  const found: Shrunk[] = [];
  // The greatest size since the last such event, for each way of measuring.
  const standing = new Map<string, SizeRecord>();
  for (const later of sizes) {
    const earlier = standing.get(later.way);
    const isExplained = earlier && explained.some(day => earlier.day <= day && day <= later.day);
    if (!earlier || isExplained) {
      standing.set(later.way, later);
      continue;
    }
    const gone = interval(1 - later.value.high / earlier.value.low, 1 - later.value.low / earlier.value.high);
    const loss = judge(gone, LIMITS[size], settings);
    if (loss.standing === 'exceeds') found.push({ size, earlier, later, loss });
    // Report each decrease once: compare later sizes with the decreased one.
    if (loss.standing === 'exceeds' || later.value.low > earlier.value.low) standing.set(later.way, later);
  }
  return found;
}

/** In chronological order, of one day in the order of the text. */
const inOrder = (sizes: readonly (SizeRecord | undefined)[]): readonly SizeRecord[] =>
  sizes
    .filter(
      (size): size is SizeRecord =>
        size !== undefined && size.value.low > 0 && size.value.high < Number.POSITIVE_INFINITY,
    )
    .sort((a, b) => (a.day === b.day ? 0 : a.day - b.day));

const wordsOf = (written: readonly Placed<Quantity>[]): string =>
  written.map(({ value }) => showQuantity(value)).join(', ');

function diametersOf(tree: Tree, settings: Settings): readonly SizeRecord[] {
  const { diameters, measuredAt } = asWritten(tree);
  const all = [
    { diameters, measuredAt, day: UNDATED },
    ...tree.inspections.map(one => ({ ...one, day: one.date.value })),
  ];
  return inOrder(
    all.map(({ diameters, measuredAt, day }): SizeRecord | undefined => {
      const read = diameters.map(({ value }) => valuesOf(value, settings));
      if (read.length === 0 || !read.every(({ low }) => low > 0)) return undefined;
      const height = measuredAt ? `${measuredAt.value.low}..${measuredAt.value.high}` : '';
      return {
        day,
        at: { start: diameters[0]!.start, end: diameters.at(-1)!.end },
        value: equivalentDiameter(read),
        words: wordsOf(diameters),
        like: diameters[0]!.value,
        way: `${read.length} at ${height}`,
      };
    }),
  );
}

const heightsOf = (tree: Tree, settings: Settings): readonly SizeRecord[] =>
  lengthsOf(asWritten(tree).height, [...tree.inspections, ...tree.works], ({ height }) => height, settings);

function spreadsOf(tree: Tree, settings: Settings): readonly SizeRecord[] {
  const spread = (one: Inspection | Work) => ('crownSpread' in one ? one.crownSpread : one.spread);
  return lengthsOf(asWritten(tree).crownSpread, [...tree.inspections, ...tree.works], spread, settings);
}

/** A size of the tree itself, and as records state it. */
function lengthsOf(
  undated: Placed<Quantity> | undefined,
  records: readonly (Inspection | Work)[],
  lengthIn: (record: Inspection | Work) => Placed<Quantity> | undefined,
  settings: Settings,
): readonly SizeRecord[] {
  const all = [
    { length: undated, day: UNDATED },
    ...records.map(record => ({ length: lengthIn(record), day: record.date.value })),
  ];
  return inOrder(
    all.map(
      ({ length, day }): SizeRecord | undefined =>
        length && {
          day,
          at: { start: length.start, end: length.end },
          value: valuesOf(length.value, settings),
          words: wordsOf([length]),
          like: length.value,
          way: '',
        },
    ),
  );
}

/** Days on which branches may have been cut or broken: any work on the tree counts. */
const crownLost = (tree: Tree, site: Site | undefined): readonly number[] => [
  ...tree.works.map(({ date }) => date.value),
  ...topLost(tree, site),
];

/** Days on which the top may have been cut or broken. */
function topLost(tree: Tree, site: Site | undefined): readonly number[] {
  const kinds = new Map(tree.prescriptions.map(({ id, kind }) => [id.value, kind.value]));
  return [
    // Work under an unknown prescription may have been anything.
    ...tree.works
      .filter(({ prescription }) => !LEAVES_TOP.has(kinds.get(prescription.value) ?? UNREAD))
      .map(({ date }) => date.value),
    ...(site?.storms ?? []).map(({ date }) => date),
    ...(tree.felled ? [tree.felled.value] : []),
    ...(tree.stressed?.cause === 'storm' && tree.stressed.since !== undefined ? [tree.stressed.since] : []),
  ];
}
