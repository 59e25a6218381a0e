/** What the inspections of a tree say of it: its sizes, and which of them saw a defect. */

import { HEADS } from '../../grammar/fields.ts';
import { membersOf } from './schema.ts';
import type { Inspection, Sizes, Tree } from './types.ts';

type UnfinishedTree<T> = { -readonly [K in keyof T]: T[K] };

/** The lists whose facts belong to an inspection, and the member that has its day. */
const INSPECTED = [...HEADS.values()].flatMap(({ list, fields }) => {
  const day = [...fields.values()].find(({ inspected }) => inspected);
  return day ? [[list!, membersOf(day)[0]!.name] as const] : [];
});

/** What a tree does not state itself and its inspections do. */
export function completeTree(tree: Tree, isSeenElsewhere: boolean): void {
  fillSizes(tree, tree.inspections);
  if (!isSeenElsewhere) return;
  for (const [list, day] of INSPECTED) {
    const facts = tree[list as keyof Tree] as unknown as readonly Record<string, unknown>[];
    for (const fact of facts) {
      const { inspection } = fact as { readonly inspection?: Inspection };
      // A fact that states its day belongs to the inspection of that day, wherever that is in the text.
      if (fact[day] !== inspection?.date.value)
        fact.inspection = tree.inspections.findLast(({ date }) => date.value === fact[day]);
    }
  }
}

/** Whether an inspection counts before another one: it is of a later day, or of the same and more of it is above nothing. */
const later = (one: Inspection, other: Inspection, more: number): boolean =>
  one.date.value > other.date.value || (one.date.value === other.date.value && more > 0);

const thickness = ({ diameters }: Inspection): number =>
  diameters.reduce((sum, { value }) => sum + value.low, 0);

/**
 * What a tree does not state of its sizes, as the last inspection that measured it found it; of two on one day the
 * thinner stem and the taller tree, since the place in the file says nothing.
 */
function fillSizes(tree: UnfinishedTree<Sizes>, inspections: readonly Inspection[]): void {
  if (tree.height && tree.diameters.length > 0) return;
  let measured: Inspection | undefined;
  let tall: Inspection | undefined;
  for (const one of inspections) {
    if (one.diameters.length > 0 && (!measured || later(one, measured, thickness(measured) - thickness(one))))
      measured = one;
    if (one.height && (!tall || later(one, tall, one.height.value.high - tall.height!.value.high)))
      tall = one;
  }
  if (tree.diameters.length === 0 && measured) {
    tree.diameters = measured.diameters;
    tree.measuredAt = measured.measuredAt;
  }
  tree.height ??= tall?.height;
}
