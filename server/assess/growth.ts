/** Sizes of one tree on several days, held against each other: stems do not shrink, and tops do not sink by themselves. */

import type { Span } from '../../grammar/text.ts';
import { type Interval, interval } from '../base/interval.ts';
import { type Quantity, showQuantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Placed, Site, Tree } from '../facts/types.ts';
import { equivalentDiameter } from '../mechanics/stem.ts';
import { type Judged, judge } from './judge.ts';

interface Measured {
  /** That of the tree itself counts now, later than every day on record: Infinity. */
  readonly day: number;
  readonly at: Span;
  /** m */
  readonly value: Interval;
  /** As written. */
  readonly words: string;
  /** Only sizes taken alike are compared: number of stems, height of measuring. */
  readonly way: string;
}

export interface Shrunk {
  readonly size: 'diameter' | 'height';
  readonly earlier: Measured;
  readonly later: Measured;
  /** Share of the earlier size that is gone. */
  readonly loss: Judged;
}

const NOW = Number.POSITIVE_INFINITY;
const LIMITS = { diameter: 'diameter-loss', height: 'height-loss' } as const;

/** Work of these kinds leaves the top where it is. */
const LEAVES_TOP: ReadonlySet<string> = new Set([
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

/** Sizes that are less than an earlier one by more than measuring explains, with no event that would explain it. */
export const shrunk = (tree: Tree, site: Site | undefined, settings: Settings): readonly Shrunk[] => [
  ...losses('diameter', diametersOf(tree, settings), [], settings),
  ...losses('height', heightsOf(tree, settings), topLost(tree, site), settings),
];

function losses(
  size: Shrunk['size'],
  sizes: readonly Measured[],
  /** Day numbers of what takes off some of it. */
  explained: readonly number[],
  settings: Settings,
): readonly Shrunk[] {
  const found: Shrunk[] = [];
  // The greatest size so far that still stands, for each way of measuring.
  const standing = new Map<string, Measured>();
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
    // One slip is told once: what follows is held against the size that was told.
    if (loss.standing === 'exceeds' || later.value.low > earlier.value.low) standing.set(later.way, later);
  }
  return found;
}

/** In the order of their days; of one day as in the text. */
const inOrder = (sizes: readonly (Measured | undefined)[]): readonly Measured[] =>
  sizes
    .filter((size): size is Measured => size !== undefined && size.value.low > 0 && size.value.high < NOW)
    .sort((a, b) => (a.day === b.day ? 0 : a.day - b.day));

const wordsOf = (written: readonly Placed<Quantity>[]): string =>
  written.map(({ value }) => showQuantity(value)).join(', ');

function diametersOf(tree: Tree, settings: Settings): readonly Measured[] {
  const all = [...tree.inspections.map(one => ({ ...one, day: one.date.value })), { ...tree, day: NOW }];
  return inOrder(
    all.map(({ diameters, measuredAt, day }): Measured | undefined => {
      const read = diameters.map(({ value }) => valuesOf(value, settings));
      if (read.length === 0 || !read.every(({ low }) => low > 0)) return undefined;
      const height = measuredAt ? `${measuredAt.value.low}..${measuredAt.value.high}` : '';
      return {
        day,
        at: { start: diameters[0]!.start, end: diameters.at(-1)!.end },
        value: equivalentDiameter(read),
        words: wordsOf(diameters),
        way: `${read.length} at ${height}`,
      };
    }),
  );
}

function heightsOf(tree: Tree, settings: Settings): readonly Measured[] {
  const all = [
    ...tree.inspections.map(({ height, date }) => ({ height, day: date.value })),
    ...tree.works.map(({ height, date }) => ({ height, day: date.value })),
    { height: tree.height, day: NOW },
  ];
  return inOrder(
    all.map(
      ({ height, day }): Measured | undefined =>
        height && {
          day,
          at: { start: height.start, end: height.end },
          value: valuesOf(height.value, settings),
          words: wordsOf([height]),
          way: '',
        },
    ),
  );
}

/** Days on which the top may have been cut or broken. */
function topLost(tree: Tree, site: Site | undefined): readonly number[] {
  const kinds = new Map(tree.prescriptions.map(({ id, kind }) => [id.value, kind.value]));
  return [
    // Work under a prescription that nobody finds may have been anything.
    ...tree.works
      .filter(({ prescription }) => !LEAVES_TOP.has(kinds.get(prescription.value) ?? ''))
      .map(({ date }) => date.value),
    ...(site?.storms ?? []).map(({ date }) => date.value),
    ...(tree.felled ? [tree.felled.value] : []),
    ...(tree.stressed?.cause === 'storm' && tree.stressed.since !== undefined ? [tree.stressed.since] : []),
  ];
}
