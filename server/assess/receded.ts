/** Readings of a defect that time can't explain: cavities, decay and cracks do not get smaller by themselves. */

import { interval } from '../base/interval.ts';
import { DAYS_PER_YEAR, type Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Placed, Tree } from '../facts/types.ts';
import { isOpen } from './evidence.ts';
import { type Judged, judge } from './judge.ts';

type Extent = 'depth' | 'length' | 'opening';

/** What never gets smaller, by the kind of defect. Wounds, cankers and openings close over. */
const LASTING: Readonly<Partial<Record<Defect['kind']['value'], Extent>>> = {
  cavity: 'depth',
  decay: 'depth',
  crack: 'length',
};

interface DatedExtent {
  readonly quantity: Placed<Quantity>;
  /** Undefined without a day, which counts as the oldest. */
  readonly day: number | undefined;
}

export interface Receded {
  readonly defect: Defect;
  readonly extent: Extent;
  readonly earlier: DatedExtent;
  readonly later: DatedExtent;
  /** m; of an opening m a year */
  readonly loss: Judged;
}

/** Openings close over, but not faster than woundwood grows. */
const OPENED: ReadonlySet<Defect['kind']['value']> = new Set(['cavity', 'decay']);

const quantityOf = (reading: Defect, extent: Extent): Placed<Quantity> | undefined =>
  extent === 'opening' ? reading.opening?.width : reading[extent];

/** The newest reading against the greatest before it, where even what both may be off does not explain it. */
export const recededReadings = (tree: Tree, settings: Settings): readonly Receded[] =>
  tree.felled
    ? []
    : tree.defects.flatMap(defect => {
        if (defect.earlier.length === 0 || !isOpen(defect)) return [];
        const lasting = LASTING[defect.kind.value];
        const extents = [lasting, OPENED.has(defect.kind.value) ? ('opening' as const) : undefined];
        return extents.flatMap(extent => (extent && recededIn(defect, extent, tree, settings)) ?? []);
      });

function recededIn(defect: Defect, extent: Extent, tree: Tree, settings: Settings): Receded | undefined {
  // A filled cavity is no longer probed to its end.
  if (defect.state?.value === 'filled') return undefined;
  const readings = [defect, ...defect.earlier].flatMap((reading, i): readonly DatedExtent[] => {
    const quantity = quantityOf(reading, extent);
    const isOwn = i > 0 || !defect.older?.has(extent);
    return isOwn && quantity && quantity.value.form !== 'unseen' ? [{ quantity, day: reading.seen }] : [];
  });
  const [later, ...before] = readings;
  if (!later || before.length === 0) return undefined;
  const sizeOf = ({ quantity }: DatedExtent) => valuesOf(quantity.value, settings);
  const earlier = before.reduce((most, one) => (sizeOf(one).low > sizeOf(most).low ? one : most));
  if (isCutBetween(defect, tree, earlier.day, later.day)) return undefined;
  const [was, is] = [sizeOf(earlier), sizeOf(later)];
  const less = interval(was.low - is.high, was.high - is.low);
  if (extent !== 'opening') {
    const loss = judge(less, 'extent-loss', settings);
    return loss.standing === 'exceeds' ? { defect, extent, earlier, later, loss } : undefined;
  }
  if (earlier.day === undefined || later.day === undefined || later.day <= earlier.day) return undefined;
  const years = (later.day - earlier.day) / DAYS_PER_YEAR;
  const off = settings.limit('extent-loss').value;
  const loss = judge(interval((less.low - off) / years, (less.high + off) / years), 'closing-rate', settings);
  return loss.standing === 'exceeds' ? { defect, extent, earlier, later, loss } : undefined;
}

/** Whether a stem or limb may have been cut back, with part of the defect on it. */
const isCutBetween = (
  { part }: Defect,
  { works }: Tree,
  from = Number.NEGATIVE_INFINITY,
  to = Number.POSITIVE_INFINITY,
): boolean =>
  part !== undefined &&
  part.value !== 'trunk' &&
  works.some(({ date }) => from <= date.value && date.value <= to);
