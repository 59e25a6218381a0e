/** Sizes of a tree that are from before work which changed them. */

import type { Quantity } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import { stagesLeft } from '../facts/stages.ts';
import { asWritten } from '../facts/state.ts';
import type { Placed, Prescription, Tree, Work } from '../facts/types.ts';

type Size = 'height' | 'crownSpread' | 'crownBase';

/** What each kind of work changes. */
const CHANGES: Readonly<Partial<Record<Prescription['kind']['value'], readonly Size[]>>> = {
  reduce: ['height', 'crownSpread'],
  pollard: ['height', 'crownSpread'],
  monolith: ['height'],
  raise: ['crownBase'],
};

export const SIZE_WORDS: Readonly<Record<Size, string>> = {
  height: 'height',
  crownSpread: 'spread',
  crownBase: 'crown base',
};

export interface OldSizes {
  readonly work: Work;
  readonly prescription: Prescription;
  readonly sizes: readonly Size[];
}

/**
 * The sizes that the last work under each prescription changed, and that neither it nor any look since has stated. A
 * reduction of single limbs says nothing of the whole crown.
 */
export function sizesBeforeWork(tree: Tree): readonly OldSizes[] {
  const { works, prescriptions, dated } = tree;
  return prescriptions.flatMap((prescription): OldSizes[] => {
    const { kind, id, shortened, remove } = prescription;
    const changed = CHANGES[kind.value];
    if (!changed || shortened.length + remove.length > 0 || stagesLeft(tree, prescription) > 0) return [];
    const own = works.filter(work => work.prescription.value === id.value);
    const work = own.reduce((last, one) => (one.date.value > last.date.value ? one : last), own[0]!);
    const states = changed.filter(size => (dated?.get(size) ?? Number.NEGATIVE_INFINITY) >= work.date.value);
    // Of a reduction in height alone the spread stays as it is.
    if (states.length > 0) return [];
    const sizes = changed.filter(size => tree[size] !== undefined);
    return sizes.length > 0 ? [{ work, prescription, sizes }] : [];
  });
}

export interface PerhapsLater {
  readonly work: Work;
  readonly size: Size;
  /** As the tree states it, without a day. */
  readonly stated: Placed<Quantity>;
  /** What the work left, which counts. */
  readonly left: Placed<Quantity>;
}

/**
 * Sizes that the tree states without a day, that are greater than what work left and certainly less than the work was to
 * begin with: they may have been measured since, and then they count for too little.
 */
export function sizesPerhapsLater(tree: Tree, settings: Settings): readonly PerhapsLater[] {
  const written = asWritten(tree);
  const error = settings.limit('height-loss').value;
  return tree.works.flatMap((work): PerhapsLater[] => {
    const prescription = tree.prescriptions.find(({ id }) => id.value === work.prescription.value);
    if (!prescription) return [];
    return (['height', 'crownSpread', 'crownBase'] as const).flatMap((size): PerhapsLater[] => {
      const { height, spread, base } = prescription;
      const change = { height, crownSpread: spread, crownBase: base }[size];
      const [stated, left] = [written[size], tree[size]];
      if (!change || !stated || !left || tree.dated?.get(size) !== work.date.value) return [];
      const now = valuesOf(stated.value, settings);
      const isAbove = now.low > valuesOf(left.value, settings).high;
      const isBelow = now.high < valuesOf(change.from.value, settings).low * (1 - error / 2);
      return isAbove && isBelow ? [{ work, size, stated, left }] : [];
    });
  });
}
