/** Sizes of a tree that are from before work which changed them. */

import { stagesLeft } from '../facts/stages.ts';
import type { Prescription, Tree, Work } from '../facts/types.ts';

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
