/** Sizes of a tree: those that count now, and those that an inspection measured. */

import type { BlockLine } from '../../grammar/syntax.ts';
import type { Quantity } from '../base/quantity.ts';
import { type Draft, quantities, quantity } from './lines.ts';
import type { Inspection, Placed, Sizes } from './types.ts';

/** Whether the line gave a size. A diameter that was taped directly counts before one from the girth. */
export function readSize(sizes: Draft<Sizes>, line: BlockLine): boolean {
  switch (line.word) {
    case 'dbh':
      sizes.diameters = quantities(line, 'diameter');
      sizes.measuredAt = quantity(line, 'at');
      return true;
    case 'girth':
      if (sizes.diameters.length > 0) return true;
      sizes.diameters = quantities(line, 'girth').map(fromGirth);
      sizes.measuredAt = quantity(line, 'at');
      return true;
    case 'height':
      sizes.height = quantity(line, 'height');
      return true;
    default:
      return false;
  }
}

/** A circumference as the diameter of the circle that it would be. */
function fromGirth({ value, start, end }: Placed<Quantity>): Placed<Quantity> {
  return { value: { ...value, low: value.low / Math.PI, high: value.high / Math.PI }, start, end };
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
export function fillSizes(tree: Draft<Sizes>, inspections: readonly Inspection[]): void {
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
